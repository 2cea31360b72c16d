#include "units/catalogue.hpp"

#include "units/constants.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace vatwright {
namespace {

struct Extras {
  std::string_view prefixes{}, gnu{};
  bool bare = false;
};

// A straight scale through zero: factor and dimension both come from the quantity.
template <class Quantity>
constexpr Symbol row(std::string_view text, std::string_view help, Quantity one, Extras extras = {}) {
  return {text,       help,       Unit{one.value(), 0, Scale::linear, dimension_of<Quantity>(), {}}, extras.prefixes,
          extras.gnu, extras.bare};
}

constexpr Symbol temperature(std::string_view text, std::string_view help, double factor, double zero, Extras extras) {
  return {text, help, Unit{factor, zero, Scale::linear, dimension_of<Temperature>(), {}}, {}, extras.gnu, false};
}

constexpr Symbol hydrometer(std::string_view text, std::string_view help, Scale scale, Extras extras) {
  return {text, help, Unit{1, 0, scale, dimension_of<Density>(), {}}, {}, extras.gnu, extras.bare};
}

constexpr auto sorted(auto table_rows) {
  std::sort(table_rows.begin(), table_rows.end(), [](const Symbol& a, const Symbol& b) { return a.text < b.text; });
  return table_rows;
}

constexpr double fahrenheit = 5.0 / 9.0;

// Sources: SI Brochure (BIPM, 9th edition) and its table 8; NIST Handbook 44, appendix C, for the
// US and imperial rows; OIML R 22 for % vol. Each row is checked against GNU units in
// tests/published.
constexpr auto table = sorted(std::array{
    // volume
    row("L", "litre", litre, {.prefixes = "mcdhµ", .gnu = "liter"}),
    row("l", "litre (the other spelling)", litre, {.prefixes = "mcdhµ", .gnu = "liter"}),
    row("gal", "US gallon", us_gallon, {.gnu = "gallon"}),
    row("imp gal", "imperial gallon", imperial_gallon, {.gnu = "brgallon"}),
    row("fl oz", "US fluid ounce, 1/128 gallon", us_gallon / 128.0, {.gnu = "usfloz"}),
    row("imp fl oz", "imperial fluid ounce, 1/160 gallon", imperial_gallon / 160.0, {.gnu = "brfloz"}),
    // length
    row("m", "metre", metre, {.prefixes = "kdcmµn", .gnu = "m"}),
    row("in", "inch", 0.0254 * metre, {.gnu = "inch"}),
    // mass
    row("g", "gram", gram, {.prefixes = "kmµn", .gnu = "gram"}),
    row("t", "tonne", tonne, {.gnu = "tonne"}),
    row("lb", "avoirdupois pound", pound, {.gnu = "lb"}),
    row("oz", "avoirdupois ounce", pound / 16.0, {.gnu = "oz"}),
    row("short ton", "US ton, 2000 lb", 2000.0 * pound, {.gnu = "shortton"}),
    // time
    row("s", "second", second, {.prefixes = "m", .gnu = "second"}),
    row("min", "minute", 60.0 * second, {.gnu = "minute"}),
    row("h", "hour", hour, {.gnu = "hour"}),
    row("d", "day", 24.0 * hour, {.gnu = "day"}),
    // temperature
    temperature("K", "kelvin: a temperature, or a difference of two", 1, 0, {.gnu = "K"}),
    temperature("°C", "degree Celsius: a temperature, or a difference of two", 1, ice_point, {.gnu = "tempC"}),
    temperature("degC", "degree Celsius (plain keyboard)", 1, ice_point, {.gnu = "tempC"}),
    temperature("°F", "degree Fahrenheit: a temperature, or a difference of two", fahrenheit,
                ice_point - 32.0 * fahrenheit, {.gnu = "tempF"}),
    temperature("degF", "degree Fahrenheit (plain keyboard)", fahrenheit, ice_point - 32.0 * fahrenheit,
                {.gnu = "tempF"}),
    // amount
    row("mol", "mole", mole, {.prefixes = "mµ", .gnu = "mol"}),
    row("eq", "equivalent of acid or base", equivalent, {.prefixes = "mµ", .gnu = "-"}),
    row("U", "enzyme unit, 1 µmol in a minute; on labels as their maker counts it", 1e-6 * mole / (60.0 * second),
        {.prefixes = "k", .gnu = "micromol/minute"}),
    // fractions
    row("%", "per cent: a share of a whole", percent, {.gnu = "percent"}),
    row("% vol", "alcoholic strength by volume at 20 °C", percent_vol, {.gnu = "percent"}),
    row("proof", "US proof, half a per cent by volume", 0.5 * percent_vol, {.gnu = "0.5 percent"}),
    row("% mass", "per cent by mass", percent_mass, {.gnu = "percent"}),
    row("°Brix", "per cent of sucrose by mass", percent_mass, {.gnu = "percent"}),
    row("Brix", "per cent of sucrose by mass (plain keyboard)", percent_mass, {.gnu = "percent"}),
    // hydrometer scales
    hydrometer("SG", "relative density 20/20: density over that of water at 20 °C", Scale::relative_density,
               {.gnu = "-", .bare = true}),
    hydrometer("°Oe", "degree Oechsle: thousand times (SG - 1)", Scale::oechsle, {.gnu = "-"}),
    hydrometer("°Bé", "degree Baumé: SG = 145 / (145 - °Bé)", Scale::baume, {.gnu = "baume"}),
    // the rest
    row("pH", "pH", ph_unit, {.gnu = "-", .bare = true}),
    row("NTU", "nephelometric turbidity unit", coherent<Turbidity>(1), {.gnu = "-"}),
    row("AU", "absorbance unit, decadic, at the path that was used", coherent<Absorbance>(1), {.gnu = "-"}),
    row("S", "siemens", siemens_per_metre* metre, {.prefixes = "mµ", .gnu = "siemens"}),
    row("V", "volt", volt, {.prefixes = "m", .gnu = "volt"}),
    row("Pa", "pascal", pascal, {.prefixes = "kh", .gnu = "Pa"}),
    row("bar", "bar", 1e5 * pascal, {.prefixes = "m", .gnu = "bar"}),
    row("psi", "pound-force per square inch", 6894.757293168361 * pascal, {.gnu = "psi"}),
    row("J", "joule", joule, {.prefixes = "k", .gnu = "joule"}),
    row("cal", "calorie, 4.184 J", 1e-3 * kilocalorie, {.prefixes = "k", .gnu = "calorie_th"}),
    row("Wh", "watt-hour, 3600 J", watt* hour, {.prefixes = "k", .gnu = "watt hour"}),
    row("W", "watt", watt, {.prefixes = "k", .gnu = "watt"}),
});

constexpr std::array<Prefix, 9> prefix_table{{{"k", 1e3},
                                              {"h", 1e2},
                                              {"d", 1e-1},
                                              {"c", 1e-2},
                                              {"m", 1e-3},
                                              {"µ", 1e-6},  // U+00B5 micro sign
                                              {"μ", 1e-6},  // U+03BC Greek mu
                                              {"u", 1e-6},  // plain keyboard
                                              {"n", 1e-9}}};

const Symbol* exactly(std::string_view text) {
  const auto at = std::lower_bound(table.begin(), table.end(), text,
                                   [](const Symbol& s, std::string_view wanted) { return s.text < wanted; });
  return at != table.end() && at->text == text ? &*at : nullptr;
}

bool takes(const Symbol& symbol, const Prefix& prefix) {
  const bool micro = prefix.factor == 1e-6;
  return symbol.prefixes.find(micro ? std::string_view("µ") : prefix.text) != std::string_view::npos;
}

}  // namespace

