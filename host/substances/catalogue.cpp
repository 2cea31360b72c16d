#include "host/substances/catalogue.hpp"

#include "host/plugin/lot.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/atomic_weights.hpp"
#include "units/nearest.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 14> entry_keys{"formula",  "product", "form",     "density", "uses",
                                                      "active",   "brings",  "label",    "hazards", "at work",
                                                      "cautions", "papers",  "handling", "source"};
constexpr std::array<std::string_view, 3> at_work_keys{"rules", "limit", "source"};
constexpr std::array<std::string_view, 4> label_keys{"is", "class", "number", "allergen"};
constexpr std::array<std::string_view, 3> counts_as{"additive", "processing aid", "ingredient"};
constexpr std::string_view first_aid_section = "first aid";
constexpr std::array<std::string_view, 3> first_aid_keys{"part", "codes", "line"};
constexpr std::string_view signal_section = "signal words";
constexpr std::array<std::string_view, 2> signal_keys{"word", "codes"};
constexpr std::array<std::string_view, 2> sections_of_all{first_aid_section, signal_section};
constexpr std::array<std::string_view, 5> hazard_keys{"code", "text", "from", "below", "standing"};
constexpr std::array<std::string_view, 3> source_keys{"title", "place", "standing"};
constexpr std::array<std::string_view, 2> share_keys{"formula", "count"};

class EntryReader {
 public:
  EntryReader(const Document& doc, const Node& entry) : doc_(doc), entry_(entry) {}

  Substance read(std::string id) const {
    Substance s;
    refuse_unknown_keys(doc_, entry_, "a substance", entry_keys);
    s.facts.id = std::move(id);
    s.facts.formula = text(entry_, "formula");
    if (!s.facts.formula.empty()) s.facts.molar_mass = mass_of(*entry_.find("formula"));
    s.product = text(entry_, "product");
    s.form = text(entry_, "form");
    s.density = text(entry_, "density");
    s.facts.form = s.form;
    s.uses = text(entry_, "uses");
    if (const Node* label = entry_.find("label")) s.facts.label = on_label(*label);
    read_active(s);
    if (const Node* brings = entry_.find("brings"))
      for (const auto& entry : brings->entries) s.facts.brings.emplace_back(lot_key(entry), share(s, entry.value));
    for (const auto& h : list("hazards").items) s.hazards.push_back(hazard(h));
    if (const Node* limits = entry_.find("at work"))
      for (const auto& row : limits->items) s.at_work.push_back(at_work(row));
    s.cautions = texts("cautions");
    if (entry_.find("papers") != nullptr) s.papers = texts("papers");
    s.handling = texts("handling");
    s.source = source();
    return s;
  }

 private:
  static std::string text(const Node& map, std::string_view key) {
    const Node* node = map.find(key);
    return node == nullptr ? std::string() : node->text;
  }

  // What an addition leaves in the lot is looked for by the lot's name for it.
  const std::string& lot_key(const Entry& entry) const {
    std::vector<std::string_view> known;
    for (const Input* key : lot::keys) known.push_back(key->name);
    if (std::find(known.begin(), known.end(), entry.key) == known.end())
      doc_.fail(entry.mark, "a lot has no " + in_quotes(entry.key),
                did_you_mean(entry.key, known, "'brings' names keys of a lot"));
    return entry.key;
  }

  const Node& list(std::string_view key) const {
    const Node* found = entry_.find(key);
    if (found == nullptr)
      doc_.fail(entry_.mark, "a substance without '" + std::string(key) + "'", "add it; a list may be empty: []");
    if (found->kind != Node::Kind::list)
      doc_.fail(found->mark, "expected a list under '" + std::string(key) + "'", "begin each line of it with '- '");
    return *found;
  }

  OnLabel on_label(const Node& node) const {
    refuse_unknown_keys(doc_, node, "a label", label_keys);
    OnLabel label{text(node, "is"), text(node, "class"), text(node, "number"), text(node, "allergen")};
    if (std::find(counts_as.begin(), counts_as.end(), label.is) == counts_as.end())
      doc_.fail(node.mark, "expected what it counts as on the label, read " + in_quotes(label.is),
                "'is' is additive, processing aid or ingredient");
    return label;
  }

