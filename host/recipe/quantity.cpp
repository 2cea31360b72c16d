#include "host/recipe/quantity.hpp"

#include "host/recipe/allowed.hpp"
#include "units/parse.hpp"

namespace vatwright {

Value quantity_of(const std::string& text, const Input& input, const Basis* acid_basis) {
  const Measured m = expect(parse(text), {input.dimension, input.counted, input.unit, acid_basis}, text);
  refuse_out_of_range(input, m.value, text);
  Value value;
  value.number = m.value;
  value.uncertainty = m.uncertainty;
  value.written = text;
  const bool by_recipe = input.dimension == dimension_of<Acidity>() && acid_basis != nullptr &&
                         text.find("eq") == std::string::npos && text.find(" as ") == std::string::npos;
  if (by_recipe) value.written += " as " + std::string(acid_basis->name);
  return value;
}

}  // namespace vatwright