std::span<const Symbol> symbols() { return table; }
std::span<const Prefix> prefixes() { return prefix_table; }

const Symbol* find_symbol(std::string_view text, double& factor) {
  factor = 1;
  if (const Symbol* found = exactly(text)) return found;
  for (const auto& prefix : prefix_table) {
    if (!text.starts_with(prefix.text)) continue;
    const Symbol* found = exactly(text.substr(prefix.text.size()));
    if (found == nullptr || !takes(*found, prefix)) continue;
    factor = prefix.factor;
    return found;
  }
  return nullptr;
}

double Unit::coherent(double n) const {
  switch (scale) {
    case Scale::linear:
      return zero + factor * n;
    case Scale::relative_density:
      return water_density_20 * n;
    case Scale::oechsle:
      return water_density_20 * (1 + n / 1000);
    case Scale::baume:
      return water_density_20 * baume_modulus / (baume_modulus - n);
  }
  return std::nan("");
}

double Unit::number(double value) const {
  switch (scale) {
    case Scale::linear:
      return (value - zero) / factor;
    case Scale::relative_density:
      return value / water_density_20;
    case Scale::oechsle:
      return 1000 * (value / water_density_20 - 1);
    case Scale::baume:
      return baume_modulus * (1 - water_density_20 / value);
  }
  return std::nan("");
}

double Unit::slope(double n) const {
  switch (scale) {
    case Scale::linear:
      return factor;
    case Scale::relative_density:
      return water_density_20;
    case Scale::oechsle:
      return water_density_20 / 1000;
    case Scale::baume:
      return water_density_20 * baume_modulus / ((baume_modulus - n) * (baume_modulus - n));
  }
  return std::nan("");
}

double Unit::spread(double uncertainty, double coherent) const {
  return uncertainty / std::abs(slope(number(coherent)));
}

}  // namespace vatwright