  Hazard hazard(const Node& node) const {
    refuse_unknown_keys(doc_, node, "a hazard", hazard_keys);
    Hazard h{text(node, "code"), text(node, "text"), text(node, "standing"),
             StrengthRange(doc_, node.find("from"), node.find("below"))};
    if (h.code.empty() || h.text.empty())
      doc_.fail(node.mark, "a hazard without its code or text", "such as {code: H318, text: ..., standing: seen}");
    return h;
  }

  AtWork at_work(const Node& node) const {
    refuse_unknown_keys(doc_, node, "a limit at work", at_work_keys);
    AtWork limit{text(node, "rules"), text(node, "limit"), text(node, "source")};
    if (limit.rules.empty() || limit.limit.empty() || limit.source.empty())
      doc_.fail(node.mark, "a limit at work wants 'rules', 'limit' and 'source'", "add what is missing");
    return limit;
  }

  // A substance without a caution would be shown without one: that is refused.
  std::vector<std::string> texts(std::string_view key) const {
    std::vector<std::string> out;
    for (const auto& item : list(key).items) {
      if (item.kind != Node::Kind::text || item.text.empty())
        doc_.fail(item.mark, "expected a sentence under '" + std::string(key) + "'",
                  "one with ': ' in it wants quotes");
      out.push_back(item.text);
    }
    if (out.empty())
      doc_.fail(entry_.mark, "a substance without '" + std::string(key) + "'", "add its list of sentences");
    return out;
  }

