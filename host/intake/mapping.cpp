#include "host/intake/mapping.hpp"

#include "host/yaml/known_keys.hpp"
#include "units/nearest.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace vatwright::intake {
namespace {

constexpr std::string_view a_column = "{column: Burette, unit: mL}";

class MappingReader {
 public:
  explicit MappingReader(Mapping& mapping) : mapping_(mapping), doc_(mapping.document) {}

  void read() {
    const Node& root = doc_.root();
    constexpr std::array<std::string_view, 10> keys{"mapping", "demo data", "separator",  "decimal comma", "sample",
                                                    "date",    "carry",     "acid basis", "results",       "controls"};
    refuse_unknown_keys(doc_, root, "a mapping", keys);
    mapping_.title = word(due(root, "mapping", "what the table is, in a line"));
    if (const Node* demo = root.find("demo data")) mapping_.demo = word(*demo);
    if (const Node* separator = root.find("separator")) read_separator(*separator);
    if (const Node* comma = root.find("decimal comma")) mapping_.decimal_comma = yes_or_no(*comma);
    const Node& sample = due(root, "sample", "the column that names the sample");
    mapping_.sample = word(sample);
    mapping_.sample_mark = sample.mark;
    if (const Node* date = root.find("date")) {
      mapping_.date = word(*date);
      mapping_.date_mark = date->mark;
    }
    if (const Node* carry = root.find("carry")) read_carry(*carry);
    if (const Node* basis = root.find("acid basis")) read_basis(*basis);
    const Node& results = due(root, "results", "what is found out of each sample");
    for (const auto& entry : map(results).entries) read_result(entry);
    if (const Node* controls = root.find("controls"))
      for (const auto& sample_entry : map(*controls).entries) read_control(sample_entry);
  }

 private:
  const Node& due(const Node& map, std::string_view key, const std::string& what) const {
    if (const Node* found = map.find(key)) return *found;
    doc_.fail(map.mark, "'" + std::string(key) + "' is missing", "write '" + std::string(key) + ": ...', " + what);
  }

  const std::string& word(const Node& node) const {
    if (node.kind != Node::Kind::text || node.text.empty())
      doc_.fail(node.mark, "expected a word", "in quotes where it has a ':'");
    return node.text;
  }

  const Node& map(const Node& node) const {
    if (node.kind != Node::Kind::map) doc_.fail(node.mark, "expected a map", "such as '{key: value}'");
    return node;
  }

  bool yes_or_no(const Node& node) const {
    if (word(node) == "yes") return true;
    if (node.text == "no") return false;
    doc_.fail(node.mark, "expected yes or no, read " + in_quotes(node.text), "write 'yes' or 'no'");
  }

  void read_separator(const Node& node) {
    const std::string& text = word(node);
    if (text == "tab")
      mapping_.separator = '\t';
    else if (text == "," || text == ";")
      mapping_.separator = text.front();
    else
      doc_.fail(node.mark, "the separator " + in_quotes(text), "write ',' or ';' in quotes, or tab");
  }

  std::vector<std::pair<std::string, Mark>> heads(const Node& node) const {
    if (node.kind != Node::Kind::list) return {{word(node), node.mark}};
    std::vector<std::pair<std::string, Mark>> found;
    for (const auto& item : node.items) found.emplace_back(word(item), item.mark);
    return found;
  }

  void read_carry(const Node& node) {
    if (node.kind == Node::Kind::text && node.text == "all")
      mapping_.carry_all = true;
    else
      mapping_.carry = heads(node);
  }

  void read_basis(const Node& node) {
    mapping_.acid_basis = find_basis(word(node));
    if (mapping_.acid_basis == nullptr || mapping_.acid_basis->counts != Counts::acid_equivalents)
      doc_.fail(node.mark, in_quotes(node.text) + " is no acid to count by", "write such as 'tartaric acid'");
  }

