#include "host/page/book_pages.hpp"

#include "host/page/form.hpp"
#include "host/page/work.hpp"
#include "host/recipe/often_read.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

namespace vatwright {
namespace {

constexpr int see_other = 303, refused_method = 405, amiss = 422;
constexpr std::string_view of_reading = "reading";

// Where a browser goes after an entry: to reload that page enters nothing twice.
Response sent_to(const PageBook::Entered& entered) {
  Response out{.status = see_other};
  out.location = entered.lot.empty() ? "/book?" : "/book/lot?lot=" + in_address(entered.lot) + "&";
  out.location += fmt::format("entered={}", entered.entry);
  return out;
}

// "file: what is wrong" and the hint below it, as one sentence.
std::string trouble_words(const BadInput& error) {
  const Slip slip = slip_of(error.what(), "");
  return slip.words();
}

class BookPages {
 public:
  BookPages(const Request& request, const PageBook& book, const Premises& on)
      : request_(request), fields_(request.fields), book_(book), on_(on) {}

  std::optional<Response> answer() {
    const auto& path = request_.path;
    if (path == "/book") return lots();
    if (path == "/book/lot") return lot(fields_.get("lot"));
    if (path == "/book/measure" && request_.method == "GET") return readings({}, {});
    const bool enters = path == "/book/measure" || path == "/book/keep" || path == "/book/done" || path == "/book/sign";
    if (!enters) return std::nullopt;
    if (request_.method != "POST")
      return said_page(refused_method, "Nothing was entered", "An entry is made with the form, not by its address.");
    if (path == "/book/measure") return measure();
    if (path == "/book/keep") return keep();
    return path == "/book/done" ? done() : sign();
  }

 private:
  PageBook::Said said() const { return {fields_.get("by"), fields_.get("at")}; }

  // --- what it shows --------------------------------------------------------------------------

  // That an entry was made, on the page that comes after it.
  void entered(Frame& frame) const {
    std::int64_t number = 0;
    const auto text = fields_.get("entered");
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size()) return;
    if (const auto words = book_.entry_words(number); !words.empty())
      frame.page().element("p", fmt::format("Entry {}: {}", number, words), {{"class", "verdict"}, {"role", "status"}});
  }

  Response lots() const {
    Frame frame("The cellar book", Stage::other, {});
    Markup& page = frame.page();
    entered(frame);
    page.element("p", "Book: " + book_.where(), {{"class", "what"}});
    const auto all = book_.lots();
    list(frame, "Lots in stock", all, false);
    list(frame, "Empty", all, true);
    if (all.empty())
      page.element("p",
                   "There is no lot in it yet. Enter the readings of one, or keep a sheet that was computed here.");
    page.open("p", {{"class", "buttons"}});
    frame.anchor("Enter readings of another lot", "/book/measure", "button first");
    page.close();
    return frame.finish();
  }

  static void list(Frame& frame, const char* heading, const std::vector<PageBook::Lot>& all, bool empty) {
    Markup& page = frame.page();
    if (std::none_of(all.begin(), all.end(), [&](const PageBook::Lot& one) { return one.empty == empty; })) return;
    page.element("h2", heading);
    page.open("ul", {{"class", "lots"}});
    for (const auto& lot : all) {
      if (lot.empty != empty) continue;
      page.open("li");
      frame.anchor(lot.name, "/book/lot?lot=" + in_address(lot.name));
      std::string known;
      for (const auto& [name, words] : lot.figures)
        if (!words.empty()) known += fmt::format("{}{} {}", known.empty() ? " " : ", ", name, words);
      page.element("small", known);
      if (lot.open > 0) page.element("strong", fmt::format(" {} to do", lot.open), {{"class", "open"}});
      page.close();
    }
    page.close();
  }

  Response lot(const std::string& name, const std::string& trouble = {}) const {
    if (!book_.has(name))
      throw BadInput("there is no lot '" + name +
                     "' in the book\n  look at the list of its lots, or enter readings of it");
    Frame frame("Lot " + name, Stage::other, {});
    Markup& page = frame.page();
    if (!trouble.empty()) frame.slips({trouble}, "Nothing was entered");
    entered(frame);
    page.open("p", {{"class", "buttons"}});
    frame.anchor("Enter readings", "/book/measure?lot=" + in_address(name), "button first");
    Draft draft;
    DraftPart part{name};
    part.set("from", text_node_of("book"));
    draft.lots.push_back(std::move(part));
    frame.anchor("A question on this lot", "/questions?recipe=" + in_address(text_of(draft).text), "button");
    frame.anchor("All lots", "/book", "button");
    page.close();
    work(frame, name);
    signatures(frame, name);
    book_.show(name, page);
    return frame.finish(trouble.empty() ? 200 : amiss);
  }

