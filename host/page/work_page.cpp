#include "host/page/book_pages.hpp"
#include "host/page/frame.hpp"
#include "host/page/pages.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

class WorkPage {
 public:
  WorkPage(const Work& work, const Premises& on, bool asked, const std::string& beside)
      : work_(work),
        on_(on),
        asked_(asked),
        beside_(beside),
        base_(text_of(work.base()).text),
        whole_(asked ? text_of(work.whole()).text : std::string()),
        frame_(label_of(work.calculation()), Stage::figures, base_),
        page_(frame_.page()) {}

  Response write() {
    lots();
    page_.open("div", {{"class", "bench"}});
    page_.open("div");
    form();
    help();
    page_.close();
    result();
    page_.close();
    return frame_.finish();
  }

 private:
  // Which lot the step is on, where there are several.
  void lots() {
    if (!work_.calculation().on_lot || work_.lots().empty()) return;
    page_.open("p", {{"class", "what"}});
    page_.text(work_.lots().size() == 1 ? "On lot " : "On lot: ");
    for (const auto& lot : work_.lots()) {
      if (lot == work_.lot())
        page_.element("strong", lot);
      else
        frame_.anchor(lot, frame_.link("/ask", {{"of", work_.id()}, {"lot", lot}}));
      page_.text(" ");
    }
    page_.close();
  }

  void form() {
    frame_.open_form("/work", "get", "figures");
    frame_.hidden("of", work_.id());
    if (!work_.lot().empty()) frame_.hidden("lot", work_.lot());
    if (!beside_.empty()) frame_.hidden("beside", beside_);
    known();
    std::vector<const Field*> first, later;
    for (const auto& field : work_.fields()) {
      if (one_of_number(*field.input) != no_group) continue;
      const bool said = work_.typed().any_under(field.name) && filled(field.name);
      const bool asked_first = field.required || said || work_.slips().contains(field.name) || in_example(*field.input);
      (asked_first ? first : later).push_back(&field);
    }
    for (const Field* field : first) write_field(page_, *field, work_.state());
    for (std::size_t i = 0; i < work_.calculation().one_of.size(); ++i) one_of(i);
    if (!later.empty()) {
      page_.open("details", {{"id", "more"}});
      page_.element("summary", "More that can be said");
      for (const Field* field : later) write_field(page_, *field, work_.state());
      page_.close();
    }
    page_.open("p", {{"class", "buttons"}});
    frame_.button("Compute", "first");
    page_.close();
    page_.close();
  }

  // What the worked example gives of the lot is what is usually asked for, required or not.
  bool in_example(const Input& input) const {
    const auto& example = work_.calculation().example;
    return find_lot_key(input.name) != nullptr &&
           std::any_of(example.begin(), example.end(),
                       [&](std::string_view argument) { return argument.substr(0, argument.find('=')) == input.name; });
  }

  static constexpr std::size_t no_group = static_cast<std::size_t>(-1);
  std::size_t one_of_number(const Input& input) const {
    const auto& groups = work_.calculation().one_of;
    for (std::size_t i = 0; i < groups.size(); ++i)
      if (std::find(groups[i].begin(), groups[i].end(), &input) != groups[i].end()) return i;
    return no_group;
  }

  bool filled(const std::string& name) const {
    for (const auto& [field, typed] : work_.typed().all())
      if ((field == name || field.starts_with(under(name, ""))) && !trimmed(typed).empty()) return true;
    return false;
  }

  void one_of(std::size_t number) {
    page_.open("fieldset", {{"class", "one-of"}});
    page_.element("legend", "One of these");
    for (const auto& field : work_.fields())
      if (one_of_number(*field.input) == number) write_field(page_, field, work_.state());
    page_.close();
  }

  void known() {
    if (work_.known().empty()) return;
    page_.element("h2", "What the lot brings along");
    page_.open("dl", {{"class", "known"}});
    for (const auto& fact : work_.known()) {
      page_.element("dt", label_of(*fact.input));
      page_.element("dd", fact.words);
    }
    page_.close();
  }

  // --- the sheet ------------------------------------------------------------------------------

  void result() {
    page_.open("section", {{"id", "result"}, {"data-part", ""}, {"aria-live", "polite"}, {"aria-label", "Worksheet"}});
    if (work_.sheet())
      sheet(*work_.sheet());
    else if (work_.handed() != nullptr)
      elsewhere(*work_.handed());
    else if (asked_)
      why_none();
    else
      page_.element("p", "The worksheet stands here as soon as the figures are given.", {{"class", "waiting"}});
    page_.close();
  }

