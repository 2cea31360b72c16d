// JSON worksheet, version 1 (schema: host/sheet/worksheet.schema.json). Figures carry twelve
// significant digits: enough to recompute them, without the last bits of a unit conversion.
#include "host/bench/weigh_out.hpp"
#include "host/files/version.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/fact_json.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "units/parse.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

namespace vatwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr int sheet_version = 1;

Json inputs_of(const StepSheet& step) {
  Json json = Json::object();
  for (const auto& used : step.inputs) {
    Json one = fact_json(*used.input, used.value);
    one["from"] = words(used.from);
    json[std::string(used.input->name)] = std::move(one);
  }
  return json;
}

// A standard uncertainty, and what else is known of it, beside the figure that it is of.
void add_spread(Json& json, double coherent, const Spread& spread, std::string_view of) {
  if (!(spread.standard > 0)) return;
  const Unit unit = parse_unit(of);
  json["uncertainty"] = trimmed(unit.spread(spread.standard, coherent));
  if (spread.interval) {
    const double a = unit.number(spread.interval->first), b = unit.number(spread.interval->second);
    json["interval 95 %"] = {trimmed(std::min(a, b)), trimmed(std::max(a, b))};
  }
  if (!spread.chief.empty()) {
    json["mostly from"] = spread.chief;
    json["its share"] = trimmed(spread.chief_share);
  }
}

Json results_of(const StepSheet& step) {
  Json json = Json::object();
  for (std::size_t i = 0; i < step.outcome.results.size(); ++i) {
    const auto& result = step.outcome.results[i];
    Json one = figure_json(result.number, result.info->unit);
    if (i < step.result_spreads.size()) add_spread(one, result.number, step.result_spreads[i], result.info->unit);
    json[std::string(result.info->name)] = std::move(one);
  }
  return json;
}

Json chances_of(const StepSheet& step) {
  Json json = Json::array();
  for (const auto& chance : step.chances)
    json.push_back({{"of", chance.name}, {"chance", trimmed(chance.probability)}});
  return json;
}

Json amount_of(const Addition& addition) {
  return addition.mass ? figure_json(addition.mass->value(), "g") : figure_json(addition.volume->value(), "mL");
}

Json hazards_of(const Substance& substance) {
  Json json = Json::array();
  for (const auto& line : hazard_lines(substance)) json.push_back(line.words());
  return json;
}

Json additions_of(const StepSheet& step) {
  Json json = Json::array();
  for (std::size_t i = 0; i < step.outcome.additions.size(); ++i) {
    const Addition& addition = step.outcome.additions[i];
    const Substance& substance = *step.added[i];
    Json amount = amount_of(addition);
    if (i < step.addition_spreads.size())
      add_spread(amount, addition.mass ? addition.mass->value() : addition.volume->value(), step.addition_spreads[i],
                 addition.mass ? "g" : "mL");
    json.push_back({{"substance", addition.substance},
                    {"product", substance.product},
                    {"strength", addition.strength},
                    {"amount", amount},
                    {"dose", figure_json(addition.dose.number, addition.dose.unit)},
                    {"into", part_of_lot(step, addition)},
                    {"when", addition.when},
                    {"cautions", substance.cautions},
                    {"hazards", hazards_of(substance)},
                    {"handling", substance.handling},
                    {"papers", substance.papers}});
  }
  return json;
}

Json checks_of(const Outcome& outcome) {
  Json json = Json::array();
  for (const auto& check : outcome.checks) {
    Json one{{"name", check.name}, {"holds", check.holds}};
    if (check.value) one["value"] = figure_json(check.value->number, check.value->unit);
    if (check.limit) one["limit"] = figure_json(check.limit->number, check.limit->unit);
    if (check.on != nullptr) one["limit on"] = check.on->name;
    if (!check.relation.empty()) one["relation"] = check.relation;
    if (!check.source.empty()) one["source"] = check.source;
    if (!check.remedy.empty()) one["remedy"] = check.remedy;
    if (!check.authorised_by.empty()) one["needs an authorisation by"] = check.authorised_by;
    json.push_back(std::move(one));
  }
  return json;
}

Json opinions_of(const Outcome& outcome) {
  Json json = Json::array();
  for (const auto& o : outcome.opinions)
    json.push_back({{"name", o.name},
                    {"here", figure_json(o.here.number, o.here.unit)},
                    {"there", figure_json(o.there.number, o.there.unit)},
                    {"matters", o.matters},
                    {"source", o.source}});
  return json;
}

