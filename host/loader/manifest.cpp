#include "host/loader/manifest.hpp"

#include "host/files/printable.hpp"
#include "host/plugin/plugin.hpp"
#include "host/problem/problem.hpp"
#include "units/measures.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

namespace vatwright {
namespace {

// An uncertainty is a difference, on a scale that has no zero of its own too.
bool is_unit_of_difference(std::string_view unit, Dimension dimension) {
  try {
    Dimension of_unit = parse_unit(unit).dimension;
    of_unit.point = dimension.point = false;
    return of_unit == dimension;
  } catch (const InputError&) {
    return false;
  }
}

// A unit that cannot be read would be blamed on whoever writes a recipe.
bool is_unit(std::string_view unit, const Dimension& dimension) {
  try {
    return measures(parse_unit(unit), dimension);
  } catch (const InputError&) {
    return false;
  }
}

// nullptr where no lot has it.
const Input* lot_key(std::string_view name) {
  const auto* const key =
      std::find_if(std::begin(lot::keys), std::end(lot::keys), [&](const Input* known) { return known->name == name; });
  return key == std::end(lot::keys) ? nullptr : *key;
}

// Lots give their values by name: under a lot's name, another quantity would be read as something else.
bool misuses_a_name_of_lots(const Input& input) {
  const Input* key = lot_key(input.name);
  return key != nullptr && (key->kind != input.kind || key->dimension != input.dimension ||
                            key->counted != input.counted || key->x_dimension != input.x_dimension);
}

// The first name that stands twice; empty when none does.
template <class List, class Name>
std::string_view given_twice(const List& list, Name name_of) {
  for (auto one = list.begin(); one != list.end(); ++one)
    if (std::any_of(list.begin(), one, [&](const auto& before) { return name_of(before) == name_of(*one); }))
      return name_of(*one);
  return {};
}

std::string fault_in(const Input& input, std::string_view calculation) {
  const auto say = [&](std::string_view what) {
    return fmt::format("input '{}' of '{}' has no {}; a plugin must describe what it asks for", input.name, calculation,
                       what);
  };
  if (input.name.empty()) return say("name");
  if (!is_printable(input.name) || !is_printable(input.help))
    return fmt::format("an input of '{}' whose name or help cannot be printed", calculation);
  if (input.help.empty()) return say("help");
  const bool measured = input.kind == Kind::quantity || input.kind == Kind::series || input.kind == Kind::amounts;
  if (measured && input.unit.empty()) return say("unit");
  if (measured && !input.valid) return say("valid range");
  if (measured && !is_unit(input.unit, input.dimension)) return say("unit of its dimension");
  if (input.kind == Kind::series && !is_unit(input.x_unit, input.x_dimension))
    return say("unit of its first column's dimension");
  if (input.kind == Kind::series && !input.x_valid) return say("valid range of its first column");
  const bool chosen = input.kind == Kind::choice || input.kind == Kind::substance || input.kind == Kind::amounts;
  if (chosen && input.choices.empty()) return say("choices");
  if (!input.choices_help.empty() && input.choices_help.size() != input.choices.size())
    return say("help to each of its choices");
  const bool nested = input.kind == Kind::rows || input.kind == Kind::bounds;
  if (nested && input.each.empty()) return say("keys of its own");
  for (const auto& need : input.each)
    if (auto fault = fault_in(*need.input, calculation); !fault.empty()) return fault;
  return {};
}

}  // namespace

namespace {

std::string fault_in_changes(const Calculation& calculation) {
  for (const Input* changed : calculation.changes) {
    if (lot_key(changed->name) == nullptr)
      return fmt::format("'{}' changes '{}', which no lot has", calculation.name, changed->name);
    if (misuses_a_name_of_lots(*changed))
      return fmt::format("'{}' changes '{}' as another quantity than the one that lots have", calculation.name,
                         changed->name);
  }
  return {};
}

std::string fault_in_names(const Calculation& calculation) {
  const auto input = given_twice(calculation.inputs, [](const Need& need) { return need.input->name; });
  if (!input.empty()) return fmt::format("'{}' has two inputs '{}'", calculation.name, input);
  const auto result = given_twice(calculation.results, [](const ResultInfo* info) { return info->name; });
  if (!result.empty()) return fmt::format("'{}' has two results '{}'", calculation.name, result);
  if (!is_printable(calculation.name) || !is_printable(calculation.help))
    return "a calculation whose name or help cannot be printed";
  for (const ResultInfo* one : calculation.results)
    if (!is_printable(one->name) || !is_printable(one->help))
      return fmt::format("a result of '{}' whose name or help cannot be printed", calculation.name);
  return {};
}

}  // namespace

std::string fault_in(const Manifest& manifest) {
  if (manifest.name.empty() || manifest.version.empty()) return "a plugin without a name or a version";
  if (!is_printable(manifest.name) || !is_printable(manifest.version) || !is_printable(manifest.help))
    return "a plugin whose name, version or help cannot be printed";
  const auto twice = given_twice(manifest.calculations, [](const Calculation& one) { return one.name; });
  if (!twice.empty()) return fmt::format("two calculations '{}'", twice);
  for (const auto& calculation : manifest.calculations) {
    if (auto fault = fault_in_names(calculation); !fault.empty()) return fault;
    if (auto fault = fault_in_changes(calculation); !fault.empty()) return fault;
    if (calculation.run == nullptr || calculation.help.empty())
      return fmt::format("'{}' has no function or no help", calculation.name);
    for (const auto& need : calculation.inputs) {
      if (auto fault = fault_in(*need.input, calculation.name); !fault.empty()) return fault;
      if (misuses_a_name_of_lots(*need.input))
        return fmt::format(
            "input '{}' of '{}' has the name of another quantity that lots have; take 'lot::' or give "
            "it a name of its own",
            need.input->name, calculation.name);
    }
    for (const auto* result : calculation.results)
      if (result->help.empty() || !is_unit(result->unit, result->dimension))
        return fmt::format("result '{}' of '{}' has no help or no unit of its dimension", result->name,
                           calculation.name);
    for (const auto* limit : calculation.limits)
      if (!is_unit(limit->unit, limit->dimension))
        return fmt::format("limit '{}' of '{}' has no unit of its dimension", limit->name, calculation.name);
    for (const ModelInfo* model : calculation.models)
      if (model->help.empty() || !(model->standard > 0) || !is_unit_of_difference(model->unit, model->dimension))
        return fmt::format("model '{}' of '{}' has no help, no uncertainty or no unit of its dimension", model->name,
                           calculation.name);
  }
  return {};
}

void check_manifest(const std::string& where, const Manifest& m) {
  if (m.magic != plugin_magic) throw PluginError(where + ": not a plugin of vatwright (wrong magic number)");
  if (m.interface != plugin_interface)
    throw PluginError(fmt::format("{}: built for plugin interface {:08x}, this program has {:08x}; rebuild the plugin",
                                  where, m.interface, plugin_interface));
  if (std::strcmp(m.toolchain, plugin_toolchain) != 0)
    throw PluginError(fmt::format("{}: built with '{}', this program with '{}'; rebuild the plugin", where, m.toolchain,
                                  plugin_toolchain));
  if (const auto fault = fault_in(m); !fault.empty()) throw PluginError(where + ": " + fault);
}

}  // namespace vatwright