  std::string source() const {
    const Node* node = entry_.find("source");
    if (node == nullptr) doc_.fail(entry_.mark, "a substance without 'source'", "add 'source: {title: ...}'");
    refuse_unknown_keys(doc_, *node, "a source", source_keys);
    if (text(*node, "title").empty()) doc_.fail(node->mark, "a source without 'title'", "write 'source: {title: ...}'");
    std::string out;
    for (const auto key : source_keys) {
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
    refuse_unknown_keys(doc_, part, "a part of a substance", share_keys);
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

std::vector<FirstAid> read_first_aid(const Document& doc) {
  std::vector<FirstAid> out;
  for (const auto& row : doc.root().entries.front().value.items) {
    refuse_unknown_keys(doc, row, "a line of first aid", first_aid_keys);
    const auto all = std::all_of(first_aid_keys.begin(), first_aid_keys.end(),
                                 [&](std::string_view key) { return row.find(key) != nullptr; });
    if (!all) doc.fail(row.mark, "a line of first aid wants 'part', 'codes' and 'line'", "add what is missing");
    FirstAid aid{row.find("part")->text, row.find("line")->text, {}};
    for (const auto& code : row.find("codes")->items) aid.codes.push_back(code.text);
    out.push_back(std::move(aid));
  }
  return out;
}

std::vector<SignalWord> read_signals(const Document& doc) {
  std::vector<SignalWord> out;
  for (const auto& row : doc.root().entries.front().value.items) {
    refuse_unknown_keys(doc, row, "a signal word", signal_keys);
    const Node *word = row.find("word"), *codes = row.find("codes");
    if (word == nullptr || codes == nullptr)
      doc.fail(row.mark, "a signal word wants 'word' and 'codes'", "add what is missing");
    out.push_back({word->text, {}});
    for (const auto& code : codes->items) out.back().codes.push_back(code.text);
  }
  return out;
}

bool any_of(const std::vector<std::string>& codes, const std::vector<Hazard>& hazards) {
  return std::any_of(hazards.begin(), hazards.end(), [&](const Hazard& hazard) {
    return std::find(codes.begin(), codes.end(), hazard.code) != codes.end();
  });
}

constexpr std::string_view at_work_begins = "The limit at work is ";

// Of the rule sets that are named; where none of them has one, the strictest.
std::string limit_at_work(const std::vector<AtWork>& limits, std::span<const std::string> rules) {
  std::string out(at_work_begins);
  bool said = false;
  for (const auto& one : limits) {
    if (std::find(rules.begin(), rules.end(), one.rules) == rules.end()) continue;
    out += (said ? ", " : "") + one.limit + " (" + one.rules + ": " + one.source + ")";
    said = true;
  }
  if (said) return out + ".";
  const AtWork& first = limits.front();
  return out + first.limit + " (" + first.rules + ": " + first.source +
         "), the strictest that is known here; the rules of your place count.";
}

std::vector<std::string> rules_of(const std::vector<AtWork>& limits) {
  std::vector<std::string> out;
  for (const auto& one : limits) out.push_back(one.rules);
  return out;
}

}  // namespace

Catalogue::Catalogue(const std::filesystem::path& table) : sections_(table) {
  if (const auto doc = sections_.find(first_aid_section)) first_aid_ = read_first_aid(*doc);
  if (const auto doc = sections_.find(signal_section)) signals_ = read_signals(*doc);
}

std::vector<std::string_view> Catalogue::names() const {
  auto names = sections_.names();
  std::erase_if(names, [](std::string_view name) {
    return std::find(sections_of_all.begin(), sections_of_all.end(), name) != sections_of_all.end();
  });
  return names;
}

Substance Catalogue::whole(std::string_view id, const Document& doc) const {
  const Node* entry = doc.root().find(id);
  if (entry == nullptr || entry->kind != Node::Kind::map)
    doc.fail(doc.root().mark, "expected the facts of '" + std::string(id) + "'",
             "write its keys below it, each indented by two spaces");
  return EntryReader(doc, *entry).read(std::string(id));
}

std::string Catalogue::signal_of(const std::vector<Hazard>& hazards) const {
  for (const auto& signal : signals_)
    if (any_of(signal.codes, hazards)) return signal.word;
  return {};
}

const Substance* Catalogue::find(std::string_view id) const {
  if (std::find(sections_of_all.begin(), sections_of_all.end(), id) != sections_of_all.end()) return nullptr;
  const std::scoped_lock lock(reading_);
  if (const auto known = read_.find(id); known != read_.end()) return &known->second;
  const auto doc = sections_.find(id);
  if (!doc) return nullptr;
  Substance substance = whole(id, *doc);
  for (auto& hazard : substance.hazards)
    if (!hazard.strength.everywhere()) hazard.text += " (" + hazard.strength.words() + ")";
  substance.signal = signal_of(substance.hazards);
  if (!substance.at_work.empty())
    substance.cautions.push_back(limit_at_work(substance.at_work, rules_of(substance.at_work)));
  for (const auto& aid : first_aid_)
    if (any_of(aid.codes, substance.hazards))
      substance.cautions.push_back("First aid, " + aid.part + ": " + aid.line + ".");
  return &read_.emplace(id, std::move(substance)).first->second;
}

const Substance* Catalogue::find(std::string_view id, const Handling& handling) const {
  const Substance* any = find(id);
  if (any == nullptr) return nullptr;
  const auto known = strength_in(handling.strength, any->facts.molar_mass);
  const bool picks = known && std::any_of(any->hazards.begin(), any->hazards.end(),
                                          [](const Hazard& hazard) { return !hazard.strength.everywhere(); });
  if (!picks && handling.languages.empty() && any->at_work.empty()) return any;
  const std::string at_work = any->at_work.empty() ? "" : limit_at_work(any->at_work, handling.rules);
  std::string key = std::string(id) + ": " + at_work;
  for (const auto& hazard : any->hazards) key += !picks || hazard.strength.holds_at(*known) ? ", " + hazard.code : "";
  for (const auto& language : handling.languages) key += ", " + language.code();
  key += picks ? ", of a strength" : "";
  const std::scoped_lock lock(reading_);
  if (const auto there = handled_.find(key); there != handled_.end()) return &there->second;
  Substance handled = picks ? whole(id, *sections_.find(id)) : *any;
  if (picks) {
    std::erase_if(handled.hazards, [&](const Hazard& hazard) { return !hazard.strength.holds_at(*known); });
    handled.signal = signal_of(handled.hazards);
    handled.cautions = any->cautions;
  }
  for (auto& caution : handled.cautions)
    if (caution.starts_with(at_work_begins)) caution = at_work;
  for (const auto& language : handling.languages) {
    for (auto& hazard : handled.hazards) hazard.also.push_back(language.say(hazard.code));
    if (!handled.signal.empty()) handled.signal_also.push_back(language.say(handled.signal));
  }
  return &handled_.emplace(std::move(key), std::move(handled)).first->second;
}

}  // namespace vatwright