Json tables_of(const Outcome& outcome) {
  Json json = Json::array();
  for (const auto& table : outcome.tables) {
    Json columns = Json::array(), rows = Json::array();
    for (const auto& column : table.columns) columns.push_back({{"name", column.name}, {"unit", column.unit}});
    for (const auto& row : table.rows) {
      Json cells = Json::array();
      for (std::size_t i = 0; i < row.size(); ++i) {
        if (const double* number = std::get_if<double>(&row[i]))
          cells.push_back(trimmed(parse_unit(table.columns[i].unit).number(*number)));
        else if (const std::string* words = std::get_if<std::string>(&row[i]))
          cells.push_back(*words);
        else
          cells.push_back(nullptr);
      }
      rows.push_back(std::move(cells));
    }
    json.push_back({{"name", table.name}, {"columns", columns}, {"rows", rows}});
  }
  return json;
}

Json charts_of(const Outcome& outcome) {
  Json json = Json::array();
  for (const auto& chart : outcome.charts) {
    const Unit x = parse_unit(chart.x.unit), y = parse_unit(chart.y.unit);
    Json traces = Json::array();
    for (const auto& trace : chart.traces) {
      Json points = Json::array();
      for (const auto& [at, value] : trace.points) points.push_back({trimmed(x.number(at)), trimmed(y.number(value))});
      traces.push_back({{"name", trace.name}, {"dots", trace.dots}, {"points", points}});
    }
    Json one{{"name", chart.name},
             {"x", {{"name", chart.x.name}, {"unit", chart.x.unit}}},
             {"y", {{"name", chart.y.name}, {"unit", chart.y.unit}}},
             {"traces", traces}};
    if (chart.band)
      one["band"] = {{"name", chart.band_name},
                     {"from", figure_json(chart.band->first, chart.y.unit)},
                     {"to", figure_json(chart.band->second, chart.y.unit)}};
    json.push_back(std::move(one));
  }
  return json;
}

Json swatches_of(const Outcome& outcome) {
  Json json = Json::array();
  for (const auto& s : outcome.swatches)
    json.push_back({{"name", s.name}, {"sRGB", fmt::format("#{:02x}{:02x}{:02x}", s.red, s.green, s.blue)}});
  return json;
}

Json reagents_of(const StepSheet& step) {
  Json json = Json::array();
  for (const auto* reagent : step.reagents)
    json.push_back(
        {{"substance", reagent->facts.id}, {"cautions", reagent->cautions}, {"hazards", hazards_of(*reagent)}});
  return json;
}

std::string_view kind_of(const Left& left) {
  switch (left.from) {
    case Origin::Of::booked:
      return "booked";
    case Origin::Of::reckoned:
      return "reckoned";
    default:
      return "forecast";
  }
}

// What the step leaves of its lots when it is done, and of those that it makes: null where nobody knows it any more.
Json leaves_of(const StepSheet& step) {
  Json json = Json::object();
  for (const auto& left : step.leaves) {
    Json& one = json[left.lot][std::string(left.key->name)];
    one = nullptr;
    if (!left.value) continue;
    one = fact_json(*left.key, *left.value);
    one["from"] = kind_of(left);
  }
  return json;
}

Json poured_of(const Outcome& outcome) {
  if (!outcome.poured) return nullptr;
  return {{"before", figure_json(outcome.poured->before.value(), "L")},
          {"after", figure_json(outcome.poured->after.value(), "L")}};
}

// What is to be measured before the step: a step before it only foretells it.
Json measure_first_of(const StepSheet& step) {
  return step.measure_first ? Json(step.measure_first->figures) : Json::array();
}

Json weigh_out_of(const Worksheet& sheet) {
  Json json = Json::array();
  for (const auto& total : sheet.weigh_out.totals) {
    Json lines = Json::array();
    for (const auto& line : sheet.weigh_out.lines) {
      const StepSheet& step = sheet.steps[line.step];
      const Addition& addition = step.outcome.additions[line.addition];
      if (counts_in(total, addition))
        lines.push_back({{"step", line.step + 1},
                         {"lot", step.lot},
                         {"amount", amount_of(addition)},
                         {"into", part_of_lot(step, addition)},
                         {"when", addition.when}});
    }
    json.push_back({{"substance", total.all.substance},
                    {"product", total.substance->product},
                    {"strength", total.all.strength},
                    {"total", amount_of(total.all)},
                    {"lines", lines},
                    {"cautions", total.substance->cautions}});
  }
  return json;
}

