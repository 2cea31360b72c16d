#include "host/recipe/quantity.hpp"

#include "host/recipe/allowed.hpp"

namespace vatwright {

const Basis* basis_of(const Input& input, const Basis* of_recipe) {
  return input.basis.empty() ? of_recipe : find_basis(input.basis);
}

Expected expected_of(const Input& input, const Basis* acid_basis) {
  return {input.dimension, input.counted, input.unit, basis_of(input, acid_basis)};
}

Value quantity_of(const std::string& text, const Input& input, const Basis* acid_basis) {
  const Measured m = expect(parse(text), expected_of(input, acid_basis), text);
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
