#include "host/intake/papers.hpp"

#include "host/batch/csv.hpp"
#include "host/intake/shown.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/chart.hpp"
#include "host/sheet/html_page.hpp"
#include "host/sheet/phrases.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace vatwright::intake {
namespace {

using Json = nlohmann::ordered_json;

// The facts of all samples that may be used, in the order of the lot's keys.
std::vector<const Input*> keys_of(const IntakeSheet& sheet) {
  std::vector<const Input*> found;
  for (const Input* key : lot::keys)
    for (const auto& sample : sheet.samples)
      for (const auto& answer : sample.answers)
        for (const auto& fact : answer.facts)
          if (fact.key->name == key->name && std::find(found.begin(), found.end(), key) == found.end())
            found.push_back(key);
  return found;
}

std::string cell_of(const SampleAnswers& sample, const Input& key) {
  for (const auto& answer : sample.answers) {
    if (!answer.may_be_used()) continue;
    for (const auto& fact : answer.facts) {
      if (fact.key->name != key.name) continue;
      if (key.kind != Kind::quantity) return fact.value.word;
      const Unit unit = parse_unit(key.unit);
      const double number = unit.number(fact.value.number);
      if (!(fact.value.uncertainty > 0)) return fmt::format("{:.5g}", number);
      constexpr int decimals = 4;
      return with_doubt(number, unit.spread(fact.value.uncertainty, fact.value.number), decimals);
    }
  }
  return {};
}

std::string head_in_table(const Input& key) {
  const bool bare = key.kind != Kind::quantity || key.name == key.unit;
  return std::string(key.name) + (bare ? "" : " [" + std::string(key.unit) + "]");
}

std::string right_words(const ControlVerdict& verdict) {
  return verdict.right ? verdict.words.empty() ? "right" : "right; " + verdict.words : "NOT RIGHT: " + verdict.words;
}

constexpr std::string_view of_the_last_day =
    "Readings of one day belong together; of a sample that was read on several days the last one counts.";

std::size_t width(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string aligned(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width(row[i]));
  std::string out;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      out += row[i];
      if (i + 1 < row.size()) out += std::string(widths[i] - width(row[i]) + 2, ' ');
    }
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  }
  return out;
}

std::vector<std::vector<std::string>> result_table(const IntakeSheet& sheet) {
  std::vector<std::vector<std::string>> rows(1);
  rows[0].emplace_back("sample");
  for (const auto& column : sheet.columns) rows[0].push_back(head_of(column));
  rows[0].insert(rows[0].end(), sheet.carried_heads.begin(), sheet.carried_heads.end());
  for (const auto& sample : sheet.samples) {
    auto& row = rows.emplace_back();
    row.push_back(sample.name + (sample.control ? " (control)" : ""));
    for (std::size_t i = 0; i < sample.answers.size(); ++i)
      row.push_back(shown_answer(sample.answers[i], sheet.columns[i]));
    row.insert(row.end(), sample.carried.begin(), sample.carried.end());
  }
  return rows;
}

void list_of_words(Markup& page, const std::vector<std::string>& words) {
  page.open("ul");
  for (const auto& one : words) page.element("li", one);
  page.close();
}

// On a narrow screen a wide table is moved sideways, not the page.
void open_table(Markup& page, std::string_view label) {
  page.open("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", label}});
  page.open("table");
}

void write_controls(Markup& page, const IntakeSheet& sheet) {
  if (sheet.controls.empty()) {
    page.element("p",
                 "No control sample is named in the mapping: nothing here says whether the laboratory is right today.");
    return;
  }
  open_table(page, "control samples");
  page.open("tr");
  for (const auto* head : {"control", "result", "known", "found", "readings", "verdict"})
    page.element("th", head, {{"scope", "col"}});
  page.close();
  for (const auto& verdict : sheet.controls) {
    page.open("tr");
    for (const auto& cell : {verdict.sample, verdict.result, verdict.known, verdict.found,
                             std::to_string(verdict.readings), right_words(verdict)})
      page.element("td", cell);
    page.close();
  }
  page.close();
  page.close();
}

