#include "host/recipe/recipe.hpp"

#include "host/files/printable.hpp"
#include "host/recipe/lot_name.hpp"
#include "host/recipe/together.hpp"
#include "host/recipe/value.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 11> recipe_keys{
    "recipe",      "demo data",        "date", "by",   "rules", "language", "acid basis",
    "uncertainty", "unusual readings", "lots", "steps"};

constexpr DateKey day_of_work{{.name = "date", .help = "day of the work"}};
constexpr std::string_view sample_key = "sample";

constexpr char such_title[] = "such as 'recipe: Tank 7, before bottling'";
constexpr char such_steps[] = "such as 'steps:', and below it '  - sulfite.molecular: {lot: T7}'";
constexpr char such_recipe[] =
    "such as 'recipe: a title', 'lots: {T7: {pH: 3.42, free SO2: 14 mg/L}}' and 'steps:' with "
    "'- sulfite.molecular: {lot: T7}' below it";
constexpr char uncertainty_hint[] =
    "write 'uncertainty: typical', and readings without ± take the published one of their method; write ± with a "
    "reading for your own; 'uncertainty: from book' takes how far this cellar's forecasts were off";

constexpr char unusual_hint[] =
    "write 'unusual readings: accepted' when you have looked at each, or leave it out: a row of a table whose dose "
    "hangs "
    "on one is held back then";

class RecipeReader {
 public:
  RecipeReader(Document document, Slips& slips, const LotSource* source)
      : recipe_(std::move(document)), doc_(recipe_.document), slips_(slips), source_(source) {}

  Recipe read() {
    const Node& root = doc_.root();
    if (root.kind != Node::Kind::map)
      doc_.fail(root.mark, "expected a recipe with 'recipe:', 'lots:' and 'steps:'", such_recipe);
    for (const auto& entry : root.entries) look_at_key(entry);
    slips_.in([&] {
      if (const Node* title = due("recipe", such_title)) recipe_.title = text(*title, "a title", such_title);
    });
    slips_.in([&] {
      if (const Node* demo = root.find("demo data"))
        recipe_.demo = text(*demo, "a sentence", "say that the data is invented, or leave it out");
    });
    slips_.in([&] {
      if (const Node* date = root.find("date")) recipe_.date = read_value(doc_, *date, day_of_work, nullptr).written;
    });
    slips_.in([&] {
      if (const Node* by = root.find("by")) recipe_.by = line(*by, "the name of whoever computes this");
    });
    const Node* basis = root.find("acid basis");
    // Of acidities that lean on a basis which cannot be read nothing can be said.
    if ((basis != nullptr && slips_.in([&] { read_basis(*basis); })) || misspelt("acid basis"))
      recipe_.acid_basis = find_basis("tartaric acid");
    slips_.in([&] {
      if (const Node* rules = root.find("rules"))
        read_names(*rules, "the name of a rule set (EU, US, OIV, ...), a file, or a list of them",
                   "such as 'rules: EU' or 'rules: [EU, my house.yaml]'; 'vatwright rules' lists the sets",
                   recipe_.rules);
    });
    slips_.in([&] {
      if (const Node* language = root.find("language"))
        read_names(*language, "a language of the cellar (fr, de, es, ...), or a list of them",
                   "such as 'language: fr' or 'language: [fr, pt]'", recipe_.languages);
    });
    slips_.in([&] {
      if (const Node* uncertainty = root.find("uncertainty")) read_uncertainty(*uncertainty);
    });
    slips_.in([&] {
      if (const Node* unusual = root.find("unusual readings")) read_unusual(*unusual);
    });
    const Node* lots = root.find("lots");
    recipe_.lots_unread = (lots != nullptr && slips_.in([&] { read_lots(*lots); })) || misspelt("lots");
    slips_.in([&] {
      if (const Node* steps = due("steps", such_steps)) read_steps(*steps);
    });
    return std::move(recipe_);
  }

