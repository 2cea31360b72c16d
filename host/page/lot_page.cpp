#include "host/page/frame.hpp"
#include "host/page/pages.hpp"
#include "host/plugin/lot.hpp"
#include "host/recipe/lot_name.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

const Basis* basis_of_draft(const Draft& draft) {
  const auto word = draft.word("acid basis");
  return word.empty() ? nullptr : find_basis(word);
}

void rule_boxes(Frame& frame, const Premises& on, const std::vector<std::string>& chosen) {
  Markup& page = frame.page();
  page.open("fieldset", {{"class", "field"}});
  page.element("legend", "Rules to hold it against");
  page.element("small", "none chosen: no legal limit is checked, and the sheet says so", {{"class", "help"}});
  page.open("div", {{"class", "choices"}});
  std::size_t number = 0;
  for (const auto& set : on.rule_sets) {
    const auto id = fmt::format("rules-{}", ++number);
    const bool ticked = std::find(chosen.begin(), chosen.end(), set.name) != chosen.end();
    page.open("label", {{"for", id}, {"class", "choice"}});
    page.leaf("input", {{"type", "checkbox"},
                        {"id", id},
                        {"name", "rules"},
                        {"value", set.name},
                        {ticked ? "checked" : "", "checked"}});
    page.open("span");
    page.text(set.name);
    page.element("small", set.title + ": " + set.note);
    page.close();
    page.close();
  }
  frame.hidden("rules asked", "yes");
  page.close();
  page.close();
}

void name_field(Markup& page, const Fields& typed, const std::map<std::string, Slip>& slips) {
  const auto slip = slips.find("name");
  page.open("div", {{"class", "field"}});
  page.element("label", "Lot", {{"for", "name"}});
  page.leaf("input", {{"type", "text"},
                      {"id", "name"},
                      {"name", "name"},
                      {"value", typed.get("name")},
                      {"autocomplete", "off"},
                      {"aria-describedby", "name-help name-note"},
                      {slip == slips.end() ? "" : "aria-invalid", "true"}});
  page.element("small", "as it stands on the tank, such as T7", {{"class", "help"}, {"id", "name-help"}});
  page.element("p", slip == slips.end() ? "" : slip->second.words(), {{"class", "note slip"}, {"id", "name-note"}});
  page.close();
}

// A form of its own for a text or a file that is brought along.
void bring(Frame& frame, std::string_view action, std::string_view heading, std::string_view words,
           std::string_view button) {
  Markup& page = frame.page();
  page.open("section", {{"class", "bring"}});
  page.element("h2", heading);
  page.element("p", words);
  frame.open_form(action, "post");
  const std::string id = "text" + std::string(action.substr(1)), file = "file" + std::string(action.substr(1));
  page.element("label", "from a file", {{"for", file}});
  page.leaf("input", {{"type", "file"}, {"id", file}, {"name", "file"}});
  page.element("label", "or pasted", {{"for", id}});
  page.open("textarea", {{"id", id}, {"name", "text"}, {"rows", "4"}, {"spellcheck", "false"}});
  page.close();
  frame.button(button);
  page.close();
  page.close();
}

}  // namespace

