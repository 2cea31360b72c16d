#include "plugins/pink/colour.hpp"

#include "plugins/chemistry/colour_difference.hpp"
#include "plugins/chemistry/screen.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace vatwright::pink::colour {
namespace {

using chemistry::Lab;
using chemistry::Spectrum;

Fraction plain(double number) { return coherent<Fraction>(number); }

// --- intensity and hue

// OIV-MA-AS2-07B chooses the cell so that readings lie here.
constexpr Range readable{0.3, 0.7};  // AU

void note_unsure_readings(const Spectrum& spectrum, Outcome& out) {
  std::string unsure;
  for (const auto& wavelength : {chemistry::yellow_wavelength, chemistry::red_wavelength, chemistry::blue_wavelength}) {
    const auto read = spectrum.at(wavelength);
    if (!read || (read->value() >= readable.low && read->value() <= readable.high)) continue;
    unsure += fmt::format("{}{} ({})", unsure.empty() ? "" : ", ", print(wavelength, "nm", 0), print(*read, "AU", 3));
  }
  if (!unsure.empty())
    out.note(fmt::format(
        "read outside {:g} to {:g} AU, where OIV-MA-AS2-07B wants readings: {}; another cell may read better",
        readable.low, readable.high, unsure));
}

void give_loss(Absorbance intensity_now, Outcome& out) {
  out.result(least_in_wine, intensity_now * (1 - chemistry::most_loss_to_wine.value()));
  out.result(most_in_wine, intensity_now * (1 - chemistry::least_loss_to_wine.value()));
  out.note(
      fmt::format("a settled must loses {} of its colour on the way to wine, and nobody can say how much: go by both "
                  "ends. Sulfite in a must hides colour, so that it reads low",
                  loss_to_wine()));
}

void give_shares(const Spectrum& spectrum, Absorbance whole, Outcome& out) {
  if (whole <= Absorbance{}) return;
  const Spectrum at_10_mm = chemistry::through(spectrum, chemistry::intensity_path);
  const auto share = [&](Length wavelength) -> Fraction {
    return at_10_mm.at(wavelength).value_or(Absorbance{}) / whole;
  };
  out.result(yellow, share(chemistry::yellow_wavelength));
  out.result(red, share(chemistry::red_wavelength));
  out.result(blue, share(chemistry::blue_wavelength));
}

void give_intensity(const Inputs& in, const Spectrum& spectrum, Outcome& out) {
  const auto whole = chemistry::intensity(spectrum);
  if (whole) {
    out.result(intensity, *whole);
    give_shares(spectrum, *whole, out);
  } else {
    out.note("intensity was not given: it needs 420, 520 and 620 nm");
  }
  if (const auto found = chemistry::hue(spectrum))
    out.result(hue, *found);
  else
    out.note("hue was not given: it needs 420 nm, and an absorbance above zero at 520 nm");
  if (whole && in.get(lot::stage) == "must") give_loss(*whole, out);
}

// --- L*a*b*

std::optional<Lab> lab_of(const Spectrum& spectrum, Outcome& out) {
  if (const auto step = chemistry::spectral_step(spectrum)) {
    out.note("L*a*b* by the whole spectrum, 380 to 780 nm in steps of " + print(*step, "nm", 0) +
             ", D65 and the 10° observer");
    return chemistry::lab(spectrum);
  }
  if (chemistry::has_four_wavelengths(spectrum)) {
    out.note(
        "L*a*b* are an estimate from 450, 520, 570 and 630 nm, D65 and the 10° observer; its coefficients are from "
        "memory");
    return chemistry::lab_by_four(spectrum);
  }
  out.note(
      "L*a*b* were not given: they need every 5 or 10 nm from 380 to 780 nm, or 450, 520, 570 and 630 nm for an "
      "estimate");
  return std::nullopt;
}

std::optional<Lab> reference(const Inputs& in) {
  const auto l = in.get(reference_lightness);
  const auto a = in.get(reference_a);
  const auto b = in.get(reference_b);
  if (!l && !a && !b) return std::nullopt;
  if (l && a && b) return Lab{l->value(), a->value(), b->value()};
  throw InputError("a reference colour with part of its L*, a*, b*",
                   "give reference L*, reference a* and reference b* together, or none of them");
}

void give_swatch(std::string name, const Lab& seen, Outcome& out) {
  const auto shown = chemistry::on_screen(seen);
  if (shown.clipped) out.note("no screen can show the colour of '" + name + "': the nearest is shown");
  out.swatches.push_back({std::move(name), shown.red, shown.green, shown.blue});
}

void compare(const Lab& sample, const Lab& other, Outcome& out) {
  const double ciede2000 = chemistry::ciede2000(sample, other);
  out.result(difference, plain(ciede2000));
  const double plain_distance = std::hypot(sample.lightness - other.lightness, sample.a - other.a, sample.b - other.b);
  out.opinions.push_back({.name = "plain distance in L*a*b* (CIE 1976)",
                          .here = {"1", 2, ciede2000},
                          .there = {"1", 2, plain_distance},
                          .matters = false,
                          .source =
                              "CIE 15, from memory; the older measure, in which trained tasters tell about 3 units "
                              "apart through a glass (from memory)"});
}

void note_path(std::optional<Length> wanted, Length cell, Outcome& out) {
  if (!wanted)
    out.note("L*a*b* are told for the cell that was used, " + print(cell, "mm", 1) +
             ": compare them only with colours of the same path");
  else if (*wanted > cell)
    out.note(fmt::format("told for {} from a cell of {}: an error of reading grows {} times", print(*wanted, "mm", 1),
                         print(cell, "mm", 1), print_number(*wanted / cell, 1)));
}

void give_lab(const Inputs& in, const Spectrum& read, const Spectrum& spectrum, Outcome& out) {
  const auto wanted = reference(in);
  const auto found = lab_of(spectrum, out);
  if (!found) return;
  note_path(in.get(path), read.path, out);
  out.result(lab_path, spectrum.path);
  out.result(lightness, plain(found->lightness));
  out.result(a_star, plain(found->a));
  out.result(b_star, plain(found->b));
  out.result(c_star, plain(chemistry::chroma(*found)));
  if (const auto angle = chemistry::hue_angle(*found)) out.result(h_star, plain(*angle));
  if (wanted) compare(*found, *wanted, out);

  if (in.figures_only()) return;
  give_swatch("sample, " + print(spectrum.path, "mm", 1), *found, out);
  if (wanted) give_swatch("reference", *wanted, out);
  out.note("a screen is not a glass: use the swatches to tell samples apart, never to judge a colour");
}

Chart chart_of(const Spectrum& spectrum) {
  Chart chart{.name = "absorbance through " + print(spectrum.path, "mm", 1),
              .x = {"wavelength", "nm", 0},
              .y = {"absorbance", "AU", 3},
              .traces = {{.name = "sample", .dots = true, .points = {}}}};
  for (const auto& [wavelength, absorbance] : spectrum.points)
    chart.traces.front().points.emplace_back(wavelength.value(), absorbance.value());
  return chart;
}

}  // namespace

Outcome run(const Inputs& in) {
  const Spectrum read = spectrum_of(in[lot::absorbance]);
  const Spectrum told = chemistry::through(read, in.get(path).value_or(read.path));

  Outcome out;
  give_intensity(in, read, out);
  give_lab(in, read, told, out);
  if (in.figures_only()) return out;
  note_unsure_readings(read, out);
  if (in.get(lot::free_so2).value_or(MassConcentration{}) > MassConcentration{})
    out.note("free sulfur dioxide hides part of the pigment: compare colours at the same free sulfur dioxide and pH");
  out.charts.push_back(chart_of(told));
  return out;
}

}  // namespace vatwright::pink::colour
