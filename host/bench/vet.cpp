#include "host/bench/vet.hpp"

#include "host/loader/plugin_file.hpp"
#include "units/parse.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

class Vetting {
 public:
  Vetting(const Calculation& calculation, const std::string& id) : calculation_(calculation), id_(id) {}

  void finite(double number, std::string_view what) const {
    if (!std::isfinite(number)) refuse(std::string(what) + " is not a finite number");
  }
  void figure(const Figure& figure, std::string_view what) const {
    finite(figure.number, what);
    if (figure.unit.empty()) refuse(std::string(what) + " has no unit");
  }
  void result(const ResultValue& value) const {
    const auto& known = calculation_.results;
    if (std::find(known.begin(), known.end(), value.info) == known.end())
      refuse("a result '" + std::string(value.info->name) + "' that it does not declare");
    finite(value.number, value.info->name);
  }
  void change(const Changed& changed) const {
    const auto& known = calculation_.changes;
    if (std::find(known.begin(), known.end(), changed.key) == known.end())
      refuse("a change of '" + std::string(changed.key->name) + "' that it does not declare");
    finite(changed.number, changed.key->name);
    const double number = parse_unit(changed.key->unit).number(changed.number);
    if (!changed.key->valid || number < changed.key->valid->low || number > changed.key->valid->high)
      refuse("it would make " + std::string(changed.key->name) + " what it cannot be");
  }
  void addition(const Addition& addition) const {
    if (addition.mass.has_value() == addition.volume.has_value())
      refuse("an addition of '" + addition.substance + "' with neither mass nor volume, or with both");
    const double amount = addition.mass ? addition.mass->value() : addition.volume->value();
    finite(amount, addition.substance);
    if (amount <= 0) refuse("an addition of '" + addition.substance + "' that is not above zero");
    figure(addition.dose, "a dose");
  }

  void reagent(const std::string& id) const {
    const auto& known = calculation_.reagents;
    if (std::find(known.begin(), known.end(), id) == known.end())
      refuse("a reagent '" + id + "' that it does not declare");
  }

 private:
  [[noreturn]] void refuse(const std::string& what) const {
    throw PluginError(id_ + " gave an answer that cannot be used: " + what + "; nothing is shown of it");
  }
  const Calculation& calculation_;
  const std::string& id_;
};

}  // namespace

void vet(const Outcome& outcome, const Calculation& calculation, const std::string& id) {
  const Vetting vetting(calculation, id);
  for (const auto& result : outcome.results) vetting.result(result);
  for (const auto& changed : outcome.changes) vetting.change(changed);
  for (const auto& addition : outcome.additions) vetting.addition(addition);
  for (const auto& reagent : outcome.reagents) vetting.reagent(reagent);
  for (const auto& check : outcome.checks) {
    if (check.value) vetting.figure(*check.value, check.name);
    if (check.limit) vetting.figure(*check.limit, check.name);
  }
  for (const auto& opinion : outcome.opinions) {
    vetting.figure(opinion.here, opinion.name);
    vetting.figure(opinion.there, opinion.name);
  }
}

}  // namespace vatwright
