#include "host/book/register.hpp"

#include "host/batch/csv.hpp"
#include "host/book/card_table.hpp"
#include "host/book/follow.hpp"
#include "host/book/views.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/html_page.hpp"
#include "host/sheet/page.hpp"
#include "host/yaml/document.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace vatwright::book {
namespace {

struct Record {
  std::string name, source;
  std::vector<std::string> calculations, substances, figures;

  bool takes(const std::string& calculation, const std::string& substance) const {
    if (calculations.empty() && substances.empty()) return true;
    return std::find(calculations.begin(), calculations.end(), calculation) != calculations.end() ||
           std::find(substances.begin(), substances.end(), substance) != substances.end();
  }
};

struct Form {
  std::string title, time, left_out_source;
  std::vector<Record> records;
  std::vector<std::string> left_out;
};

std::string text_in(const Node& node, std::string_view key) {
  const Node* found = node.find(key);
  return found == nullptr ? std::string() : found->text;
}

std::vector<std::string> list_in(const Node& node, std::string_view key) {
  std::vector<std::string> out;
  if (const Node* list = node.find(key))
    for (const auto& item : list->items) out.push_back(item.text);
  return out;
}

Form form_of(const std::filesystem::path& table, const std::string& rules) {
  const Document document = Document::open(table);
  const Node* set = document.root().find(rules);
  if (set == nullptr) {
    std::string names;
    for (const auto& entry : document.root().entries) names += (names.empty() ? "" : ", ") + entry.key;
    throw BadInput("there is no register of the rules " + in_quotes(rules) + "\n  there are registers of: " + names);
  }
  Form form{
      text_in(*set, "title"), text_in(*set, "time"), text_in(*set, "left out source"), {}, list_in(*set, "left out")};
  if (const auto standing = text_in(*set, "time standing"); !standing.empty()) form.time += " (" + standing + ")";
  if (const Node* records = set->find("records"))
    for (const auto& row : records->items)
      form.records.push_back({text_in(row, "record"), text_in(row, "source"), list_in(row, "calculations"),
                              list_in(row, "substances"), list_in(row, "figures")});
  return form;
}

// The lot as it was before the entry.
std::optional<LotState> before(const Book& book, const std::string& lot, std::int64_t moment, std::int64_t entry) {
  auto row = book.data().prepare(
      "SELECT facts FROM state WHERE lot = ? AND (moment < ? OR (moment = ? AND entry < ?)) ORDER BY moment DESC, "
      "entry DESC LIMIT 1");
  if (!row.with(lot, moment, moment, entry).step()) return std::nullopt;
  return LotState::of(lot, row.text(0));
}

std::optional<LotState> after(const Book& book, const std::string& lot, std::int64_t moment, std::int64_t entry) {
  return before(book, lot, moment, entry + 1);
}

std::string volume_words(const std::optional<LotState>& lot) {
  const auto litres = lot ? lot->litres() : std::nullopt;
  return litres ? fmt::format("{:.6g} L", *litres) : "not known";
}

std::string change_words(const std::string& lot, const std::optional<LotState>& then,
                         const std::optional<LotState>& now) {
  if (!then || then->born != (now ? now->born : 0)) return lot + ": " + volume_words(now) + " made";
  return lot + ": " + volume_words(then) + " to " + volume_words(now);
}

std::string figure_words(const Record& record, const std::optional<LotState>& then,
                         const std::optional<LotState>& now) {
  std::string words;
  for (const auto& name : record.figures) {
    const Input* key = find_lot_key(name);
    if (key == nullptr) continue;
    const auto said = [&](const std::optional<LotState>& lot) {
      const std::string known = lot ? fact_words(*lot, *key) : std::string();
      return known.empty() ? std::string("not known") : known;
    };
    const bool forecast = now && now->facts.contains(name) && now->facts.at(name).value("from", "") == from_forecast;
    words += fmt::format("{}{}: {} to {}{}", words.empty() ? "" : "; ", name, said(then), said(now),
                         forecast ? " (forecast)" : "");
  }
  return words;
}

std::string signed_by(const Book& book, std::int64_t sheet) {
  auto row = book.data().prepare("SELECT who FROM signature WHERE sheet = ? AND holds = 1 ORDER BY entry LIMIT 1");
  return row.with(sheet).step() ? row.text(0) : std::string();
}

class Writer {
 public:
  Writer(const Book& book, const Form& form, Register& out) : book_(book), form_(form), out_(out) {}

