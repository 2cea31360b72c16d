// What falls out of wines by cold_deposit.py: the same equations by another method, in another language.
#pragma once

#include "plugins/chemistry/tartrate.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <iomanip>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright::published {

struct OtherDeposit {
  double removed = 0;  // mol/L
  double ph = 0;
};

inline std::string one_word(std::string_view name) { return std::string(name.substr(0, name.find(' '))); }

inline std::vector<OtherDeposit> other_deposits(const std::vector<chemistry::Composition>& wines, Strength strength,
                                                Temperature at) {
  const chemistry::Bitartrate model(strength);
  const chemistry::Medium medium = model.medium(at);
  std::ostringstream text;
  text << std::setprecision(17) << "medium " << medium.davies_a() << ' ' << medium.water_pk() << "\nproduct "
       << model.product(at).value() / 1e6 << '\n';
  for (const auto& acid : chemistry::acids) {
    text << "acid " << one_word(acid.name);
    for (std::size_t step = 0; step < acid.protons; ++step) text << ' ' << medium.pk(acid.acid, step).value();
    text << '\n';
  }
  for (const auto& ion : chemistry::ions) text << "ion " << ion.name << ' ' << ion.charge << '\n';
  for (const auto& c : wines) {
    text << "sample " << c.rest.value() / 1000;
    for (const auto& acid : chemistry::acids) text << ' ' << one_word(acid.name) << '=' << c[acid.acid].value() / 1000;
    for (const auto& ion : chemistry::ions) text << ' ' << ion.name << '=' << c[ion.ion].value() / 1000;
    text << '\n';
  }
  const test::Folder folder;
  const std::string file = folder.write("wines.txt", text.str()).string();
  std::istringstream theirs(
      output_of(shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/cold_deposit.py") + " " + shell_word(file)));
  std::vector<OtherDeposit> out(wines.size());
  for (auto& one : out)
    if (!(theirs >> one.removed >> one.ph)) throw std::runtime_error("cold_deposit.py answers too few wines");
  return out;
}

}  // namespace vatwright::published
