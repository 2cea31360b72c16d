#include "host/bench/rule_sets.hpp"
#include "host/page/frame.hpp"
#include "host/page/pages.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace vatwright {
namespace {

constexpr char sheet_name[] = "the sheet";

// The recipe that the sheet carries; of one that was computed from arguments, one lot and one step.
Draft carried(const std::string& text, const Premises& on) {
  const auto json = nlohmann::json::parse(text, nullptr, false);
  const auto member = [&](const char* name) -> std::string {
    if (!json.is_object() || !json.contains("recipe") || !json["recipe"].is_object()) return {};
    const auto& value = json["recipe"].value(name, nlohmann::json());
    return value.is_string() ? value.get<std::string>() : std::string();
  };
  const std::string recipe = member("text");
  if (member("form") != arguments_form) return read_draft(recipe);
  std::string_view rest = recipe;
  const auto id = rest.substr(0, rest.find('\n'));
  rest.remove_prefix(std::min(rest.size(), id.size() + 1));
  return draft_of_arguments(calculation_of_page(on, std::string(id)), rest);
}

void list_of(Markup& page, std::string_view heading, const std::vector<std::string>& lines,
             std::string_view kind = {}) {
  constexpr std::size_t most_shown = 40;
  if (lines.empty()) return;
  page.element("h2", heading);
  page.open("ul");
  for (std::size_t i = 0; i < std::min(lines.size(), most_shown); ++i)
    page.element("li", lines[i], {{kind.empty() ? "" : "class", kind}});
  if (lines.size() > most_shown) page.element("li", fmt::format("and {} more", lines.size() - most_shown));
  page.close();
}

}  // namespace

Response verify_page(const std::string& text, const Premises& on) {
  const Draft draft = carried(text, on);
  for (const auto& name : draft.rules())
    if (is_rule_file(name))
      throw BadInput("the sheet was held against the rules in the file " + name +
                     ", and a page opens no file of rules\n  use 'vatwright verify' beside the file");
  const Verified verified = on.verify(sheet_name, text);
  const bool same = verified.differences.empty();
  Frame frame(same ? "The sheet holds what it says" : "The sheet does not hold", Stage::other, {});
  Markup& page = frame.page();
  const auto compared = fmt::format("{} figures and words were computed anew", verified.compared);
  if (!same)
    page.element("p", compared + "; do not work by this sheet", {{"class", "verdict fails"}});
  else if (verified.failing > 0)
    page.element("p",
                 fmt::format("{}, every one is the same; {} of {} checks of this sheet FAIL", compared,
                             verified.failing, verified.checks),
                 {{"class", "verdict fails"}});
  else
    page.element("p", compared + ", every one is the same", {{"class", "verdict"}});
  list_of(page, "What differs", verified.differences, "differs");
  list_of(page, "Which sheet it is", verified.about);
  list_of(page, "Not compared", verified.not_compared);
  if (!draft.steps.empty()) {
    const auto recipe = text_of(draft).text;
    page.open("p", {{"class", "buttons"}});
    frame.anchor("Change a figure and see what it changes",
                 "/work?recipe=" + in_address(recipe) + "&beside=" + in_address(recipe), "button first");
    page.close();
  }
  return frame.finish();
}

}  // namespace vatwright
