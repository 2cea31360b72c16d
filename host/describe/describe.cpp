#include "host/describe/describe.hpp"

#include "host/files/version.hpp"
#include "host/plugin/lot.hpp"
#include "units/basis.hpp"
#include "units/catalogue.hpp"
#include "units/everyday.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace vatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr int description_version = 1;

// "free SO2" -> "Free SO2"; "pH" stays: a small letter before a large one is meant.
std::string with_capital(std::string_view words) {
  std::string out(words);
  const auto is = [&](std::size_t at, char low, char high) {
    return at < out.size() && out[at] >= low && out[at] <= high;
  };
  if (is(0, 'a', 'z') && !is(1, 'A', 'Z') && !is(1, '0', '9')) out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

std::string label(std::string_view stated, std::string_view otherwise) {
  return stated.empty() ? with_capital(otherwise) : std::string(stated);
}

// Members that say nothing are left out.
void say(Json& json, const char* member, std::string_view words) {
  if (!words.empty()) json[member] = words;
}

void say(Json& json, const char* member, const std::optional<Range>& range) {
  if (range) json[member] = {{"low", range->low}, {"high", range->high}};
}

Json dimension(const Dimension& d) {
  Json json{{"base", base_units(d)}, {"words", describe(d)}};
  if (d.point) json["point"] = true;
  return json;
}

Json source(const Source& s) {
  Json json = Json::object();
  say(json, "title", s.title);
  say(json, "place", s.place);
  say(json, "standing", s.standing);
  return json;
}

bool has_unit(const Input& input) {
  return input.kind == Kind::quantity || input.kind == Kind::series || input.kind == Kind::amounts;
}

Json choices(const Input& input) {
  Json out = Json::array();
  for (std::size_t i = 0; i < input.choices.size(); ++i) {
    Json choice{{"name", input.choices[i]}};
    if (i < input.choices_help.size()) say(choice, "help", input.choices_help[i]);
    out.push_back(std::move(choice));
  }
  return out;
}

Json taken(const Need& need);

Json input_of(const Input& input) {
  Json json{{"name", input.name}, {"label", label_of(input)}, {"help", input.help}, {"kind", word_of(input.kind)}};
  say(json, "group", input.group);
  if (const auto aliases = aliases_of(input); !aliases.empty()) json["aliases"] = aliases;
  if (has_unit(input)) {
    json["unit"] = input.unit;
    json["dimension"] = dimension(input.dimension);
  }
  say(json, "counted as", input.counted);
  if (input.kind == Kind::series) {
    json["first unit"] = input.x_unit;
    json["first dimension"] = dimension(input.x_dimension);
    say(json, "first valid", input.x_valid);
  }
  say(json, "valid", input.valid);
  say(json, "usual", input.usual);
  if (!input.choices.empty()) json["choices"] = choices(input);
  for (const auto& each : input.each) json["each"].push_back(taken(each));
  if (const auto from = source(input.source); !from.empty()) json["source"] = from;
  return json;
}

// By name: a plugin has keys of its own copy.
bool is_fact(const Input& input) {
  return std::any_of(lot::keys.begin(), lot::keys.end(), [&](const Input* key) { return key->name == input.name; });
}

Json taken(const Need& need) {
  Json json = input_of(*need.input);
  json["required"] = need.required;
  say(json, "default", need.fallback);
  json["fact"] = is_fact(*need.input);
  return json;
}

Json result(const ResultInfo& r) {
  Json json{{"name", r.name}, {"label", label(r.label, r.name)},     {"help", r.help},
            {"unit", r.unit}, {"dimension", dimension(r.dimension)}, {"decimals", r.decimals}};
  if (r.decided) json["decided"] = true;
  say(json, "band", r.band);
  return json;
}

Json limit(const LimitInfo& l) {
  return {{"name", l.name}, {"help", l.help}, {"unit", l.unit}, {"dimension", dimension(l.dimension)}};
}

Json model(const ModelInfo& m) {
  Json json{{"name", m.name}, {"help", m.help}, {"unit", m.unit}, {"standard uncertainty", m.standard}};
  say(json, "measure", m.measure);
  json["source"] = source(m.source);
  return json;
}

Json handed_over(const HandOver& how) {
  Json json{{"input", how.input->name}, {"choices", how.choices}, {"to", how.to}};
  for (const auto& pair : how.renamed) json["renamed"][std::string(pair.name)] = pair.there;
  for (const auto& pair : how.says) json["says"][std::string(pair.name)] = pair.there;
  if (how.stays_if_unknown) json["stays if unknown"] = true;
  if (!how.one_reading.empty()) json["one reading"] = how.one_reading;
  say(json, "instead", how.instead);
  return json;
}

template <class Of, class Word>
Json list(const Of& all, Word word) {
  Json out = Json::array();
  for (const auto& one : all) out.push_back(word(one));
  return out;
}

Json calculation_of(const Manifest& plugin, const Calculation& c) {
  const auto name_of = [](const Input* input) { return input->name; };
  Json json{{"id", id_of(plugin, c)},
            {"name", c.name},
            {"label", label_of(c)},
            {"group", c.group.empty() ? plugin.name : c.group},
            {"help", c.help}};
  if (!c.aliases.empty()) json["aliases"] = c.aliases;
  json["inputs"] = list(c.inputs, taken);
  json["one of"] = list(c.one_of, [&](OneOf names) { return list(names, name_of); });
  json["results"] = list(c.results, [](const auto* r) { return result(*r); });
  json["changes"] = list(c.changes, name_of);
  json["limits"] = list(c.limits, [](const auto* l) { return limit(*l); });
  json["reagents"] = c.reagents;
  json["models"] = list(c.models, [](const auto* m) { return model(*m); });
  json["sources"] = list(c.sources, source);
  if (!c.hands_over.empty()) json["hands over"] = list(c.hands_over, handed_over);
  json["on a lot"] = c.on_lot;
  if (!c.example.empty()) json["example"] = {{"arguments", c.example}};
  if (!c.example_recipe.empty()) json["example"] = {{"recipe", c.example_recipe}};
  return json;
}

Json plugin_of(const Manifest& plugin, Json calculations) {
  return {{"name", plugin.name},
          {"version", plugin.version},
          {"help", plugin.help},
          {"calculations", std::move(calculations)}};
}

Json unit_of(const Symbol& symbol) {
  Json json{{"symbol", symbol.text}, {"help", symbol.help}, {"dimension", dimension(symbol.unit.dimension)}};
  say(json, "counted as", symbol.unit.counted);
  for (const auto& prefix : prefixes())
    if (symbol.prefixes.find(prefix.text) != std::string_view::npos) json["prefixes"].push_back(prefix.text);
  return json;
}

Json basis_of(const Basis& basis) {
  return {{"name", basis.name},
          {"formula", basis.formula},
          {"counts", basis.counts == Counts::acid_equivalents ? "acid" : "nitrogen"}};
}

Json beginning() { return {{"describe", description_version}, {"program", program_version}}; }

}  // namespace