Response lot_page(const Request& request, const Premises& on, const std::map<std::string, Slip>& slips) {
  const std::string recipe = request.fields.get("recipe");
  const Draft draft = read_draft(recipe);
  Fields typed = request.fields;
  const bool begins = request.path == "/" && recipe.empty();
  if (const auto* lot = draft.lot(typed.get("lot")); lot != nullptr && !typed.has("name")) {
    typed.set("name", lot->name);
    for (const Input* key : lot::keys)
      if (const Node* value = lot->find(key->name); value != nullptr)
        put_into_fields(*key, under(of_lot, key->name), *value, typed);
  }
  Frame frame(begins ? "Which lot is it about?" : "What is known of the lot", Stage::lot, recipe);
  Markup& page = frame.page();
  if (begins) {
    page.open("p", {{"id", "go-on"}, {"hidden", "hidden"}});
    page.element("a", "Go on where you left off", {{"href", "/"}});
    page.element("button", "Forget it", {{"type", "button"}, {"class", "quiet"}});
    page.close();
  }
  if (!slips.empty()) frame.slips({"Nothing has been taken over yet."}, "Something is to be looked at again");
  frame.open_form("/questions");
  frame.hidden("was", typed.get(typed.has("was") ? "was" : "lot"));
  name_field(page, typed, slips);
  rule_boxes(frame, on, typed.has("rules asked") ? typed.each("rules") : draft.rules());
  const bool open = !begins || typed.any_under(under(of_lot, ""));
  page.open("details", {{open ? "open" : "", "open"}});
  page.element("summary", "Its analysis, as far as it is known");
  page.element("p", "The question asks for what it needs; here is all that a lot can say.");
  page.open("div", {{"class", "fields"}});
  const FormState state{typed, slips, basis_of_draft(draft), {}};
  std::size_t number = 0;
  for (const Input* key : lot::keys)
    write_field(page, {key, under(of_lot, key->name), fmt::format("f{}", ++number)}, state);
  page.close();
  page.close();
  page.open("p", {{"class", "buttons"}});
  frame.button("On to the question", "first");
  page.close();
  page.close();
  if (begins) {
    page.open("div", {{"class", "ways"}});
    bring(frame, "/open", "Open a recipe",
          "One that was saved from here, or written by hand (.yaml). Or drop it on this page.", "Open it");
    bring(frame, "/table", "Take lots from a table",
          "Copied from a spreadsheet, or saved as CSV: the first row says what was measured, and each row below is a "
          "lot. You see what was understood before anything is taken.",
          "Look at the table");
    bring(frame, "/verify", "Check a colleague's sheet",
          "The sheet as it was saved in JSON. It is computed anew and compared, and you can change a figure of it.",
          "Check it");
    page.open("section", {{"class", "bring"}});
    page.element("h2", "Begin with raw readings");
    page.element("p", "Burette, photometer and meter readings of many samples, judged and made into lots.");
    frame.anchor("Open the laboratory's table", "/intake", "button");
    page.close();
    page.close();
  }
  return frame.finish();
}

Response lots_page(const Draft& draft) {
  Frame frame("The lots", Stage::lot, text_of(draft).text);
  Markup& page = frame.page();
  page.open("ul", {{"class", "lots"}});
  for (const auto& lot : draft.lots) {
    page.open("li");
    frame.anchor(lot.name, frame.link("/lot", {{"lot", lot.name}}));
    std::string known;
    for (const auto& entry : lot.says)
      known += fmt::format("{}{} {}", known.empty() ? "" : ", ", entry.key,
                           entry.value.kind == Node::Kind::text ? entry.value.text : in_one_line(entry.value));
    page.element("small", known.empty() ? " nothing is known of it yet" : " " + known);
    page.close();
  }
  page.close();
  page.open("p", {{"class", "buttons"}});
  frame.anchor("Add another lot", frame.link("/lot"), "button");
  frame.anchor("On to the question", frame.link("/questions"), "button first");
  page.close();
  return frame.finish();
}

std::map<std::string, Slip> take_lot(const Fields& typed, Draft& draft) {
  std::map<std::string, Slip> slips;
  const auto name = typed.get("name"), was = typed.get("was");
  if (name.empty()) slips.emplace("name", Slip{"the lot has no name yet", "write what stands on the tank, such as T7"});
  if (name != was && draft.lot(name) != nullptr)
    slips.emplace("name", Slip{"there is a lot '" + name + "' already", "give this one a name of its own"});
  try {
    check_lot_name(name);
  } catch (const InputError& error) {
    slips.emplace("name", Slip{error.what(), error.hint()});
  }
  DraftPart lot{name};
  if (const DraftPart* before = draft.lot(was.empty() ? name : was); before != nullptr)
    if (const Node* from = before->find("from"); from != nullptr && was == name) lot.set("from", *from);
  const Basis* basis = basis_of_draft(draft);
  for (const Input* key : lot::keys) {
    const auto field = under(of_lot, key->name);
    auto value = typed_value(*key, field, typed, basis, {});
    if (!value) continue;
    if (auto slip = slip_in(*key, *value, basis)) slips.emplace(field, std::move(*slip));
    lot.set(key->name, std::move(*value));
  }
  if (!slips.empty()) return slips;
  if (DraftPart* there = draft.lot(was.empty() ? name : was); there != nullptr)
    *there = std::move(lot);
  else
    draft.lots.push_back(std::move(lot));
  for (auto& step : draft.steps)
    if (!was.empty() && step.lot == was) step.lot = name;
  if (typed.has("rules asked")) draft.set_rules(typed.each("rules"));
  return slips;
}

}  // namespace vatwright
