#include "host/sheet/blocks.hpp"

#include "host/files/version.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

namespace vatwright::blocks {
namespace {

Table list_to_tick(const Worksheet& sheet) {
  Table table{Table::Of::tasks,
              {},
              {{"what", Table::Look::anything},
               {"how much", Table::Look::amount},
               {"step", Table::Look::count},
               {"into", Table::Look::place}},
              {}};
  for (const auto& [n, i] : sheet.weigh_out.lines) {
    const StepSheet& step = sheet.steps[n];
    const Addition& a = step.outcome.additions[i];
    table.rows.push_back(
        {{named(a, *step.added[i])}, {shown_amount(a)}, {fmt::format("{}", n + 1)}, {listed_destination(step, i)}});
  }
  return table;
}

List what_it_does(const WeighOut& list) {
  List out{List::Of::cautions};
  for (const auto& total : list.totals)
    out.lines.push_back({.words = total.substance->name() + ": " + first_cautions(*total.substance),
                         .lead = total.additions > 1 ? total_words(total) + ". " : ""});
  return out;
}

// One addition is read where it stands; several are fetched and weighed by one list.
std::optional<Section> weigh_out(const Worksheet& sheet) {
  const WeighOut& list = sheet.weigh_out;
  if (!wants_weigh_out(list)) return std::nullopt;
  Section out{.id = "weigh-out", .title = {"Weigh-out list", ""}, .about = std::string(weigh_out_words)};
  for (const auto& pair : list.apart) out.blocks.emplace_back(Alarm{"Keep apart", apart_words(pair)});
  if (!list.lines.empty()) out.blocks.emplace_back(list_to_tick(sheet));
  for (const auto& words : idle_steps(sheet)) out.blocks.emplace_back(Remark{words, true});
  out.blocks.emplace_back(what_it_does(list));
  return out;
}

Group before_and_after(const LotSheet& lot) {
  const bool made = !lot.made.empty();
  Figures figures{made ? Figures::Of::made : Figures::Of::changed, "Lot " + lot.name, {}};
  for (const Input* key : lot::keys) {
    const auto [before, after] = lot.of(*key);
    if (before == nullptr && after == nullptr) continue;
    const auto [was, is] = made ? BeforeAfter{shown(*key, *after), {}} : shown_change(*key, before, after);
    figures.rows.push_back({std::string(key->name), was, was == is ? "" : is});
  }
  return {Group::Look::plain, {"Lot ", lot_title(lot)}, {std::move(figures)}};
}

std::optional<Section> lots(const Worksheet& sheet) {
  Section out{
      .id = "lots", .title = {"Lots before and after", ""}, .aside = "predicted: measure again before the next work"};
  for (const auto& one : sheet.lots)
    if (!one.before.empty() || !one.after.empty()) out.blocks.emplace_back(before_and_after(one));
  if (out.blocks.empty()) return std::nullopt;
  return out;
}

}  // namespace

Sheet beginning(const Worksheet& sheet) {
  const CheckCount count = count_checks(sheet);
  Sheet out{.title = sheet.title,
            .demo = sheet.demo,
            .recipe_sha256 = sheet.recipe_sha256,
            .fails = count.failing != 0,
            .verdict = count.words(),
            .about = {{"recipe", recipe_words(sheet.recipe_name, sheet.recipe_sha256)}},
            .sections = {}};
  if (!sheet.date.empty()) out.about.push_back({"date", sheet.date});
  if (!sheet.by.empty()) out.about.push_back({"by", sheet.by});
  return out;
}

Sheet whole(const Worksheet& sheet) {
  Sheet out = beginning(sheet);
  if (out.fails) out.verdict_remark = before_work;
  const auto say = [&](const char* name, std::string_view words) {
    if (!words.empty()) out.about.push_back({name, std::string(words)});
  };
  say("program", program_version);
  if (sheet.rules.empty()) say("rules", no_rules);
  for (const auto& rules : sheet.rules) say("rules", rules.note);
  for (const auto& language : sheet.languages) say("language", language.note);
  const auto uncertainty = uncertainty_words(sheet.uncertainty);
  say("±", uncertainty);
  for (const auto& note : sheet.uncertainty.notes) out.about.push_back({"±", note, !uncertainty.empty()});
  if (auto list = weigh_out(sheet)) out.sections.push_back(std::move(*list));
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) out.sections.push_back(step_of(sheet.steps, i));
  if (auto all = lots(sheet)) out.sections.push_back(std::move(*all));
  return out;
}

}  // namespace vatwright::blocks