  void take(const Entry& entry, std::int64_t moment) {
    const Json payload = Json::parse(entry.payload);
    std::string volumes;
    for (const auto& lot : Done(entry, payload).lots())
      volumes += (volumes.empty() ? "" : "; ") +
                 change_words(lot, before(book_, lot, moment, entry.number), after(book_, lot, moment, entry.number));
    RegisterRow row;
    row.entry = entry.number;
    row.at = entry.at;
    row.by = entry.who;
    row.lot = payload.value("lot", "");
    row.operation = payload.value("calculation", "");
    row.volumes = volumes;
    if (payload.contains("sheet")) row.signed_by = signed_by(book_, payload.at("sheet").get<std::int64_t>());
    const Json additions = payload.value("additions", Json::array());
    if (additions.empty()) put(row, moment);
    for (const auto& addition : additions) {
      RegisterRow one = row;
      one.substance = addition.at("substance");
      one.strength = addition.value("strength", "");
      one.batch = addition.value("batch", "");
      const Json& weighed = addition.at("weighed");
      one.amount = fmt::format("{:.8g} {}", weighed.at("value").get<double>(), weighed.at("unit").get<std::string>());
      if (std::find(form_.left_out.begin(), form_.left_out.end(), one.substance) == form_.left_out.end())
        put(one, moment);
    }
  }

 private:
  void put(RegisterRow row, std::int64_t moment) {
    const auto record = std::find_if(form_.records.begin(), form_.records.end(),
                                     [&](const Record& r) { return r.takes(row.operation, row.substance); });
    if (record == form_.records.end()) return;
    row.record = record->name;
    row.source = record->source;
    row.figures =
        figure_words(*record, before(book_, row.lot, moment, row.entry), after(book_, row.lot, moment, row.entry));
    out_.rows.push_back(std::move(row));
  }

  const Book& book_;
  const Form& form_;
  Register& out_;
};

// "sulfite.addition: 231 g of potassium metabisulfite, batch L-220"
std::string register_words(const RegisterRow& row) {
  std::string words = row.operation;
  if (!row.amount.empty()) words += ": " + row.amount + " of " + row.substance;
  if (!row.strength.empty()) words += " (" + row.strength + ")";
  if (!row.batch.empty()) words += ", batch " + row.batch;
  return words;
}

struct ShownColumn {
  const char* head;
  std::string RegisterRow::*text;
};
constexpr std::array shown_columns{ShownColumn{"time", &RegisterRow::at},
                                   ShownColumn{"lot", &RegisterRow::lot},
                                   ShownColumn{"record", &RegisterRow::record},
                                   ShownColumn{"operation", &RegisterRow::operation},
                                   ShownColumn{"substance", &RegisterRow::substance},
                                   ShownColumn{"strength", &RegisterRow::strength},
                                   ShownColumn{"amount", &RegisterRow::amount},
                                   ShownColumn{"batch", &RegisterRow::batch},
                                   ShownColumn{"volumes", &RegisterRow::volumes},
                                   ShownColumn{"figures", &RegisterRow::figures},
                                   ShownColumn{"by", &RegisterRow::by},
                                   ShownColumn{"signed by", &RegisterRow::signed_by},
                                   ShownColumn{"source", &RegisterRow::source}};

}  // namespace

