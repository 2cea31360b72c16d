// The cellar book on the page: what a browser without script is shown and enters.
#include <gtest/gtest.h>

#include "host/cli/page_book.hpp"
#include "tests/host/book.hpp"
#include "tests/host/page_form.hpp"

namespace book_page_test {

using namespace vatwright;
using namespace vatwright::test;

constexpr int found = 200, see_other = 303, not_found = 404, refused_method = 405, amiss = 422;

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << "no '" << part << "' in: " << text.substr(0, 4000);
  return false;
}

struct BookPage : PageHouse {
  CellarBook book;
  BookForPage for_page{book.file, bench()};

  Response ask(const Request& request) {
    Premises on = premises();
    on.book = &for_page;
    return answer(request, on);
  }
  Response get(const std::string& target) { return ask(read_request("GET", target, {}, {})); }
  Response post(const std::string& path, const std::vector<std::pair<std::string, std::string>>& fields) {
    Request request{"POST", path, {}};
    for (const auto& [name, text] : fields) request.fields.add(name, text);
    return ask(request);
  }
  // The page that comes after an entry.
  Response enter(const std::string& path, const std::vector<std::pair<std::string, std::string>>& fields) {
    const auto sent = post(path, fields);
    EXPECT_EQ(sent.status, see_other) << sent.body;
    return get(sent.location);
  }
};

std::string pink() { return pink_recipe("  - acid.addition: {target pH: 3.40}\n"); }

TEST(BookPage, ALotIsKeptDoneMeasuredAndSigned) {
  BookPage page;
  says(page.get("/book").body, "There is no lot in it yet");
  const auto work = page.get("/work?recipe=" + in_address(pink()));
  ASSERT_EQ(work.status, found);
  const Fields form = form_of(work.body, "/book/keep");
  ASSERT_FALSE(form.get("recipe").empty()) << "the sheet's page has no form that keeps it";
  const auto kept = page.enter("/book/keep", {{"recipe", form.get("recipe")}, {"by", "Ann"}});
  says(kept.body, "Entry 1: planned: ");
  says(kept.body, "1.1.1");
  says(kept.body, "H318 causes serious eye damage");
  says(kept.body, "of tartaric acid into lot T5");
  EXPECT_EQ(form_of(kept.body, "/book/done").get("id"), "1.1.1");

  EXPECT_EQ(page.post("/book/sign", {{"sheet", "1"}, {"by", "ann"}, {"lot", "T5"}}).status, amiss);
  says(page.post("/book/sign", {{"sheet", "1"}, {"by", "ann"}, {"lot", "T5"}}).body, "a second person signs it");
  says(page.enter("/book/sign", {{"sheet", "1"}, {"by", "Bea"}, {"lot", "T5"}}).body, "sheet 1 signed: it holds");

  const auto slip = page.post("/book/done", {{"id", "1.1.1"}, {"lot", "T5"}, {"weighed", "100 mL"}});
  EXPECT_EQ(slip.status, amiss);
  says(slip.body, "Nothing was entered");
  const auto done =
      page.enter("/book/done", {{"id", "1.1.1"}, {"lot", "T5"}, {"weighed", "500 g"}, {"batch", "L-1"}, {"by", "Cay"}});
  says(done.body, "batch L-1");
  EXPECT_TRUE(form_of(done.body, "/book/done").get("id").empty());
  EXPECT_GT(page.book.number("T5", "acid added"), 0);

  const auto read = page.enter("/book/measure", {{"lot", "T5"}, {"reading|pH", "3.42 ± 0.02"}, {"sample", "A-7"}});
  says(read.body, ": measured: pH ");
  EXPECT_EQ(page.book.number("T5", "pH"), 3.42);
  says(page.get("/book").body, "Lots in stock");
  EXPECT_EQ(page.book({"check"}).status, 0);
}

TEST(BookPage, SlipsAreToldBesideTheirFields) {
  BookPage page;
  for (const auto& [fields, words] :
       std::vector<std::pair<std::vector<std::pair<std::string, std::string>>, std::string>>{
           {{{"lot", "T7"}, {"reading|pH", "34"}}, "34"},
           {{{"lot", "T7"}}, "nothing was read yet"},
           {{{"reading|pH", "3.4"}}, "the lot has no name yet"},
           {{{"lot", "T7"}, {"reading|pH", "3.4"}, {"at", "yesterday"}}, "expected a day or an hour"},
           {{{"lot", "=T7"}, {"reading|pH", "3.4"}}, "=T7"}}) {
    const auto answer = page.post("/book/measure", fields);
    EXPECT_EQ(answer.status, amiss);
    says(without_escapes(answer.body), words);
  }
  EXPECT_FALSE(fs::exists(page.book.file) && !page.book({"export"}).out.empty());
}

// An address alone enters nothing, and what is not there is said.
TEST(BookPage, OnlyAFormEnters) {
  BookPage page;
  for (const char* path : {"/book/keep", "/book/done?id=1", "/book/sign?sheet=1"})
    EXPECT_EQ(page.get(path).status, refused_method);
  EXPECT_EQ(page.get("/book/measure?lot=T7&reading|pH=3.4").status, found);
  EXPECT_FALSE(fs::exists(page.book.file));
  says(page.get("/book/lot?lot=T7").body, "there is no lot");
  EXPECT_EQ(page.get("/book/other").status, not_found);
  PageHouse without;
  EXPECT_EQ(without.get("/book").status, not_found);
}

// A question on a lot of the book asks for nothing that the book has.
TEST(BookPage, AQuestionTakesTheLotFromTheBook) {
  BookPage page;
  ASSERT_LT(page.book.keep(pink()).status, 2);
  ASSERT_EQ(page.book({"done", "1"}).status, 0);
  const auto link = link_of(page.get("/book/lot?lot=T5").body, "A question on this lot");
  ASSERT_FALSE(link.empty());
  const auto recipe = read_request("GET", link, {}, {}).fields.get("recipe");
  const auto asked = page.get("/ask?of=sulfite.addition&recipe=" + in_address(recipe));
  says(asked.body, ", as the book has it");
  Fields form = form_of(asked.body, "/work");
  form.set("step|target molecular SO2", "0.6 mg/L");
  const auto work = page.ask({"GET", "/work", form});
  says(work.body, "sheet for a colleague to verify");
}

// Names of lots and people are words, whatever they hold.
TEST(BookPage, NamesAreNoMarkup) {
  BookPage page;
  const std::string name = "<b>T'7\"&";
  const auto after = page.enter("/book/measure", {{"lot", name}, {"reading|pH", "3.4"}, {"by", "<script>x</script>"}});
  EXPECT_EQ(after.body.find("<b>T"), std::string::npos);
  EXPECT_EQ(after.body.find("<script>x"), std::string::npos);
  EXPECT_EQ(page.get("/book/lot?lot=" + in_address(name)).status, found);
}

}  // namespace book_page_test