  // The choice is answered by another question: on with what was typed.
  void elsewhere(const HandOver& how) {
    const auto choice = work_.typed().get(under(of_step, how.input->name));
    page_.element("h2", fmt::format("There is a question of its own for {}", choice));
    page_.element("p", "The lot moves with it, and that is reckoned there. What you typed goes along.");
    std::string link = frame_.link("/work", {{"of", std::string(how.to)}, {"lot", work_.lot()}});
    const Fields typed_there = work_.typed_there();
    for (const auto& [name, typed] : typed_there.all())
      if (!typed.empty()) link += "&" + in_address(name) + "=" + in_address(typed);
    page_.open("p", {{"class", "buttons"}});
    frame_.anchor(label_of(*calculation_of_page(on_, std::string(how.to)).calculation), link, "button first");
    page_.close();
    if (!how.instead.empty()) page_.element("p", how.instead);
  }

  void why_none() {
    if (!work_.troubles().empty()) return frame_.slips(work_.troubles(), "It cannot be computed like this");
    if (!work_.slips().empty())
      return frame_.slips({"What is amiss stands below its field."}, "Something is to be looked at again");
    page_.element("h2", "Still to be given");
    page_.open("ul");
    for (const Input* input : work_.missing()) {
      page_.open("li");
      page_.text(label_of(*input));
      page_.element("small", input->help);
      page_.close();
    }
    page_.close();
  }

  std::string with_whole(std::string_view path) const { return std::string(path) + "?recipe=" + in_address(whole_); }

  void sheet(const Worksheet& sheet) {
    const auto count = count_checks(sheet);
    page_.element("p", "Checks: " + count.words(), {{"class", count.failing > 0 ? "verdict fails" : "verdict"}});
    page_.open("p", {{"class", "buttons"}});
    frame_.anchor("Next step for this lot",
                  with_whole("/questions") + (work_.lot().empty() ? "" : "&lot=" + in_address(work_.lot())),
                  "button first");
    frame_.anchor("The sheet alone, to print", with_whole("/sheet"), "button");
    if (work_.may_be_of_each()) frame_.anchor("The same for every lot, on one page", with_whole("/each"), "button");
    page_.close();
    if (!beside_.empty()) side_by_side(sheet);
    page_.open("iframe", {{"src", with_whole("/sheet")}, {"title", "Worksheet"}, {"class", "sheet"}});
    page_.close();
    page_.open("p", {{"class", "save"}});
    page_.text("Save it: ");
    frame_.anchor("recipe", with_whole("/recipe.yaml"));
    page_.text(", ");
    frame_.anchor("sheet as a page", with_whole("/sheet.html"));
    page_.text(", ");
    frame_.anchor("sheet for a colleague to verify (JSON)", with_whole("/sheet.json"));
    page_.text(", ");
    frame_.anchor("figures as a table (CSV)", with_whole("/figures.csv"));
    page_.close();
    keep_form(frame_, whole_, on_);
  }

  // What the change of a figure changes: the figures of a step that are not the same in both.
  void side_by_side(const Worksheet& now) {
    const auto before = computed(beside_ + "\n", on_).sheet;
    if (!before) return;
    const auto lines_before = figures(*before), lines_now = figures(now);
    page_.element("h2", "What it changes");
    page_.open("table", {{"class", "plain"}});
    page_.open("thead");
    page_.open("tr");
    for (const auto* head : {"figure", "on the sheet", "now"}) page_.element("th", head, {{"scope", "col"}});
    page_.close();
    page_.close();
    page_.open("tbody");
    bool any = false;
    const auto line = [&](const std::string& name, const std::string& was, const std::string& is) {
      any = true;
      page_.open("tr");
      page_.element("th", name, {{"scope", "row"}});
      page_.element("td", was);
      page_.element("td", is, {{"class", "figure"}});
      page_.close();
    };
    for (const auto& [name, was] : lines_before) {
      const auto at = lines_now.find(name);
      if (at == lines_now.end() || at->second != was) line(name, was, at == lines_now.end() ? "none" : at->second);
    }
    for (const auto& [name, is] : lines_now)
      if (!lines_before.contains(name)) line(name, "none", is);
    if (!any) line("all figures", "the same", "the same");
    page_.close();
    page_.close();
  }