void write_results(Markup& page, const IntakeSheet& sheet) {
  const auto rows = result_table(sheet);
  open_table(page, "results");
  for (const auto& row : rows) {
    page.open("tr");
    for (const auto& cell : row)
      if (&row == &rows.front())
        page.element("th", cell, {{"scope", "col"}});
      else if (&cell == &row.front())
        page.element("th", cell, {{"scope", "row"}});
      else
        page.element("td", cell);
    page.close();
  }
  page.close();
  page.close();
}

// Only where there is a course to be seen: one reading beside its limits stands in the table above.
void write_charts(Markup& page, const IntakeSheet& sheet) {
  std::size_t number = 0;
  for (const auto& verdict : sheet.controls) {
    if (!verdict.chart) continue;
    if (++number == 1) page.element("h2", "Control charts");
    write_chart(page, *verdict.chart, fmt::format("control-{}", number));
  }
}

// All handling stands in `vatwright substances`; at the bench the cautions are what counts, once.
void write_reagents(Markup& page, const IntakeSheet& sheet) {
  if (sheet.reagents.empty()) return;
  page.element("h2", "Reagents: cautions");
  const auto paragraph = [&](const std::string& whose, const std::string& words) {
    if (words.empty()) return;
    page.open("p");
    page.element("strong", whose + ": ");
    page.text(words);
    page.close();
  };
  // What several of them have in common is said once for them.
  std::map<std::string, std::string> of_whom;
  std::map<std::string, std::size_t> count;
  for (const Substance* reagent : sheet.reagents)
    for (const auto& caution : reagent->cautions) {
      auto& names = of_whom[caution];
      names += (names.empty() ? "" : ", ") + reagent->name();
      ++count[caution];
    }
  std::vector<std::pair<std::string, std::string>> shared;
  for (const Substance* reagent : sheet.reagents) {
    std::string words;
    for (const auto& caution : reagent->cautions) {
      if (count[caution] == 1) words += (words.empty() ? "" : " ") + caution;
      const auto& whose = count[caution] == sheet.reagents.size() ? "all of them" : of_whom[caution];
      const auto at = std::find_if(shared.begin(), shared.end(), [&](const auto& one) { return one.first == whose; });
      if (count[caution] == 1 || (at != shared.end() && at->second.find(caution) != std::string::npos)) continue;
      if (at == shared.end())
        shared.emplace_back(whose, caution);
      else
        at->second += " " + caution;
    }
    paragraph(reagent->name(), words);
  }
  for (const auto& [whose, words] : shared) paragraph(whose, words);
  page.element("p", waste);
}

}  // namespace

std::string write_lots(const IntakeSheet& sheet) {
  const auto keys = keys_of(sheet);
  std::vector<std::string> head{"lot"};
  for (const Input* key : keys) head.push_back(head_in_table(*key));
  head.insert(head.end(), sheet.carried_heads.begin(), sheet.carried_heads.end());
  std::string out = csv_line(head);
  for (const auto& sample : sheet.samples) {
    if (sample.control) continue;
    std::vector<std::string> cells{sample.name};
    for (const Input* key : keys) cells.push_back(cell_of(sample, *key));
    cells.insert(cells.end(), sample.carried.begin(), sample.carried.end());
    out += csv_line(cells);
  }
  return out;
}

std::string write_intake_text(const IntakeSheet& sheet) {
  std::string out = sheet.title + "\n";
  if (!sheet.demo.empty()) out += "DEMO DATA: " + sheet.demo + "\n";
  out += summary(sheet) + "\n";
  out +=
      sheet.controls.empty() ? "\nNo control sample is named in the mapping.\n" : "\nIS THE LABORATORY RIGHT TODAY?\n";
  std::vector<std::vector<std::string>> controls;
  for (const auto& v : sheet.controls)
    controls.push_back({v.sample, v.result, "known " + v.known, "found " + v.found, right_words(v)});
  if (!controls.empty()) out += aligned(controls);
  const auto due = to_do(sheet);
  if (!due.empty()) out += "\nTO DO BEFORE ALL RESULTS ARE USED\n";
  for (const auto& one : due) out += "[ ] " + one + "\n";
  out += "\nRESULTS (± is a standard uncertainty)\n" + aligned(result_table(sheet)) + "\nHOW\n";
  for (const auto& column : sheet.columns) out += column.name + ": " + column.how + "\n";
  if (sheet.dated) out.append(of_the_last_day).append("\n");
  if (!sheet.reagents.empty()) out += "\nREAGENTS: CAUTIONS\n";
  for (const Substance* reagent : sheet.reagents) {
    out += reagent->name() + "\n";
    for (const auto& caution : reagent->cautions) out += "  ! " + caution + "\n";
  }
  out += fmt::format("\n{}\n\ntable {}, mapping {} (SHA-256 {})\n{}\n", waste, sheet.table, sheet.mapping,
                     sheet.mapping_sha256.substr(0, 12), sheet_foot);
  return out;
}

