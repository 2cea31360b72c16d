#include "host/bench/contradiction.hpp"

#include "host/plugin/lot.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace vatwright {
namespace {

constexpr double alike = 1e-9;  // of two figures that arithmetic parts

// Half a unit of the last digit that was written, coherent: 0.05 L for "48.0 L". 0: nothing was, or
// its last digit is none that a person would read so ("1e3 L").
double half_a_digit(const std::string& written) {
  const auto end = std::min(written.find_first_not_of("+-.0123456789"), written.size());
  const std::string number = written.substr(0, end), rest = written.substr(end);
  if (number.empty() || rest.starts_with("e") || rest.starts_with("E")) return 0;
  const auto point = number.find('.');
  const auto decimals = point == std::string::npos ? 0 : number.size() - point - 1;
  const double last = std::pow(10.0, -static_cast<double>(decimals));
  try {
    const double there = parse(written).value;
    const double beside =
        parse(fmt::format("{:.{}f}{}", std::stod(number) + last, static_cast<int>(decimals), rest)).value;
    return std::abs(beside - there) / 2;
  } catch (const std::exception&) {
    return 0;
  }
}

bool same_number(const Value& a, const Value& b) {
  const double difference = std::abs(a.number - b.number);
  const double largest = std::max(std::abs(a.number), std::abs(b.number));
  if (difference <= alike * largest) return true;
  // Of two that were written the finer one counts: 3.4 and 3.42 are two readings. The written text of an
  // acidity is in the unit that it was read in, whatever the number is counted in.
  const auto slack = [](const Value& value) {
    if (value.written.empty() || value.number == 0) return half_a_digit(value.written);
    double measured = 0;
    try {
      measured = parse(value.written).value;
    } catch (const std::exception&) {
      return 0.0;
    }
    return measured == 0 ? 0 : half_a_digit(value.written) * std::abs(value.number / measured);
  };
  double most = 0;
  for (const Value* value : {&a, &b})
    if (!value->written.empty()) most = most == 0 ? slack(*value) : std::min(most, slack(*value));
  return difference <= most * (1 + alike);
}

bool same_shares(const Shares& a, const Shares& b) {
  constexpr double written = 0.005;  // shares written to a per cent
  const auto within = [&](const Shares& some, const Shares& all) {
    return std::all_of(some.begin(), some.end(), [&](const auto& one) {
      const auto at = std::find_if(all.begin(), all.end(), [&](const auto& other) { return other.first == one.first; });
      return std::abs(one.second - (at == all.end() ? 0 : at->second)) <= written;
    });
  };
  return within(a, b) && within(b, a);
}

bool same_series(const Series& a, const Series& b) {
  const auto close = [](double one, double other) {
    return std::abs(one - other) <= alike * std::max(std::abs(one), std::abs(other));
  };
  return close(a.path.value_or(0), b.path.value_or(0)) &&
         std::equal(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(),
                    [&](const auto& p, const auto& q) { return close(p.first, q.first) && close(p.second, q.second); });
}

bool same(const Input& key, const Value& a, const Value& b) {
  switch (key.kind) {
    case Kind::quantity:
      return same_number(a, b);
    case Kind::shares:
      return same_shares(a.shares, b.shares);
    case Kind::series:
      return same_series(a.series, b.series);
    default:
      return a.word == b.word;
  }
}

std::string in_words(const Input& key, const Value& value) {
  if (!value.word.empty()) return "'" + value.word + "'";
  if (!value.written.empty()) return value.written;
  if (key.kind == Kind::quantity)
    return with_unit(print_significant(parse_unit(key.unit).number(value.number), 5), key.unit);
  std::string all;
  for (const auto& [name, share] : value.shares)
    all += fmt::format("{}{} {:.4g} %", all.empty() ? "" : ", ", name, 100 * share);
  return all.empty() ? "other readings" : all;
}

// A row of a table may still fill it in.
bool says_nothing(const Value& value) {
  return value.written.empty() && value.word.empty() && value.shares.empty() && value.series.points.empty() &&
         value.amounts.empty();
}

bool taken_anew(const BoundStep& step, const Input& input) {
  const auto& needs = step.calculation->inputs;
  return std::any_of(needs.begin(), needs.end(), [&](const Need& need) { return need.input == &input && need.anew; });
}

Mark place_of(const BoundStep& step, const Input& input) {
  for (const auto& given : step.spec->inputs)
    if (given.name == input.name) return given.mark;
  return step.spec->mark;
}

void refuse_other_value(const Recipe& recipe, const BoundStep& step, const LotState& lot, const Input& input,
                        const Value& given) {
  const Input* key = find_lot_key(input.name);
  if (key == nullptr || taken_anew(step, input)) return;
  const auto at = lot.analysis.find(input.name);
  if (at == lot.analysis.end() || same(*key, given, at->second)) return;
  const auto from = lot.from.find(input.name);
  recipe.document.fail(
      place_of(step, input),
      fmt::format("{} of lot '{}' is {} in this step, and {} {}", input.name, lot.name, in_words(*key, given),
                  in_words(*key, at->second), from == lot.from.end() ? "in the lot" : "after " + words(from->second)),
      from == lot.from.end()
          ? "keep the one that is true: leave it out of the step, or correct the lot"
          : "leave it out of the step; what was measured since is the analysis of a lot in a recipe of its own");
}

// What was read of a lot, and what the step says of it.
class LotReadings final : public Readings {
 public:
  LotReadings(const BoundStep& step, const LotState& lot) : step_(step), lot_(lot) {}

  const Value* find(const Input& input) const override {
    for (const auto& [key, value] : step_.given)
      if (key->name == input.name) return &value;
    const auto at = lot_.analysis.find(input.name);
    return at == lot_.analysis.end() || lot_.from.contains(input.name) ? nullptr : &at->second;
  }

 private:
  const BoundStep& step_;
  const LotState& lot_;
};

bool takes_any(const Calculation& calculation, const std::vector<const Input*>& keys) {
  return std::any_of(calculation.inputs.begin(), calculation.inputs.end(), [&](const Need& need) {
    return std::any_of(keys.begin(), keys.end(), [&](const Input* key) { return key->name == need.input->name; });
  });
}

}  // namespace

Outcome contradicted(const BoundStep& step, const std::vector<LotState>& lots) {
  Outcome out;
  if (!step.lot || step.calculation->agree == nullptr) return out;
  for (auto& found : step.calculation->agree(LotReadings(step, lots[*step.lot])))
    if (takes_any(*step.calculation, found.between)) out.checks.push_back(std::move(found.check));
  return out;
}

void refuse_contradiction(const Recipe& recipe, const BoundStep& step, const LotState& lot) {
  for (const auto& need : step.calculation->inputs)
    if (const auto given = step.given.find(need.input); given != step.given.end())
      refuse_other_value(recipe, step, lot, *need.input, given->second);
}

void refuse_contradictions(const Recipe& recipe, const std::vector<BoundStep>& steps,
                           const std::vector<LotState>& lots) {
  auto known = lots;
  for (auto& lot : known) std::erase_if(lot.analysis, [](const auto& entry) { return says_nothing(entry.second); });
  for (const auto& step : steps) {
    if (step.lot) {
      refuse_contradiction(recipe, step, known[*step.lot]);
      for (const Input* key : step.calculation->changes) known[*step.lot].analysis.erase(std::string(key->name));
    }
    for (const auto& [input, value] : step.given)
      for (const auto& row : value.rows)
        for (auto& lot : known)
          if (input->kind == Kind::lots && lot.name == row.name) lot.analysis.erase(std::string(lot::volume.name));
  }
}

}  // namespace vatwright
