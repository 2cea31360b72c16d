// Raw readings of a laboratory on the page: the table, the mapping that says which column is what, and what it comes
// to.
#include "host/intake/papers.hpp"
#include "host/page/entry.hpp"
#include "host/page/frame.hpp"
#include "host/page/mappings.hpp"
#include "host/page/pages.hpp"

#include <fmt/format.h>

#include <charconv>

namespace vatwright {
namespace {

constexpr char mapping_name[] = "mapping", table_name[] = "table";

// What was typed; a file goes before what was pasted beside it.
struct Brought {
  std::string table, mapping;
};

Brought brought_of(const Fields& fields) {
  const auto either = [&](const char* file, const char* text) {
    return fields.get(file).empty() ? fields.get(text) : fields.get(file);
  };
  Brought out{either("table file", "table"), either("mapping file", "mapping")};
  const auto shape = fields.get("shape");
  std::size_t number = 0;
  const auto read = std::from_chars(shape.data(), shape.data() + shape.size(), number);
  if (out.mapping.empty() && read.ec == std::errc{} && number < page_mappings.size())
    out.mapping = page_mappings.at(number);
  return out;
}

void text_field(Markup& page, const std::string& name, const std::string& words, const std::string& help,
                const std::string& typed) {
  page.open("div", {{"class", "field"}});
  page.element("label", words, {{"for", name}});
  page.element("small", help, {{"class", "help"}, {"id", name + "-help"}});
  page.open(
      "textarea",
      {{"id", name}, {"name", name}, {"rows", "10"}, {"spellcheck", "false"}, {"aria-describedby", name + "-help"}});
  page.text(typed);
  page.close();
  page.element("label", "or from a file", {{"for", name + "-file"}});
  page.leaf("input", {{"type", "file"}, {"id", name + "-file"}, {"name", name + " file"}});
  page.close();
}

// One to begin with: its columns are then made those of the own table.
void offer_shapes(Frame& frame) {
  Markup& page = frame.page();
  page.element("p", "Take one of these mappings, and write the names of your own columns into it:");
  page.open("ul");
  for (std::size_t i = 0; i < page_mappings.size(); ++i) {
    const auto mapping = intake::read_mapping(Document::read(mapping_name, std::string(page_mappings.at(i))));
    page.open("li");
    frame.anchor(mapping.title, frame.link("/intake", {{"shape", std::to_string(i)}}));
    page.close();
  }
  page.close();
}

Response form_page(const Brought& typed, const std::vector<std::string>& slips, int status) {
  Frame frame("From raw readings to results", Stage::other, {});
  Markup& page = frame.page();
  frame.slips(slips, "Something is to be looked at again");
  page.element("p",
               "A table as the laboratory wrote it, a row for each reading or each sample, and a mapping that says "
               "which column is which reading. Repeats are judged, and two that do not agree give no result.");
  offer_shapes(frame);
  frame.open_form("/intake", "post");
  text_field(page, "table", "The table", "with its heads; commas, semicolons or tabs, as the mapping says",
             typed.table);
  text_field(page, "mapping", "The mapping", "which column is what, and what is the same for all", typed.mapping);
  page.open("p", {{"class", "buttons"}});
  frame.button("Judge the readings", "first");
  page.close();
  page.close();
  return frame.finish(status);
}

// Another button of the same form.
void way_on(Markup& page, const char* words, const char* path, const char* kind = "") {
  page.element("button", words, {{"type", "submit"}, {"formaction", path}, {*kind == 0 ? "" : "class", kind}});
}

Response result_page(const Brought& typed, const intake::IntakeSheet& sheet) {
  Frame frame(sheet.title, Stage::other, {});
  Markup& page = frame.page();
  frame.open_form("/intake", "post");
  frame.hidden("table", typed.table);
  frame.hidden("mapping", typed.mapping);
  page.open("p", {{"class", "buttons"}});
  way_on(page, "Go on with these lots", "/intake/lots", "first");
  way_on(page, "The sheet to print", "/intake/sheet.html");
  way_on(page, "The table of lots (CSV)", "/intake/lots.csv");
  way_on(page, "For other programs (JSON)", "/intake/results.json");
  way_on(page, "Change the table or the mapping", "/intake/form");
  page.close();
  page.close();
  if (!sheet.demo.empty()) page.element("p", "DEMO DATA: " + sheet.demo, {{"class", "verdict"}});
  intake::write_intake_body(page, sheet);
  return frame.finish();
}

Response answer_of(const std::string& path, const Brought& typed, const intake::IntakeSheet& sheet) {
  if (path == "/intake/sheet.html")
    return {.body = intake::write_intake_html(sheet), .file = "laboratory.html", .is_sheet = true};
  if (path == "/intake/lots.csv")
    return {.type = "text/csv; charset=utf-8", .body = intake::write_lots(sheet), .file = "lots.csv"};
  if (path == "/intake/results.json")
    return {.type = "application/json", .body = intake::write_intake_json(sheet), .file = "results.json"};
  if (path == "/intake/lots") {
    Request table{"POST", "/table", {}};
    table.fields.add("text", intake::write_lots(sheet));
    return table_page(table);
  }
  return result_page(typed, sheet);
}

}  // namespace

Response intake_page(const Request& request, const Premises& on) {
  constexpr int fine = 200, unprocessable = 422;
  const Brought typed = brought_of(request.fields);
  if (typed.table.empty() || typed.mapping.empty() || request.path == "/intake/form") return form_page(typed, {}, fine);
  try {
    const auto mapping = intake::read_mapping(Document::read(mapping_name, typed.mapping + "\n"));
    const intake::RawTable table(table_name, typed.table + "\n", mapping);
    return answer_of(request.path, typed, intake::take_in(on.bench, mapping, table));
  } catch (const BadInput& error) {
    const Slip slip = slip_of(error.what(), mapping_name);
    return form_page(typed, {(slip.line > 0 ? fmt::format("the mapping, line {}: ", slip.line) : "") + slip.words()},
                     unprocessable);
  }
}

}  // namespace vatwright
