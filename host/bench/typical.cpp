#include "host/bench/typical.hpp"

#include "host/recipe/recipe.hpp"
#include "host/yaml/sections.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <cmath>

namespace vatwright {
namespace {

// Of a repeatability or reproducibility limit in a standard uncertainty: ISO 5725-6 (from memory).
constexpr double limit_in_standard = 2.8;

double read(const Document& doc, const Node& node, const Expected& expected) {
  double limit = 0;
  try {
    limit = expect(parse(node.text), expected, node.text).value;
  } catch (const InputError& error) {
    doc.fail(node, error);
  }
  if (!(limit > 0))
    doc.fail(node.mark, in_quotes(node.text) + " is not above zero: no reading is without uncertainty",
             "write the repeatability limit of your method, or leave the row out");
  return limit / limit_in_standard;
}

}  // namespace

Typical::Typical(const std::filesystem::path& table) {
  const Sections sections(table);
  for (const auto name : sections.names()) {
    const auto doc = sections.find(name);
    const Node& entry = *doc->root().find(name);
    const Input* key = find_lot_key(name);
    if (key == nullptr)
      doc->fail(doc->root().mark, "'" + std::string(name) + "' is nothing that a lot has",
                "a row begins with a lot key, such as 'pH'");
    Row row;
    const Node *within = entry.find("repeatability"), *within_share = entry.find("repeatability share");
    if (const Node* limit = within != nullptr ? within : entry.find("reproducibility"))
      row.standard = read(*doc, *limit, {key->dimension, key->counted, key->unit});
    else if (const Node* share = within_share != nullptr ? within_share : entry.find("reproducibility share"))
      row.share = read(*doc, *share, {dimension_of<Fraction>(), {}, "%"});
    else
      doc->fail(entry.mark,
                "expected 'repeatability', 'repeatability share', 'reproducibility' or 'reproducibility share'",
                "such as 'repeatability: 0.10'");
    rows_.emplace(name, row);
  }
  sum_ = sections.sum();
}

void Typical::tell(const Input& key, Value& value) const {
  if (key.kind != Kind::quantity || value.uncertainty > 0 || value.written.empty()) return;
  const auto row = rows_.find(key.name);
  if (row == rows_.end()) return;
  value.uncertainty = row->second.standard + row->second.share * std::abs(value.number);
  value.typical = value.uncertainty > 0;
}

}  // namespace vatwright
