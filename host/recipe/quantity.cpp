#include "host/recipe/quantity.hpp"

#include "host/recipe/allowed.hpp"
#include "units/catalogue.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

namespace vatwright {

const Basis* basis_of(const Input& input, const Basis* of_recipe) {
  return input.basis.empty() ? of_recipe : find_basis(input.basis);
}

Expected expected_of(const Input& input, const Basis* acid_basis) {
  return {input.dimension, input.counted, input.unit, basis_of(input, acid_basis)};
}

namespace {

// Of a number without a unit that its own unit would put out of range: one in which it can be, or nothing. A density of
// 1.093 is no kg/m³.
std::string unit_that_fits(double number, const Input& input) {
  if (can_be(input, parse_unit(input.unit).coherent(number))) return {};
  std::vector<std::string_view> units{"g/mL", "g/L", "mg/L", "g/hL"};
  for (const auto& symbol : symbols()) units.push_back(symbol.text);
  for (const auto text : units) {
    const Unit unit = parse_unit(text);
    if (unit.dimension == input.dimension && unit.counted == input.counted && can_be(input, unit.coherent(number)))
      return std::string(text);
  }
  return {};
}

Measured understood(const std::string& text, const Input& input, const Basis* acid_basis) {
  const Measured read = parse(text);
  try {
    return expect(read, expected_of(input, acid_basis), text);
  } catch (const InputError& error) {
    const auto unit = read.bare ? unit_that_fits(read.value, input) : std::string();
    if (unit.empty()) throw;
    throw InputError(error.what(), "write " + in_quotes(text + " " + unit), text.size());
  }
}

}  // namespace

Value quantity_of(const std::string& text, const Input& input, const Basis* acid_basis) {
  const Measured m = understood(text, input, acid_basis);
  refuse_out_of_range(input, m.value, text);
  Value value;
  value.number = m.value;
  value.uncertainty = m.uncertainty;
  value.written = text;
  const Basis* basis = basis_of(input, acid_basis);
  const bool unsaid = input.dimension == dimension_of<Acidity>() && basis != nullptr &&
                      text.find("eq") == std::string::npos && text.find(" as ") == std::string::npos;
  if (unsaid) value.written += " as " + std::string(basis->name);
  return value;
}

}  // namespace vatwright