Register make_register(const Book& book, const std::filesystem::path& table, const std::string& rules,
                       std::optional<std::int64_t> from, std::optional<std::int64_t> to) {
  const Form form = form_of(table, rules);
  Register out{form.title, form.time, form.left_out_source, {}};
  Writer writer(book, form, out);
  auto rows = book.data().prepare(
      "SELECT h.entry, h.moment FROM happened h JOIN entry e ON e.number = h.entry WHERE e.kind = 'done' AND "
      "h.corrected_by IS NULL AND h.moment >= ? AND h.moment <= ? ORDER BY h.moment, h.entry");
  rows.with(from.value_or(INT64_MIN), to.value_or(INT64_MAX));
  while (rows.step()) writer.take(book.entry(rows.number(0)), rows.number(1));
  return out;
}

std::string register_text(const Register& all, const TextStyle& style) {
  Page page(style);
  page.heading(all.title);
  page.wrapped(fmt::format("Entries are due: {}. Check the current text.", all.time), 0);
  if (!all.left_out.empty()) page.wrapped("Left out: " + all.left_out, 0);
  if (all.rows.empty()) page.line("Nothing was done in this time.");
  std::string month;
  for (const auto& row : all.rows) {
    if (month_of(row.at) != month) {
      month = month_of(row.at);
      page.heading(month);
    }
    std::string words = short_hour(row.at) + "  " + row.record;
    const auto say = [&](std::string_view what, const std::string& text) {
      if (!text.empty()) words += fmt::format("; {}{}", what, text);
    };
    say("lot ", row.lot);
    say("", register_words(row));
    say("", row.volumes);
    say("", row.figures);
    say("by ", row.by);
    say("signed by ", row.signed_by);
    page.pair(fmt::format("{:>5}", row.entry), words + " [" + row.source + "]", 7);
  }
  return page.text();
}

std::string register_csv(const Register& all) {
  std::string text = "entry";
  for (const auto& column : shown_columns) text += std::string(",") + column.head;
  text += "\r\n";
  for (const auto& row : all.rows) {
    text += std::to_string(row.entry);
    for (const auto& column : shown_columns) text += "," + csv_cell(row.*column.text);
    text += "\r\n";
  }
  return text;
}

Json register_json(const Register& all) {
  Json rows = Json::array();
  for (const auto& row : all.rows) {
    Json one{{"entry", row.entry}};
    for (const auto& column : shown_columns) one[column.head] = row.*column.text;
    rows.push_back(std::move(one));
  }
  return {{"register", all.title}, {"time", all.time}, {"left out", all.left_out}, {"rows", rows}};
}

std::string register_html(const Register& all, const std::string& book) {
  Markup page;
  const PageName name{all.title, "register", {}, "section.month{break-after:page}\n@page{size:A4 landscape}\n"};
  write_head(page, name);
  page.open("body");
  page.open("main");
  write_title(page, name);
  page.element("p", fmt::format("Book {}. Entries are due: {}. Check the current text.", book, all.time));
  if (!all.left_out.empty()) page.element("p", "Left out: " + all.left_out);
  if (all.rows.empty()) page.element("p", "Nothing was done in this time.");
  for (auto row = all.rows.begin(); row != all.rows.end();) {
    const auto month = month_of(row->at);
    page.open("section", {{"class", "month"}});
    page.element("h2", month);
    CardTable table(page, month,
                    {"entry", "when", "lot", "record", "what was done", "volumes", "figures", "by", "signed by"});
    for (; row != all.rows.end() && month_of(row->at) == month; ++row)
      table.row({std::to_string(row->entry), short_hour(row->at), row->lot, row->record + " [" + row->source + "]",
                 register_words(*row), row->volumes, row->figures, row->by, row->signed_by});
    table.end();
    page.close();
  }
  page.close();
  write_end(page);
  page.close();
  page.close();
  return page.document();
}

}  // namespace vatwright::book
