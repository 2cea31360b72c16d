#include "host/page/form.hpp"

#include "host/describe/describe.hpp"
#include "host/page/draft.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

constexpr std::size_t most_radios = 8;  // more are a list to choose from
constexpr std::size_t empty_lines = 2;  // below those of a table that are filled in
constexpr std::size_t lines_at_first = 4;

class FieldWriter {
 public:
  FieldWriter(Markup& page, const Field& field, const FormState& state)
      : page_(page),
        field_(field),
        input_(*field.input),
        state_(state),
        help_id_(field.id + "-help"),
        note_id_(field.id + "-note"),
        about_(help_id_ + " " + note_id_) {}

  void write() {
    switch (input_.kind) {
      case Kind::quantity:
      case Kind::name:
      case Kind::new_lot:
        return one("text");
      case Kind::date:
        return one("date");
      case Kind::choice:
      case Kind::substance:
        return choices();
      case Kind::series:
        return group([&] { pairs(std::string(input_.x_unit), std::string(input_.unit)); });
      case Kind::shares:
        return group([&] { pairs("name", "share, %"); });
      case Kind::amounts:
        return group([&] { amounts(); });
      case Kind::bounds:
        return group([&] { bounds(); });
      case Kind::lots:
        return group([&] { lots(); });
      case Kind::rows:
        return group([&] { rows(); });
    }
  }

 private:
  void label(std::string_view tag) {
    if (tag == "label")
      page_.open(tag, {{"for", field_.id}});
    else
      page_.open(tag);
    page_.text(label_of(input_));
    if (!field_.required && !field_.one_of)
      page_.element("small", field_.fallback.empty() ? " may be left empty" : " may be left as it is");
    page_.close();
  }

  void help() {
    std::string words(input_.help);
    if (input_.usual)
      words += fmt::format("; usual {}{}", in_words(*input_.usual), unit_behind());
    else if (input_.valid && input_.kind == Kind::quantity && helps(*input_.valid))
      words += fmt::format("; {}{} are taken", in_words(*input_.valid), unit_behind());
    page_.element("small", words, {{"id", help_id_}, {"class", "help"}});
  }

  // A range that is there only to keep out what cannot be a reading tells nobody anything.
  static bool helps(const Range& range) {
    constexpr double large = 1e5;
    return std::abs(range.low) < large && range.high < large;
  }

  std::string unit_behind() const {
    return input_.unit.empty() || input_.unit == "1" || input_.unit == input_.name ? ""
                                                                                   : " " + std::string(input_.unit);
  }

  void note() {
    const auto slip = state_.slips.find(field_.name);
    page_.open("p",
               {{"class", slip == state_.slips.end() ? "note" : "note slip"}, {"id", note_id_}, {"data-part", ""}});
    if (slip != state_.slips.end()) {
      page_.text(slip->second.words());
    } else if (const auto typed = state_.typed.get(field_.name); !typed.empty()) {
      if (const auto words = understood(input_, typed, state_.basis); !words.empty()) page_.text("read as " + words);
      if (const auto words = unusual(input_, typed, state_.basis); !words.empty())
        page_.element("strong", " " + words, {{"class", "unusual"}});
    }
    page_.close();
  }

  void one(std::string_view type) {
    page_.open("div", {{"class", "field"}});
    label("label");
    page_.open("span", {{"class", "typed"}});
    const auto typed = state_.typed.get(field_.name);
    const bool slipped = state_.slips.contains(field_.name);
    page_.leaf("input", {{"type", type},
                         {"id", field_.id},
                         {"name", field_.name},
                         {"value", typed},
                         {"placeholder", field_.fallback},
                         {"autocomplete", "off"},
                         {"spellcheck", "false"},
                         {"aria-describedby", about_},
                         {slipped ? "aria-invalid" : "", "true"}});
    if (!unit_behind().empty()) page_.element("span", input_.unit, {{"class", "unit"}});
    page_.close();
    help();
    note();
    page_.close();
  }

  template <class Inside>
  void group(Inside inside) {
    page_.open("fieldset", {{"class", "field"}, {"aria-describedby", about_}});
    label("legend");
    help();
    inside();
    note();
    page_.close();
  }

  std::string_view choice_help(std::size_t i) const {
    return i < input_.choices_help.size() ? input_.choices_help[i] : std::string_view();
  }

  void choices() {
    const auto chosen = state_.typed.get(field_.name);
    group([&] {
      if (input_.choices.size() > most_radios) return list(field_.name, input_, chosen, label_of(input_));
      page_.open("div", {{"class", "choices"}});
      if (!field_.required) radio("", unchosen(), {}, chosen.empty(), 0);
      for (std::size_t i = 0; i < input_.choices.size(); ++i)
        radio(input_.choices[i], std::string(input_.choices[i]), choice_help(i), chosen == input_.choices[i], i + 1);
      page_.close();
    });
  }

  std::string unchosen() const {
    return field_.fallback.empty() ? "not said" : fmt::format("as usual: {}", field_.fallback);
  }

  void radio(std::string_view value, const std::string& words, std::string_view what, bool checked,
             std::size_t number) {
    const auto id = fmt::format("{}-{}", field_.id, number);
    page_.open("label", {{"for", id}, {"class", "choice"}});
    page_.leaf("input", {{"type", "radio"},
                         {"id", id},
                         {"name", field_.name},
                         {"value", value},
                         {checked ? "checked" : "", "checked"}});
    page_.open("span");
    page_.text(words);
    if (!what.empty()) page_.element("small", what);
    page_.close();
    page_.close();
  }