 private:
  void look_at_key(const Entry& entry) {
    if (std::find(recipe_keys.begin(), recipe_keys.end(), entry.key) != recipe_keys.end()) return;
    meant_.insert(nearest(entry.key, recipe_keys));
    slips_.in([&] {
      doc_.fail(entry.mark, "unknown key '" + entry.key + "'",
                did_you_mean(entry.key, recipe_keys, fmt::format("a recipe has {}", fmt::join(recipe_keys, ", "))));
    });
  }

  bool misspelt(std::string_view key) const { return meant_.contains(key) && doc_.root().find(key) == nullptr; }

  // nullptr when it is there under a name that was refused already.
  const Node* due(std::string_view key, const std::string& such) const {
    const Node* node = doc_.root().find(key);
    if (node == nullptr && !misspelt(key))
      doc_.fail(doc_.root().mark, "no '" + std::string(key) + ":' in this recipe", such);
    return node;
  }

  void read_unusual(const Node& unusual) {
    recipe_.unusual_accepted = text(unusual, "'accepted'", unusual_hint) == "accepted";
    if (!recipe_.unusual_accepted)
      doc_.fail(unusual.mark, "expected 'accepted', read '" + unusual.text + "'", unusual_hint);
  }

  void read_uncertainty(const Node& node) {
    const auto& word = text(node, "'typical' or 'from book'", uncertainty_hint);
    recipe_.typical_uncertainty = word == "typical";
    if (word == "from book") return learn(node.mark);
    if (!recipe_.typical_uncertainty)
      doc_.fail(node.mark, "expected 'typical' or 'from book', read '" + node.text + "'", uncertainty_hint);
  }

  void learn(Mark mark) {
    if (source_ == nullptr) no_book(mark, "the uncertainty");
    try {
      recipe_.learned = source_->lessons();
    } catch (const InputError& error) {
      doc_.fail(mark, error.what(), error.hint());
    }
  }

  [[noreturn]] void no_book(Mark mark, const std::string& what) const {
    doc_.fail(mark, what + " is to come from the book, and there is none here",
              "a sheet is run with a book by 'vatwright run'; elsewhere write what was measured");
  }

  const std::string& text(const Node& node, const std::string& expected, const std::string& such) const {
    if (node.kind != Node::Kind::text || node.text.empty()) doc_.fail(node.mark, "expected " + expected, such);
    return node.text;
  }

  // Short enough to stand in the head of a sheet.
  std::string line(const Node& node, const std::string& expected) const {
    constexpr std::size_t most = 100;
    const std::string such = fmt::format("write it on one line of at most {} bytes", most);
    const std::string& words = text(node, expected, such);
    if (words.size() > most || !is_printable(words)) doc_.fail(node.mark, "expected " + expected, such);
    return words;
  }

  void read_basis(const Node& node) {
    recipe_.acid_basis =
        find_basis(text(node, "the acid that acidities are counted as", "such as 'acid basis: tartaric acid'"));
    std::vector<std::string_view> known;
    for (const auto& basis : bases())
      if (basis.counts == Counts::acid_equivalents) known.push_back(basis.name);
    if (recipe_.acid_basis == nullptr || recipe_.acid_basis->counts != Counts::acid_equivalents)
      doc_.fail(node.mark, "'" + node.text + "' is no acid that an acidity is counted as",
                did_you_mean(node.text, known, fmt::format("one of: {}", fmt::join(known, ", "))));
  }

  void read_names(const Node& node, const std::string& expected, const std::string& such,
                  std::vector<std::pair<std::string, Mark>>& names) const {
    if (node.kind == Node::Kind::list) {
      for (const auto& item : node.items) names.emplace_back(text(item, expected, such), item.mark);
    } else {
      names.emplace_back(text(node, expected, such), node.mark);
    }
  }

  void read_lots(const Node& node) {
    if (node.kind != Node::Kind::map || node.entries.empty())
      doc_.fail(node.mark, "expected at least one lot with its analysis", "such as 'T7: {volume: 48 hL, pH: 3.42}'");
    for (const auto& entry : node.entries) {
      LotSpec lot{entry.key, {}};
      slips_.in([&] { refuse_look_alike(entry); });
      if (slips_.in([&] { read_lot(entry, lot); })) lot.all_unread = true;
      recipe_.lots.push_back(std::move(lot));
    }
  }