  MappedInput read_input(const std::string& name, Mark mark, const Node& node, bool repeated) const {
    constexpr std::array<std::string_view, 3> keys{"column", "unit", "±"};
    refuse_unknown_keys(doc_, map(node), "a column", keys);
    MappedInput input{name, mark, heads(due(node, "column", "such as '" + std::string(a_column) + "'")),
                      {},   {},   repeated};
    if (const Node* unit = node.find("unit")) input.unit = word(*unit);
    if (const Node* doubt = node.find("±")) input.doubt = word(*doubt);
    return input;
  }

  void read_result(const Entry& entry) {
    const Node& node = map(entry.value);
    auto& result = mapping_.results.emplace_back(MappedResult{.name = entry.key, .mark = entry.mark});
    if (const Node* where = node.find("where"))
      for (const auto& one : map(*where).entries) result.where.emplace_back(one.key, word(one.value));
    const Node* calculation = node.find("calculation");
    if (calculation == nullptr) {
      constexpr std::array<std::string_view, 5> keys{"where", "column", "unit", "±", "repeatability"};
      refuse_unknown_keys(doc_, node, "a result that stands in a column", keys);
      if (const Node* limit = node.find("repeatability")) result.repeatability = word(*limit);
      Node column = node;
      std::erase_if(column.entries, [](const Entry& e) { return e.key == "where" || e.key == "repeatability"; });
      result.inputs.push_back(read_input(entry.key, entry.mark, column, true));
      return;
    }
    constexpr std::array<std::string_view, 5> keys{"where", "calculation", "repeats", "columns", "with"};
    refuse_unknown_keys(doc_, node, "a result", keys);
    result.calculation = word(*calculation);
    if (const Node* with = node.find("with")) result.with = &map(*with);
    if (const Node* repeats = node.find("repeats")) {
      if (map(*repeats).entries.size() != 1)
        doc_.fail(repeats->mark, "expected the one input that takes rows",
                  "such as 'repeats: {titrations: {titrant: " + std::string(a_column) + "}}'");
      const Entry& rows = repeats->entries.front();
      result.repeats = rows.key;
      for (const auto& column : map(rows.value).entries)
        result.inputs.push_back(read_input(column.key, column.mark, column.value, true));
    }
    if (const Node* columns = node.find("columns"))
      for (const auto& column : map(*columns).entries)
        result.inputs.push_back(read_input(column.key, column.mark, column.value, false));
    if (result.inputs.empty())
      doc_.fail(entry.mark, in_quotes(entry.key) + " is read from no column",
                "write 'repeats', or 'columns: {titrant: " + std::string(a_column) + "}'");
  }

  void read_control(const Entry& entry) {
    for (const auto& known : map(entry.value).entries) {
      std::vector<std::string_view> names;
      for (const auto& result : mapping_.results) names.push_back(result.name);
      if (std::find(names.begin(), names.end(), known.key) == names.end())
        doc_.fail(known.mark, "no result " + in_quotes(known.key),
                  did_you_mean(known.key, names, "name one of 'results'"));
      read_known(mapping_.controls.emplace_back(ControlTarget{entry.key, known.key, known.value.mark, {}, 0}),
                 known.value);
    }
  }

  void read_known(ControlTarget& target, const Node& node) const {
    if (node.kind != Node::Kind::map) {
      target.known = word(node);
      return;
    }
    constexpr std::array<std::string_view, 2> keys{"known", "trial"};
    refuse_unknown_keys(doc_, node, "a control sample", keys);
    if (const Node* known = node.find("known")) target.known = word(*known);
    const Node& trial = due(node, "trial", "how many of its first readings set the limits, such as 20");
    const std::string& text = word(trial);
    constexpr std::size_t least = 5, most = 1000;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), target.trial);
    if (read.ec != std::errc{} || read.ptr != text.data() + text.size() || target.trial < least || target.trial > most)
      doc_.fail(trial.mark, "a trial of " + in_quotes(text) + " readings",
                "write a whole number from 5 to 1000; 20 is usual");
  }

  Mapping& mapping_;
  const Document& doc_;
};

}  // namespace

Mapping read_mapping(Document document) {
  Mapping mapping(std::move(document));
  MappingReader(mapping).read();
  return mapping;
}

}  // namespace vatwright::intake