  void text_field(Frame& frame, const std::string& id, std::string_view name, std::string_view label,
                  std::string_view help, std::string_view value = {}) const {
    Markup& page = frame.page();
    page.open("div", {{"class", "field"}});
    page.element("label", label, {{"for", id}});
    page.leaf("input", {{"type", "text"},
                        {"id", id},
                        {"name", name},
                        {"value", value},
                        {"autocomplete", "off"},
                        {"aria-describedby", id + "-help"}});
    page.element("small", help, {{"id", id + "-help"}, {"class", "help"}});
    page.close();
  }

  void who_and_when(Frame& frame, const std::string& id, std::string_view who) const {
    text_field(frame, id + "-by", "by", who, "as you call that person", fields_.get("by"));
    text_field(frame, id + "-at", "at", "When", "left empty it is now; else such as 2026-10-03 09:30",
               fields_.get("at"));
  }

  void work(Frame& frame, const std::string& name) const {
    Markup& page = frame.page();
    std::size_t number = 0;
    for (const auto& work : book_.open_work(name)) {
      if (number == 0) page.element("h2", "To do");
      const auto id = fmt::format("work-{}", ++number);
      // The amount is never seen without its cautions.
      page.open("details", {{work.cautions.empty() ? "" : "open", "open"}});
      page.element("summary", work.id + ": " + work.what);
      if (!work.cautions.empty()) {
        page.open("ul", {{"class", "cautions"}});
        for (const auto& caution : work.cautions) page.element("li", caution);
        page.close();
      }
      frame.open_form("/book/done", "post");
      frame.hidden("id", work.id);
      frame.hidden("lot", name);
      page.open("div", {{"class", "fields"}});
      if (work.weighs) {
        text_field(frame, id + "-weighed", "weighed", "Weighed",
                   "what the balance showed, such as 184 g; left empty it is as planned");
        text_field(frame, id + "-batch", "batch", "Batch", "the code on the sack");
      }
      who_and_when(frame, id, "Done by");
      page.close();
      page.open("p", {{"class", "buttons"}});
      frame.button("It is done", "first");
      page.close();
      page.close();
      page.close();
    }
  }

  void signatures(Frame& frame, const std::string& name) const {
    Markup& page = frame.page();
    bool first = true;
    for (const auto& sheet : book_.sheets(name)) {
      if (first) page.element("h2", "Its sheets");
      first = false;
      const auto by = sheet.by.empty() ? std::string("nobody said who computed it") : "computed by " + sheet.by;
      if (!sheet.signed_by.empty()) {
        page.element("p",
                     fmt::format("Sheet {}, {}: {}, signed by {}", sheet.number, sheet.title, by, sheet.signed_by));
        continue;
      }
      const auto id = fmt::format("sign-{}", sheet.number);
      page.open("details");
      page.element("summary", fmt::format("Sheet {}, {}: {}, not signed", sheet.number, sheet.title, by));
      if (sheet.by.empty()) {
        page.element("p", "A second person cannot sign it: keep sheets with a name.");
      } else {
        frame.open_form("/book/sign", "post");
        frame.hidden("sheet", std::to_string(sheet.number));
        frame.hidden("lot", name);
        text_field(frame, id, "by", "Signed by",
                   "a second person; every figure is computed anew before the name is entered");
        page.open("p", {{"class", "buttons"}});
        frame.button("Compute anew and sign", "first");
        page.close();
        page.close();
      }
      page.close();
    }
  }

