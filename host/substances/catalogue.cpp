#include "host/substances/catalogue.hpp"

#include "units/atomic_weights.hpp"

#include <charconv>
#include <initializer_list>

namespace vatwright {
namespace {

class EntryReader {
 public:
  EntryReader(const Document& doc, const Node& entry) : doc_(doc), entry_(entry) {}

  Substance read(std::string id) const {
    Substance s;
    s.facts.id = std::move(id);
    s.facts.formula = text(entry_, "formula");
    if (!s.facts.formula.empty()) s.facts.molar_mass = mass_of(*entry_.find("formula"));
    s.product = text(entry_, "product");
    s.form = text(entry_, "form");
    s.density = text(entry_, "density");
    s.uses = text(entry_, "uses");
    read_active(s);
    if (const Node* brings = entry_.find("brings"))
      for (const auto& [key, part, value] : brings->entries) s.facts.brings.emplace_back(key, share(s, value));
    if (const Node* hazards = entry_.find("hazards"))
      for (const auto& h : hazards->items) s.hazards.push_back({text(h, "code"), text(h, "text"), text(h, "standing")});
    s.cautions = texts("cautions");
    s.handling = texts("handling");
    s.source = source();
    return s;
  }

 private:
  static std::string text(const Node& map, std::string_view key) {
    const Node* node = map.find(key);
    return node == nullptr ? std::string() : node->text;
  }

  // A substance without a caution would be shown without one: that is refused.
  std::vector<std::string> texts(std::string_view key) const {
    std::vector<std::string> out;
    if (const Node* list = entry_.find(key))
      for (const auto& item : list->items) out.push_back(item.text);
    if (out.empty())
      doc_.fail(entry_.mark, "a substance without '" + std::string(key) + "'", "add its list of sentences");
    return out;
  }

  std::string source() const {
    const Node* node = entry_.find("source");
    if (node == nullptr) doc_.fail(entry_.mark, "a substance without 'source'", "add 'source: {title: ...}'");
    std::string out;
    for (const auto* key : {"title", "place", "standing"}) {
      const std::string part = text(*node, key);
      if (!part.empty()) out += (out.empty() ? "" : ", ") + part;
    }
    return out;
  }

  MolarMass mass_of(const Node& formula) const {
    try {
      return molar_mass(formula.text);
    } catch (const std::invalid_argument& error) {
      doc_.fail(formula.mark, error.what(), "such as K2S2O5");
    }
  }

  double share(const Substance& s, const Node& part) const {
    const Node* formula = part.find("formula");
    const std::string count = text(part, "count");
    int n = 0;
    std::from_chars(count.data(), count.data() + count.size(), n);
    if (formula == nullptr || n <= 0 || s.facts.formula.empty())
      doc_.fail(part.mark, "expected the active part of a substance that has a formula",
                "such as {formula: SO2, count: 2}");
    return n * mass_of(*formula).value() / s.facts.molar_mass.value();
  }

  void read_active(Substance& s) const {
    const Node* active = entry_.find("active");
    if (active == nullptr) return;
    s.active_by_strength = active->text == "by strength";
    if (s.active_by_strength) {
      s.facts.active_share = 0;
    } else {
      s.active = text(*active, "formula");
      s.facts.active_share = share(s, *active);
    }
  }

  const Document& doc_;
  const Node& entry_;
};

}  // namespace

const Substance* Catalogue::find(std::string_view id) const {
  const std::scoped_lock lock(reading_);
  if (const auto known = read_.find(id); known != read_.end()) return &known->second;
  const auto doc = sections_.find(id);
  if (!doc) return nullptr;
  const Node* entry = doc->root().find(id);
  if (entry == nullptr || entry->kind != Node::Kind::map)
    doc->fail(doc->root().mark, "expected the facts of '" + std::string(id) + "'",
              "write its keys below it, each indented by two spaces");
  return &read_.emplace(id, EntryReader(*doc, *entry).read(std::string(id))).first->second;
}

}  // namespace vatwright