void write_intake_body(Markup& page, const IntakeSheet& sheet) {
  page.element("p", summary(sheet));
  page.element("h2", "Is the laboratory right today?");
  write_controls(page, sheet);
  if (const auto due = to_do(sheet); !due.empty()) {
    page.element("h2", "To do before all results are used");
    list_of_words(page, due);
  }
  page.element("h2", "Results");
  write_results(page, sheet);
  page.element("p", "± is " + std::string(what_plus_minus_is) + ".");
  page.element("h2", "How");
  for (const auto& column : sheet.columns) page.element("p", column.name + ": " + column.how);
  if (sheet.dated) page.element("p", of_the_last_day);
  write_reagents(page, sheet);
  write_charts(page, sheet);
}

std::string write_intake_html(const IntakeSheet& sheet) {
  const PageName name{
      sheet.title, "laboratory sheet", sheet.mapping_sha256,
      "@media print { body { font-size: 8pt } td, th { padding: 1px 5px } h2 { margin: .5em 0 .2em } p, ul "
      "{ margin: .2em 0 } }"};
  Markup page;
  write_head(page, name);
  page.open("body");
  page.open("main");
  write_title(page, name);
  write_demo(page, sheet.demo);
  write_intake_body(page, sheet);
  page.element("p", "Table " + sheet.table + ", mapping " + recipe_words(sheet.mapping, name.recipe_sha256));
  write_end(page);
  return page.document();
}

std::string write_intake_json(const IntakeSheet& sheet) {
  Json json{{"intake", 1}, {"title", sheet.title}};
  if (!sheet.demo.empty()) json["demo data"] = sheet.demo;
  json["table"] = sheet.table;
  json["mapping"] = {{"file", sheet.mapping}, {"sha256", sheet.mapping_sha256}};
  json["holds"] = sheet.holds();
  for (const auto& v : sheet.controls)
    json["controls"].push_back({{"sample", v.sample},
                                {"result", v.result},
                                {"known", v.known},
                                {"found", v.found},
                                {"readings", v.readings},
                                {"right", v.right},
                                {"words", v.words}});
  json["samples"] = Json::array();
  for (const auto& sample : sheet.samples) {
    Json one{{"sample", sample.name}, {"control", sample.control}, {"results", Json::array()}};
    for (std::size_t i = 0; i < sample.answers.size(); ++i) {
      const Answer& answer = sample.answers[i];
      if (answer.readings == 0) continue;
      Json result{{"name", sheet.columns[i].name}, {"unit", sheet.columns[i].unit}, {"readings", answer.readings}};
      if (answer.value) result["value"] = *answer.value;
      if (answer.value && answer.standard > 0) result["uncertainty"] = answer.standard;
      if (!answer.day.empty()) result["day"] = answer.day;
      result["may be used"] = answer.may_be_used();
      if (answer.held_back) result["held back"] = true;
      if (!answer.amiss.empty()) result["amiss"] = answer.amiss;
      one["results"].push_back(std::move(result));
    }
    for (std::size_t i = 0; i < sample.carried.size(); ++i) one["carried"][sheet.carried_heads[i]] = sample.carried[i];
    json["samples"].push_back(std::move(one));
  }
  if (!sheet.notes.empty()) json["notes"] = sheet.notes;
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace vatwright::intake