  Response readings(const std::map<std::string, Slip>& slips, const std::vector<std::string>& troubles) const {
    const auto name = fields_.get("lot");
    Frame frame(name.empty() ? "Readings of a lot" : "Readings of lot " + name, Stage::other, {});
    Markup& page = frame.page();
    if (!slips.empty() || !troubles.empty())
      frame.slips(troubles.empty() ? std::vector<std::string>{"What is amiss stands below its field."} : troubles,
                  "Nothing was entered");
    frame.open_form("/book/measure", "post");
    text_field(frame, "lot", "lot", "Lot", "as it stands on the tank, such as T7", name);
    const FormState state{fields_, slips, nullptr, {}};
    std::size_t number = 0;
    const auto write = [&](const Input* key) {
      write_field(page, {key, under(of_reading, key->name), fmt::format("f{}", ++number)}, state);
    };
    page.open("div", {{"class", "fields"}});
    for (const Input* key : lot::often_read) write(key);
    page.close();
    page.open("details");
    page.element("summary", "More that can be read of a lot");
    page.open("div", {{"class", "fields"}});
    for (const Input* key : lot::keys)
      if (std::find(lot::often_read.begin(), lot::often_read.end(), key) == lot::often_read.end()) write(key);
    page.close();
    page.close();
    page.open("div", {{"class", "fields"}});
    text_field(frame, "sample", "sample", "Sample", "the code on the bottle", fields_.get("sample"));
    who_and_when(frame, "read", "Read by");
    page.close();
    page.open("p", {{"class", "buttons"}});
    frame.button("Enter them", "first");
    page.close();
    page.close();
    return frame.finish(slips.empty() && troubles.empty() ? 200 : amiss);
  }

  // --- what is entered ------------------------------------------------------------------------

  Response measure() const {
    std::map<std::string, Slip> slips;
    std::vector<std::string> all;
    for (const Input* key : lot::keys) {
      const auto field = under(of_reading, key->name);
      const auto value = typed_value(*key, field, fields_, nullptr, {});
      if (!value) continue;
      if (auto slip = slip_in(*key, *value, nullptr)) slips.emplace(field, std::move(*slip));
      all.push_back(
          fmt::format("{}={}", key->name, value->kind == Node::Kind::text ? value->text : in_one_line(*value)));
    }
    if (!slips.empty()) return readings(slips, {});
    if (fields_.get("lot").empty()) return readings({}, {"the lot has no name yet: write what stands on the tank"});
    if (all.empty()) return readings({}, {"nothing was read yet: fill in at least one field"});
    try {
      return sent_to(book_.measure(fields_.get("lot"), all, fields_.get("sample"), said()));
    } catch (const BadInput& error) {
      return readings({}, {trouble_words(error)});
    }
  }

  Response keep() const {
    const auto outcome = computed(fields_.get("recipe") + "\n", on_);
    if (!outcome.sheet) return said_page(amiss, "There is no sheet of this recipe", outcome.trouble.words());
    return sent_to(book_.keep(write_json(*outcome.sheet), said()));
  }

  // What cannot be entered is told on the page that it was typed on.
  template <class Enter>
  Response on_the_lot(Enter enter) const {
    try {
      auto entered = enter();
      if (entered.lot.empty()) entered.lot = fields_.get("lot");
      return sent_to(entered);
    } catch (const BadInput& error) {
      if (!book_.has(fields_.get("lot"))) throw;
      return lot(fields_.get("lot"), trouble_words(error));
    }
  }

  Response done() const {
    return on_the_lot(
        [&] { return book_.done(fields_.get("id"), fields_.get("weighed"), fields_.get("batch"), said()); });
  }

  Response sign() const {
    return on_the_lot([&] {
      std::int64_t number = 0;
      const auto text = fields_.get("sheet");
      const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
      if (read.ec != std::errc() || read.ptr != text.data() + text.size())
        throw BadInput("which sheet is signed was not said\n  use the form beside the sheet");
      auto entered = book_.sign(number, said());
      entered.lot = fields_.get("lot");
      return entered;
    });
  }

  const Request& request_;
  const Fields& fields_;
  const PageBook& book_;
  const Premises& on_;
};

}  // namespace

std::optional<Response> book_answer(const Request& request, const Premises& on) {
  if (on.book == nullptr) return std::nullopt;
  return BookPages(request, *on.book, on).answer();
}

void keep_form(Frame& frame, const std::string& recipe, const Premises& on) {
  if (on.book == nullptr) return;
  Markup& page = frame.page();
  page.open("details", {{"class", "keep"}});
  page.element("summary", "Keep it in the cellar book");
  page.element("p", "As planned work: its lots, readings and forecasts. What is done is entered there afterwards.");
  frame.open_form("/book/keep", "post");
  frame.hidden("recipe", recipe);
  page.open("div", {{"class", "field"}});
  page.element("label", "Computed by", {{"for", "keep-by"}});
  page.leaf("input", {{"type", "text"}, {"id", "keep-by"}, {"name", "by"}, {"autocomplete", "off"}});
  page.element("small", "as you call that person; a second person can then sign it", {{"class", "help"}});
  page.close();
  page.open("p", {{"class", "buttons"}});
  frame.button("Keep it");
  page.close();
  page.close();
  page.close();
}

}  // namespace vatwright