  void refuse_look_alike(const Entry& entry) {
    const auto [at, is_new] = likenesses_.emplace(likeness(entry.key), entry.key);
    if (!is_new)
      doc_.fail(entry.mark, fmt::format("the lots '{}' and '{}' look alike", at->second, entry.key),
                "give one of them a name that nobody takes for the other: capitals, spaces and letters of another "
                "alphabet make no other name");
  }

  void read_lot(const Entry& entry, LotSpec& lot) {
    slips_.in([&] {
      try {
        check_lot_name(lot.name);
      } catch (const InputError& error) {
        doc_.fail(entry.mark, error.what(), error.hint());
      }
    });
    const Node& value = entry.value;
    if (value.kind == Node::Kind::text && value.text == "from book") return take_from_book(lot, value.mark);
    if (value.kind != Node::Kind::map)
      doc_.fail(value.mark, "expected the analysis of lot '" + entry.key + "'",
                "such as {volume: 48 hL, pH: 3.42}, or 'from book'");
    // What the book has of the lot may be anything, where it could not be read.
    if (const Node* from = value.find("from")) lot.all_unread = slips_.in([&] { read_from(*from, lot); });
    const auto after_comma = decimal_commas(value, lot.unread);
    for (const auto& given : value.entries) {
      if (after_comma.contains(&given) || given.key == "from") continue;
      if (slips_.in([&] { read_reading(given, lot); })) lot.unread.insert(given.key);
    }
    slips_.in([&] { refuse_contradiction(lot, value); });
  }

  void read_reading(const Entry& given, LotSpec& lot) {
    if (given.key == sample_key) {
      lot.sample = line(given.value, "what stands on the sample's bottle");
      return;
    }
    const Input* key = find_lot_key(given.key);
    if (key == nullptr) unknown_lot_key(given, lot);
    refuse_account_of_book(lot, *key, given);
    lot.analysis.insert_or_assign(key, read_value(doc_, given.value, *key, recipe_.acid_basis));
    std::erase(lot.stored, key);
    std::erase(lot.foretold, key);
  }

  void read_from(const Node& from, LotSpec& lot) const {
    if (from.kind != Node::Kind::text || from.text != "book")
      doc_.fail(from.mark, "expected 'book'", "write 'from: book', or leave it out");
    take_from_book(lot, from.mark);
  }

  void take_from_book(LotSpec& lot, Mark mark) const {
    if (source_ == nullptr) no_book(mark, "lot '" + lot.name + "'");
    try {
      StoredLot stored = source_->find(lot.name);
      lot.analysis = std::move(stored.analysis);
      for (const auto& [key, value] : lot.analysis) lot.stored.push_back(key);
      lot.foretold = std::move(stored.foretold);
      lot.went_in = std::move(stored.went_in);
      lot.as_of = std::move(stored.as_of);
      lot.record = std::move(stored.record);
    } catch (const InputError& error) {
      doc_.fail(mark, error.what(), error.hint());
    }
  }

  // What was done to a lot is never typed again.
  void refuse_account_of_book(const LotSpec& lot, const Input& key, const Entry& given) const {
    const auto known = lot.analysis.find(&key);
    if (key.behaves.account == Account::none || known == lot.analysis.end() || !known->second.silent.empty()) return;
    if (std::find(lot.stored.begin(), lot.stored.end(), &key) == lot.stored.end()) return;
    doc_.fail(given.mark, "'" + given.key + "' of lot '" + lot.name + "' stands in the book",
              "leave it out; if the book is wrong, correct it: 'vatwright book history " + lot.name + "'");
  }