  static std::map<std::string, std::string> figures(const Worksheet& sheet) {
    std::map<std::string, std::string> out;
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
      const auto& outcome = sheet.steps[i].outcome;
      const auto before = sheet.steps.size() == 1 ? std::string() : fmt::format("step {}: ", i + 1);
      for (const auto& r : outcome.results)
        out[before + std::string(r.info->name)] =
            shown(Figure{r.info->unit, r.info->decimals, r.number, r.info->dimension});
      for (std::size_t k = 0; k < outcome.additions.size(); ++k)
        out[fmt::format("{}{} to add", before, outcome.additions[k].substance)] = shown_amount(outcome.additions[k]);
      for (const auto& check : outcome.checks) out[before + check.name] = std::string(verdict_of(check));
    }
    return out;
  }

  // --- help -----------------------------------------------------------------------------------

  void help() {
    const auto& c = work_.calculation();
    page_.open("details", {{"class", "about-it"}});
    page_.element("summary", "Cautions, sources, a worked example");
    page_.element("p", c.help);
    page_.element("h2", "Cautions");
    page_.open("ul", {{"class", "cautions"}});
    bool any = false;
    for (const auto& need : c.inputs)
      if (need.input->kind == Kind::substance)
        for (const auto id : need.input->choices) any = cautions(id) || any;
    for (const auto id : c.reagents) any = cautions(id) || any;
    if (!any) page_.element("li", "nothing is handled; the figures are a calculation aid");
    page_.close();
    page_.element("h2", "Sources");
    page_.open("ul");
    for (const auto& source : c.sources)
      page_.element("li", fmt::format("{}{}{}{}", source.title, source.place.empty() ? "" : ", ", source.place,
                                      source.standing.empty() ? "" : fmt::format(" ({})", source.standing)));
    page_.close();
    page_.open("p");
    frame_.anchor("Try it with a worked example", "/try?of=" + in_address(work_.id()), "button");
    page_.close();
    page_.close();
  }

  bool cautions(std::string_view id) {
    const Substance* s = on_.catalogue.find(id);
    if (s == nullptr) return false;
    for (const auto& hazard : s->hazards)
      page_.element("li", fmt::format("{}: {} {}", s->name(), hazard.code, hazard.text));
    for (const auto& caution : s->cautions) page_.element("li", fmt::format("{}: {}", s->name(), caution));
    return true;
  }

  const Work& work_;
  const Premises& on_;
  bool asked_;
  std::string beside_, base_, whole_;
  Frame frame_;
  Markup& page_;
};

}  // namespace

Response work_page(const Work& work, const Premises& on, bool asked, const std::string& beside) {
  return WorkPage(work, on, asked, beside).write();
}

Draft draft_of_arguments(const Registry::Found& found, std::string_view lines) {
  Draft draft;
  draft.set_word("recipe", found.calculation->help);
  DraftPart lot{"A"}, step{fmt::format("{}.{}", found.plugin->name, found.calculation->name)};
  std::vector<std::string> rules;
  while (!lines.empty()) {
    const auto argument = lines.substr(0, lines.find('\n'));
    lines.remove_prefix(std::min(lines.size(), argument.size() + 1));
    constexpr std::string_view rules_mark = "--rules ";
    if (argument.starts_with(rules_mark)) rules.emplace_back(argument.substr(rules_mark.size()));
    const auto equals = argument.find('=');
    if (equals == std::string_view::npos || argument.starts_with(rules_mark)) continue;
    const auto name = argument.substr(0, equals);
    const std::string text(argument.substr(equals + 1));
    Node value = text_node_of(text);
    if (text.starts_with('{') || text.starts_with('[')) value = Document::read("argument", text).root();
    if (name == "acid basis")
      draft.set_word(name, text);
    else
      (find_lot_key(name) != nullptr ? lot : step).set(name, std::move(value));
  }
  draft.set_rules(rules);
  draft.lots.push_back(std::move(lot));
  draft.steps.push_back(std::move(step));
  return draft;
}

Draft example_of(const Registry::Found& found) {
  const auto& c = *found.calculation;
  if (!c.example_recipe.empty()) return read_draft(std::string(c.example_recipe));
  std::string lines;
  for (const auto argument : c.example) lines.append(argument).append("\n");
  Draft draft = draft_of_arguments(found, lines);
  draft.set_word("demo data", "the figures of a worked example");
  return draft;
}

}  // namespace vatwright
