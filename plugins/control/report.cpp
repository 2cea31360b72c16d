#include "plugins/control/report.hpp"

namespace vatwright::control::report {

Outcome run(const Inputs& in) {
  std::vector<double> read;
  for (const Row& row : in[readings]) read.push_back(row[value].value());
  if (read.empty()) throw InputError("no reading", "write such as 'readings: [{value: 3.42}, {value: 3.43}]'");
  Outcome out;
  const auto judged = lab::report(read, in.get(repeatability).value_or(Fraction()).value(), reported.dimension,
                                  {reported.unit, reported.decimals}, in, out);
  if (const auto found = lab::value_of<Fraction>(judged)) out.result(reported, *found, judged.standard, judged.name);
  return out;
}

}  // namespace vatwright::control::report