  // In flow style "{volume: 48,5 hL}" reads as 'volume: 48' and a key '5 hL' with nothing behind it: both are told as
  // one slip, and nothing else is made of them.
  std::set<const Entry*> decimal_commas(const Node& map, std::set<std::string, std::less<>>& unread) {
    std::set<const Entry*> parts;
    for (const auto& entry : map.entries) {
      if (entry.value.kind != Node::Kind::nothing || entry.key.empty() || entry.key[0] < '0' || entry.key[0] > '9')
        continue;
      slips_.in([&] {
        doc_.fail(entry.mark, "a decimal comma before '" + entry.key + "'",
                  "write a decimal point, as in 48.5, and thousands without a mark, as in 1000");
      });
      parts.insert(&entry);
      if (&entry == &map.entries.front()) continue;
      parts.insert(&entry - 1);
      unread.insert((&entry - 1)->key);
    }
    return parts;
  }

  [[noreturn]] void unknown_lot_key(const Entry& given, LotSpec& lot) const {
    std::vector<std::string_view> known;
    for (const Input* key : lot::keys) known.push_back(key->name);
    known.push_back(sample_key);
    lot.unread.emplace(nearest(given.key, known));
    doc_.fail(given.mark, "unknown lot key '" + given.key + "'",
              did_you_mean(given.key, known, fmt::format("a lot has {}", fmt::join(known, ", "))));
  }

  void refuse_contradiction(const LotSpec& lot, const Node& node) const {
    const auto of = [&](const Input& key) {
      const auto at = lot.analysis.find(&key);
      return at == lot.analysis.end() ? nullptr : &at->second;
    };
    try {
      check_together(of(lot::free_so2), of(lot::total_so2));
    } catch (const InputError& error) {
      const Node* free = node.find(lot::free_so2.name);
      doc_.fail(free == nullptr ? node.mark : free->mark, error.what(), error.hint());
    }
  }

  void read_steps(const Node& node) {
    if (node.kind != Node::Kind::list || node.items.empty())
      doc_.fail(node.mark, "expected a list of steps",
                "such as '- sulfite.addition: {target molecular SO2: 0.6 mg/L}'");
    for (const auto& item : node.items) slips_.in([&] { read_item(item); });
  }

  void read_item(const Node& item) {
    if (item.kind == Node::Kind::text) {
      recipe_.steps.push_back({item.text, item.mark, {}, item.mark, {}});
      return;
    }
    if (item.kind != Node::Kind::map || item.entries.size() != 1)
      doc_.fail(item.mark, "expected one calculation in a step",
                "such as '- sulfite.addition: {target molecular SO2: 0.6 mg/L}'");
    read_step(item.entries.front());
  }

  void read_step(const Entry& entry) {
    StepSpec step{entry.key, entry.mark, {}, entry.mark, {}};
    if (entry.value.kind != Node::Kind::map && entry.value.kind != Node::Kind::nothing)
      doc_.fail(entry.value.mark, "expected the inputs of " + entry.key + " by their names",
                "such as {lot: T7}; 'vatwright show " + entry.key + "' lists them");
    const auto after_comma = decimal_commas(entry.value, step.unread);
    for (const auto& given : entry.value.entries) {
      if (after_comma.contains(&given)) continue;
      if (given.key != "lot") {
        step.inputs.push_back({given.key, given.mark, &given.value});
        continue;
      }
      step.lot_mark = given.value.mark;
      if (slips_.in([&] { step.lot = text(given.value, "the name of a lot", "such as 'lot: T7'"); }))
        step.unread.insert(given.key);
    }
    recipe_.steps.push_back(std::move(step));
  }

  Recipe recipe_;
  const Document& doc_;
  Slips& slips_;
  const LotSource* source_;
  std::map<std::string, std::string> likenesses_;  // of the lots so far, and their names
  std::set<std::string_view> meant_;               // keys of the recipe that stand there misspelt
};

}  // namespace

const Input* find_lot_key(std::string_view name) {
  for (const Input* key : lot::keys)
    if (key->name == name) return key;
  return nullptr;
}

Recipe read_recipe(Document document, const LotSource* source) {
  Slips slips;
  Recipe recipe = read_recipe(std::move(document), slips, source);
  slips.raise();
  return recipe;
}

Recipe read_recipe(Document document, Slips& slips, const LotSource* source) {
  return RecipeReader(std::move(document), slips, source).read();
}

}  // namespace vatwright