  void list(const std::string& name, const Input& of, std::string_view chosen, const std::string& words) {
    page_.open("select", {{"name", name}, {"aria-label", words}});
    page_.element("option", &of == &input_ ? unchosen() : std::string(), {{"value", ""}});
    for (const auto choice : of.choices)
      page_.element("option", choice, {{"value", choice}, {choice == chosen ? "selected" : "", "selected"}});
    page_.close();
  }

  // --- tables ---------------------------------------------------------------------------------

  void cell(const std::string& name, std::string_view type, const std::string& words) {
    page_.open("td", {{"data-head", words}});
    page_.leaf("input", {{"type", type},
                         {"name", name},
                         {"value", state_.typed.get(name)},
                         {"aria-label", words},
                         {"autocomplete", "off"},
                         {"spellcheck", "false"}});
    page_.close();
  }

  void cell_of(const Input& column, const std::string& line, const std::string& of) {
    const auto name = under(line, column.name);
    const auto words = fmt::format("{}, {}", head_of(column), of);
    if (column.kind != Kind::choice && column.kind != Kind::substance)
      return cell(name, column.kind == Kind::date ? "date" : "text", words);
    page_.open("td", {{"data-head", words}});
    list(name, column, state_.typed.get(name), words);
    page_.close();
  }

  static std::string head_of(const Input& column) {
    if (column.unit.empty() || column.unit == "1" || column.unit == column.name) return label_of(column);
    return fmt::format("{}, {}", label_of(column), column.unit);
  }

  void open_table(const std::vector<std::string>& heads, bool grows) {
    page_.open("div", {{"class", "scroll"}, {"role", "region"}, {"tabindex", "0"}, {"aria-label", label_of(input_)}});
    page_.open("table", {{"class", "typed-table"}, {grows ? "data-grows" : "", field_.name}});
    page_.open("thead");
    page_.open("tr");
    for (const auto& head : heads) page_.element("th", head, {{"scope", "col"}});
    page_.close();
    page_.close();
    page_.open("tbody");
  }

  void close_table() {
    page_.close();
    page_.close();
    page_.close();
  }

  std::size_t lines() const { return std::max(lines_at_first, lines_typed(field_.name, state_.typed) + empty_lines); }

  void pairs(const std::string& first, const std::string& second) {
    open_table({first, second}, true);
    for (std::size_t i = 0; i < lines(); ++i) {
      const auto line = under(field_.name, std::to_string(i));
      page_.open("tr");
      cell(under(line, "0"), "text", fmt::format("{}, line {}", first, i + 1));
      cell(under(line, "1"), "text", fmt::format("{}, line {}", second, i + 1));
      page_.close();
    }
    close_table();
  }

  void rows() {
    std::vector<std::string> heads;
    for (const auto& need : input_.each) heads.push_back(head_of(*need.input));
    open_table(heads, true);
    for (std::size_t i = 0; i < lines(); ++i) {
      page_.open("tr");
      for (const auto& need : input_.each)
        cell_of(*need.input, under(field_.name, std::to_string(i)), fmt::format("line {}", i + 1));
      page_.close();
    }
    close_table();
  }

  void lots() {
    std::vector<std::string> heads{"lot"};
    for (const auto& need : input_.each) heads.push_back(head_of(*need.input));
    open_table(heads, false);
    std::size_t number = 0;
    for (const auto& lot : state_.lots) {
      const auto line = under(field_.name, lot), id = fmt::format("{}-lot-{}", field_.id, ++number);
      page_.open("tr");
      page_.open("th", {{"scope", "row"}});
      page_.leaf("input", {{"type", "checkbox"},
                           {"id", id},
                           {"name", under(line, taken_mark)},
                           {"value", "yes"},
                           {state_.typed.has(under(line, taken_mark)) ? "checked" : "", "checked"}});
      page_.element("label", " " + lot, {{"for", id}});
      page_.close();
      for (const auto& need : input_.each) cell_of(*need.input, line, lot);
      page_.close();
    }
    close_table();
  }

  void amounts() {
    open_table({"of", std::string(input_.unit)}, false);
    for (const auto choice : input_.choices) {
      page_.open("tr");
      page_.element("th", choice, {{"scope", "row"}});
      cell(under(field_.name, choice), "text", fmt::format("{}, {}", choice, input_.unit));
      page_.close();
    }
    close_table();
  }

  void bounds() {
    open_table({"of", "such as 'at most 3', 'at least 3', '3 to 4', with the unit"}, false);
    for (const auto& need : input_.each) {
      page_.open("tr");
      page_.element("th", head_of(*need.input), {{"scope", "row"}});
      cell(under(field_.name, need.input->name), "text", head_of(*need.input));
      page_.close();
    }
    close_table();
  }

  Markup& page_;
  const Field& field_;
  const Input& input_;
  const FormState& state_;
  std::string help_id_, note_id_, about_;
};

}  // namespace

void write_field(Markup& page, const Field& field, const FormState& state) { FieldWriter(page, field, state).write(); }

}  // namespace vatwright
