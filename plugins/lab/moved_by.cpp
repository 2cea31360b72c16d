#include "plugins/lab/moved_by.hpp"

#include "plugins/chemistry/composition.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::lab {
namespace {

// By their names in the catalogue.
constexpr std::array<std::string_view, 13> finings{
    "bentonite",        "gelatine",   "isinglass", "casein",   "egg albumin", "PVPP",          "PVI/PVP",
    "activated carbon", "silica sol", "tannin",    "chitosan", "pea protein", "potato protein"};
constexpr std::array<std::string_view, 2> gives_nitrogen{"yeast autolysate", "yeast hulls"};
// Both of its protons are titrated at pH 7: pK 3.0 and 4.4 (common tables of constants, from memory).
constexpr double protons_of_fumaric = 2;

template <std::size_t N>
bool is_one(const std::array<std::string_view, N>& names, std::string_view id) {
  return std::find(names.begin(), names.end(), id) != names.end();
}

void raise(const Inputs& in, const SubstanceFacts& of, const Key<MassConcentration>& key, MassConcentration product,
           Outcome& out) {
  const double share = of.brought(key.name);
  if (!(share > 0)) return;
  if (!(product > MassConcentration{})) return out.forget(key);  // a liquid whose strength nobody said
  out.raise(key, MassConcentration(product * share));
  if (!in.figures_only())
    out.note(fmt::format("brings {} of {}", print(product * share, "mg/L", &key == &lot::copper ? 2 : 0), key.name));
}

void unknown(const Inputs& in, const char* what, std::initializer_list<const Input*> keys, Outcome& out) {
  for (const Input* key : keys) out.forgotten.push_back(key);
  if (!in.figures_only()) out.note(what);
}

}  // namespace

void forget_fined(const Inputs& in, Outcome& out) {
  unknown(in, "it takes turbidity and colour along: both are not known any more until they are measured again",
          {&lot::turbidity, &lot::absorbance}, out);
}

void keep_copper(Outcome& out) { out.raise(lot::copper, MassConcentration{}); }

bool carry_on_past_seed(std::string_view substance, Outcome& out) {
  if (substance != lot::bitartrate_seed && substance != lot::calcium_seed) return false;
  for (const Input* key : fallen) out.carry_over(*key);
  return true;
}

void move_facts(const Inputs& in, const SubstanceFacts& of, MassConcentration product, Outcome& out) {
  for (const auto* key : {&lot::potassium, &lot::sodium, &lot::calcium, &lot::copper, &lot::assimilable_nitrogen})
    raise(in, of, *key, product, out);
  if (is_one(finings, of.id)) forget_fined(in, out);
  if (is_one(gives_nitrogen, of.id))
    unknown(in, "how much nitrogen it gives is not reckoned here: measure it again, or take nutrient.nitrogen",
            {&lot::assimilable_nitrogen}, out);
  if (of.id != fumaric.name) return;
  const AmountConcentration brought = product / of.molar_mass;
  out.raise(lot::titratable_acidity, chemistry::equivalents(brought * protons_of_fumaric));
  unknown(in, "it raises the titratable acidity and lowers the pH, which is not reckoned: measure it again", {&lot::ph},
          out);
}

}  // namespace vatwright::lab