Json apart_of(const Worksheet& sheet) {
  Json json = Json::array();
  for (const auto& pair : sheet.weigh_out.apart)
    json.push_back({{"substances", {pair.one->facts.id, pair.other->facts.id}},
                    {"because", pair.because},
                    {"source", pair.source}});
  return json;
}

Json uncertainty_of(const UncertaintyStatement& u) {
  Json json{{"method", "none"}};
  if (!u.book.empty()) json["book"] = Json::parse(u.book);
  if (u.readings == 0) return json;
  json["method"] = u.draws == 0 ? "first order" : "draws";
  json["readings"] = u.readings;
  json["models"] = u.models;
  if (u.draws > 0) {
    json["draws"] = u.draws;
    json["seed"] = u.seed;
    json["failed"] = u.failed;
  }
  json["notes"] = u.notes;
  return json;
}

Json rule_names_of(const Worksheet& sheet) {
  Json json = Json::array();
  for (const auto& rules : sheet.rules) json.push_back(rules.name);
  return json;
}

Json rule_texts_of(const Worksheet& sheet) {
  Json json = Json::array();
  for (const auto& rules : sheet.rules) json.push_back({{"name", rules.name}, {"sha256", rules.sum.sha256()}});
  return json;
}

Json files_of(const std::vector<UsedFile>& files) {
  Json json = Json::array();
  for (const auto& file : files) json.push_back({{"name", file.name}, {"sha256", file.sum.sha256()}});
  return json;
}

Json lot_of(const Analysis& analysis) {
  Json json = Json::object();
  for (const Input* key : lot::keys)
    if (const auto at = analysis.find(key->name); at != analysis.end())
      json[std::string(key->name)] = fact_json(*key, at->second);
  return json;
}

}  // namespace

std::string write_json(const Worksheet& sheet) {
  Json json{{"sheet", sheet_version},
            {"program", program_version},
            {"recipe",
             {{"title", sheet.title},
              {"file", sheet.recipe_name},
              {"sha256", sheet.recipe_sha256},
              {"form", sheet.recipe_form},
              {"text", sheet.recipe_text}}},
            {"demo data", sheet.demo},
            {"rules", rule_names_of(sheet)},
            {"rule texts", rule_texts_of(sheet)},
            {"tables", files_of(sheet.tables)},
            {"plugins", files_of(sheet.plugins)},
            {"uncertainty", uncertainty_of(sheet.uncertainty)},
            {"holds", sheet.holds()}};
  if (!sheet.date.empty()) json["date"] = sheet.date;
  if (!sheet.by.empty()) json["by"] = sheet.by;
  for (const auto& language : sheet.languages) json["languages"].push_back(language.code);
  Json steps = Json::array();
  for (const auto& step : sheet.steps)
    steps.push_back({{"calculation", step.calculation},
                     {"plugin", step.plugin},
                     {"lot", step.lot},
                     {"inputs", inputs_of(step)},
                     {"results", results_of(step)},
                     {"first", making_first(step)},
                     {"measure first", measure_first_of(step)},
                     {"work", step.outcome.work},
                     {"additions", additions_of(step)},
                     {"not done", idle_words(step)},
                     {"checks", checks_of(step.outcome)},
                     {"chances", chances_of(step)},
                     {"second opinions", opinions_of(step.outcome)},
                     {"reagents", reagents_of(step)},
                     {"notes", step.outcome.notes},
                     {"tables", tables_of(step.outcome)},
                     {"charts", charts_of(step.outcome)},
                     {"swatches", swatches_of(step.outcome)},
                     {"poured", poured_of(step.outcome)},
                     {"leaves", leaves_of(step)}});
  json["steps"] = std::move(steps);
  Json lots = Json::object();
  for (const auto& lot : sheet.lots) {
    Json& one = lots[lot.name] = {{"before", lot_of(lot.before)}, {"after", lot_of(lot.after)}};
    if (!lot.sample.empty()) one["sample"] = lot.sample;
    if (!lot.record.empty()) one["book"] = Json::parse(lot.record);
  }
  json["lots"] = std::move(lots);
  json["weigh out"] = weigh_out_of(sheet);
  json["keep apart"] = apart_of(sheet);
  // A lot may be named in bytes that are no UTF-8; they are replaced, not refused.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace vatwright