std::string said(const Description& part, const char* member) { return part.value(member, std::string()); }

std::string id_of(const Manifest& plugin, const Calculation& calculation) {
  return fmt::format("{}.{}", plugin.name, calculation.name);
}

std::string label_of(const Calculation& calculation) { return label(calculation.label, calculation.help); }

std::string label_of(const Input& input) { return label(input.label, input.name); }

std::vector<std::string_view> aliases_of(const Input& input) {
  std::vector<std::string_view> out(input.aliases.begin(), input.aliases.end());
  for (const auto& [word, ours] : everyday_words())
    if (ours == input.name && std::find(out.begin(), out.end(), word) == out.end()) out.push_back(word);
  return out;
}

std::string_view word_of(Kind kind) {
  switch (kind) {
    case Kind::quantity:
      return "quantity";
    case Kind::choice:
      return "choice";
    case Kind::substance:
      return "substance";
    case Kind::series:
      return "series";
    case Kind::shares:
      return "shares";
    case Kind::amounts:
      return "amounts";
    case Kind::name:
      return "name";
    case Kind::new_lot:
      return "new lot";
    case Kind::date:
      return "date";
    case Kind::bounds:
      return "bounds";
    case Kind::lots:
      return "lots";
    case Kind::rows:
      return "rows";
  }
  return {};
}

Description description_of(const Holdings& all) {
  Json json = beginning();
  json["facts"] = list(lot::keys, [](const Input* key) { return input_of(*key); });
  json["units"] = list(symbols(), unit_of);
  json["counted as"] = list(bases(), basis_of);
  json["substances"] = all.substances;
  json["rule sets"] = list(all.rule_sets, [](const Holdings::RuleSetName& set) {
    return Json{{"name", set.name}, {"title", set.title}, {"note", set.note}};
  });
  json["plugins"] = list(all.plugins, [](const Manifest* plugin) { return description_of(*plugin); });
  return json;
}

Description description_of(const Manifest& plugin) {
  return plugin_of(plugin, list(plugin.calculations, [&](const Calculation& c) { return calculation_of(plugin, c); }));
}

Description description_of(const Manifest& plugin, const Calculation& calculation) {
  Json json = beginning();
  json["plugins"] = Json::array({plugin_of(plugin, Json::array({calculation_of(plugin, calculation)}))});
  return json;
}

}  // namespace vatwright
