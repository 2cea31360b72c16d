#include "host/page/answer.hpp"

#include "host/page/assets.hpp"
#include "host/page/book_pages.hpp"
#include "host/page/frame.hpp"
#include "host/page/pages.hpp"
#include "host/sheet/csv.hpp"
#include "host/sheet/html_style.hpp"
#include "host/sheet/writers.hpp"

#include <exception>

namespace vatwright {
namespace {

constexpr int bad_request = 400, not_found = 404, unprocessable = 422, failed = 500;

class Answer {
 public:
  Answer(const Request& request, const Premises& on) : request_(request), on_(on), fields_(request.fields) {}

  Response write() {
    const auto& path = request_.path;
    if (path == "/page.css")
      return {.type = "text/css; charset=utf-8", .body = std::string(html_style) + std::string(page_style)};
    if (path == "/page.js") return {.type = "text/javascript; charset=utf-8", .body = std::string(page_script)};
    if (path == "/" || path == "/lot") return lot_page(request_, on_);
    if (path == "/lots") return lots_page(read_draft(recipe()));
    if (path == "/questions") return questions();
    if (path == "/ask") return ask();
    if (path == "/work") return work();
    if (path == "/each") return each_lot_page(read_draft(recipe()), on_);
    if (path == "/try") return try_it();
    if (path == "/open") return open();
    if (path == "/verify") return verify_page(brought(), on_);
    if (path == "/table") return table_page(request_);
    if (path == "/intake" || path.starts_with("/intake/")) return intake_page(request_, on_);
    if (path == "/recipe.yaml")
      return {.type = "application/yaml; charset=utf-8", .body = recipe(), .file = "recipe.yaml"};
    if (path == "/sheet" || path == "/sheet.html" || path == "/sheet.json" || path == "/figures.csv") return sheet();
    if (auto of_book = book_answer(request_, on_)) return std::move(*of_book);
    return said_page(not_found, "There is no such page", "Look at the address, or begin anew.");
  }

 private:
  std::string recipe() const { return fields_.get("recipe").empty() ? "" : fields_.get("recipe") + "\n"; }

  Response questions() {
    Draft draft = read_draft(recipe());
    if (fields_.has("name"))
      if (const auto slips = take_lot(fields_, draft); !slips.empty()) {
        Response again = lot_page(request_, on_, slips);
        again.status = unprocessable;
        return again;
      }
    return questions_page(request_, draft, on_);
  }

  Response ask() {
    Work work(on_, read_draft(recipe()), calculation_of_page(on_, fields_.get("of")), fields_.get("lot"), {});
    work.begin();
    return work_page(work, on_, false);
  }

  Response work() {
    if (!fields_.has("of")) return last_step(read_draft(recipe()));
    Work work(on_, read_draft(recipe()), calculation_of_page(on_, fields_.get("of")), fields_.get("lot"), fields_);
    work.compute();
    return work_page(work, on_, true, fields_.get("beside"));
  }

  Response last_step(Draft draft) {
    Work work = Work::of_last_step(on_, std::move(draft));
    work.compute();
    return work_page(work, on_, true, fields_.get("beside"));
  }

  Response try_it() { return last_step(example_of(calculation_of_page(on_, fields_.get("of")))); }

  // A file goes before what was pasted beside it.
  std::string brought() const {
    auto text = fields_.get("file").empty() ? fields_.get("text") : fields_.get("file");
    if (text.empty()) throw BadInput("nothing was opened\n  choose a file, or paste its text");
    return text + "\n";
  }

  Response open() {
    Draft draft = read_draft(brought());
    if (draft.lots.empty() && draft.steps.empty())
      throw BadInput("it has neither lots nor steps\n  open the file that was saved as a recipe (.yaml)");
    return draft.steps.empty() ? lots_page(draft) : last_step(std::move(draft));
  }

  Response sheet() {
    const auto outcome = computed(recipe(), on_);
    if (!outcome.sheet) return said_page(unprocessable, "There is no sheet of this recipe", outcome.trouble.words());
    const auto& path = request_.path;
    if (path == "/sheet.json")
      return {.type = "application/json", .body = write_json(*outcome.sheet), .file = "sheet.json"};
    if (path == "/figures.csv")
      return {.type = "text/csv; charset=utf-8", .body = write_csv(*outcome.sheet), .file = "figures.csv"};
    return {.body = write_html(*outcome.sheet), .file = path == "/sheet.html" ? "sheet.html" : "", .is_sheet = true};
  }

  const Request& request_;
  const Premises& on_;
  const Fields& fields_;
};

}  // namespace

Response answer(const Request& request, const Premises& on) {
  try {
    return Answer(request, on).write();
  } catch (const BadInput& error) {
    return said_page(bad_request, "It cannot be read", slip_of(error.what(), draft_file).words());
  } catch (const InputError& error) {
    return said_page(bad_request, "It cannot be read", std::string(error.what()) + ": " + error.hint());
  } catch (const std::exception& error) {
    return said_page(failed, "Something went wrong that should not", error.what());
  }
}

}  // namespace vatwright
