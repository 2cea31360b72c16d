// The page without a server: what the script of the file calls. The data stand in /data, where the script puts them;
// all texts are UTF-8 and go through one packet, so that nothing but bytes and lengths crosses.
#include "host/bench/bench.hpp"
#include "host/bench/rule_sets.hpp"
#include "host/cli/compute.hpp"
#include "host/cli/verify.hpp"
#include "host/loader/registry.hpp"
#include "host/page/answer.hpp"
#include "host/page/request.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/writers.hpp"
#include "host/substances/catalogue.hpp"

#include <malloc.h>

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <string>
#include <vector>

namespace vatwright {
namespace {

const std::filesystem::path data = "/data";

struct House {
  Registry registry{{data / "plugins"}};
  Catalogue catalogue{data / "substances.yaml"};
  Bench bench() { return {registry, catalogue, data / "rules"}; }
};

std::vector<Holdings::RuleSetName> rule_sets() {
  std::vector<Holdings::RuleSetName> out;
  for (const auto& name : rule_names(data / "rules")) {
    const RuleSet set = named_rules(data / "rules", name);
    out.push_back({name, set.title(), set.note()});
  }
  return out;
}

Premises premises(House& house) {
  return {house.registry,
          house.catalogue,
          house.bench(),
          rule_sets(),
          [&house](const std::string& name, const std::string& text) {
            Verdict v = verify_text(house.bench(), name, text);
            return Verified{
                std::move(v.about), std::move(v.differences), std::move(v.not_compared), v.compared, v.checks,
                v.failing};
          },
          nullptr};
}

using Json = nlohmann::json;

Json respond(const Json& asked, const Premises& on) {
  const auto text = [&](const char* name) { return asked.at(name).get<std::string>(); };
  const Response given = answer(read_request(text("method"), text("target"), text("type"), text("body")), on);
  return {{"status", given.status}, {"type", given.type},        {"body", given.body},
          {"file", given.file},     {"isSheet", given.is_sheet}, {"location", given.location}};
}

// Of {name, recipe}, or of {calculation, arguments}.
Recipe recipe_of(const Json& asked) {
  const auto text = [&](const char* name) { return asked.at(name).get<std::string>(); };
  if (asked.contains("recipe")) return read_recipe(Document::read(text("name"), text("recipe")));
  return recipe_of_arguments(text("calculation"), asked.at("arguments").get<std::vector<std::string>>(), {});
}

// The sheet as the command line writes it, for a comparison with the program.
Json sheet_of(const Json& asked, House& house) try {
  const Worksheet sheet = house.bench().run(recipe_of(asked));
  return {{"text", write_text(sheet, {})}, {"json", write_json(sheet)}};
} catch (const InputError& error) {
  return {{"trouble", std::string(error.what()) + ": " + error.hint()}};
} catch (const std::runtime_error& error) {  // BadInput, PluginError
  return {{"trouble", error.what()}};
}

}  // namespace

std::string ask(const std::string& packet) {
  static House& house = *new House;
  static const Premises& on = *new Premises(premises(house));
  static const auto opened = house.registry.all();
  const Json asked = Json::parse(packet);
  const Json said = asked.contains("method") ? respond(asked, on) : sheet_of(asked, house);
  return said.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace vatwright

// A packet in JSON goes in and comes out; the answer stands until the next question.
extern "C" const char* vatwright_ask(const char* packet) {
  static std::string& answer = *new std::string;
  try {
    answer = vatwright::ask(packet);
  } catch (const std::exception& error) {
    answer = nlohmann::json{{"broken", error.what()}}.dump();
  }
  return answer.c_str();
}

// How many bytes are taken: they may not grow from sheet to sheet.
extern "C" int vatwright_memory() { return ::mallinfo().uordblks; }
