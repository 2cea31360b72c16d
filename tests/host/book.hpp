// A cellar book of a test's own, used as a person would.
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

#include "tests/host/program.hpp"

namespace vatwright::test {

struct CellarBook {
  Folder folder;
  fs::path file = folder.path() / "cellar.book";

  // 'vatwright book COMMAND ARGUMENT... --book FILE'
  Said operator()(std::vector<std::string> words, const std::string& before = {}) const {
    words.insert(words.begin(), "book");
    words.insert(words.end(), {"--book", file.string()});
    return call(words, before);
  }
  nlohmann::json json(std::vector<std::string> words) const {
    words.insert(words.end(), {"--format", "json"});
    const Said said = (*this)(std::move(words));
    if (said.status != 0) throw std::runtime_error(said.err);
    return nlohmann::json::parse(said.out);
  }
  // 'vatwright run RECIPE --keep'
  Said keep(const std::string& of, std::vector<std::string> more = {}) const {
    std::vector<std::string> words{"run", folder.write("recipe.yaml", of).string(), "--keep", "--book", file.string()};
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  }
  // A fact of a lot as the book has it.
  nlohmann::json fact(const std::string& lot, const std::string& name) const {
    return json({"lot", lot})["facts"].value(name, nlohmann::json());
  }
  double number(const std::string& lot, const std::string& name) const { return fact(lot, name).at("value"); }
};

// Ten hectolitres of a pink wine, with what a dose of acid and of sulfite asks for.
inline constexpr char pink_lot[] =
    "{class: still, colour: pink, stage: wine, volume: 10 hL, pH: 3.48 ± 0.02, titratable acidity: 4.6 g/L, ethanol: "
    "12.5 % vol, sugar: 1.5 g/L, free SO2: 9 mg/L, total SO2: 48 mg/L, potassium: 910 mg/L, tartaric acid: 1.7 g/L, "
    "malic acid: 1.5 g/L, acid added: 0 g/L, treated with: {PVPP: 20 g/hL}}";

inline std::string pink_recipe(const std::string& steps,
                               const std::string& lots = std::string("{T5: ") + pink_lot + "}") {
  return "recipe: test\nrules: EU\nacid basis: tartaric acid\nlots: " + lots + "\nsteps:\n" + steps;
}

}  // namespace vatwright::test
