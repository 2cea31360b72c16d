// The page as a function: what a browser without script is shown, and what its forms bring back.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "host/page/door.hpp"
#include "host/page/draft.hpp"
#include "host/page/entry.hpp"
#include "host/plugin/lot.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/page_form.hpp"

#include <algorithm>
#include <cctype>
#include <random>
#include <set>

namespace answer_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

constexpr int found = 200;

Json steps_of(const std::string& sheet) { return Json::parse(sheet).value("steps", Json()); }

std::vector<std::string> all_ids(PageHouse& house) {
  std::vector<std::string> out;
  for (const Manifest* plugin : house.registry.all())
    for (const auto& c : plugin->calculations) out.push_back(std::string(plugin->name) + "." + std::string(c.name));
  return out;
}

// Of a sheet, all that is computed: where an input came from may differ, what it is may not.
Json figures_of(const Json& steps) {
  Json out = Json::array();
  for (const auto& step : steps) {
    Json kept = Json::object();
    for (const auto* member : {"calculation", "results", "additions", "checks", "notes", "changes", "work"})
      if (step.contains(member)) kept[member] = step[member];
    // Bounds stand in the order in which they were written, and a draft keeps none.
    if (kept.contains("checks"))
      std::sort(kept["checks"].begin(), kept["checks"].end(),
                [](const Json& a, const Json& b) { return a.dump() < b.dump(); });
    out.push_back(kept);
  }
  return out;
}

// Each worked example, typed into the fields of its form, gives what the command line gives.
TEST(AnswerTest, EveryWorkedExampleGivesTheSheetOfTheCommandLine) {
  PageHouse house;
  std::size_t compared = 0;
  for (const auto& id : all_ids(house)) {
    const auto tried = house.get("/try?of=" + in_address(id));
    ASSERT_EQ(tried.status, found) << id;
    const Fields form = form_of(tried.body, "/work");
    ASSERT_FALSE(form.get("of").empty()) << id;
    const auto work = house.ask("/work", form);
    const auto sheet = link_of(work.body, "sheet for a colleague to verify (JSON)");
    ASSERT_FALSE(sheet.empty()) << id << "\n" << work.body.substr(work.body.find("id=\"result\""), 3000);
    const auto page = house.get(sheet);
    ASSERT_EQ(page.status, found) << id << "\n" << page.body;

    std::string close;
    const auto calculation = house.registry.find(id, close).calculation;
    Said said;
    const Folder folder;
    if (!calculation->example_recipe.empty()) {
      const auto file = folder.write("example.yaml", std::string(calculation->example_recipe));
      said = call({"run", file.string(), "--format", "json"});
    } else {
      std::vector<std::string> arguments{"compute", id};
      arguments.insert(arguments.end(), calculation->example.begin(), calculation->example.end());
      arguments.insert(arguments.end(), {"--format", "json"});
      said = call(arguments);
    }
    ASSERT_LE(said.status, 1) << said.err;
    EXPECT_EQ(figures_of(steps_of(page.body)), figures_of(steps_of(said.out))) << id;
    ++compared;
  }
  EXPECT_GE(compared, 29U);
}

// A recipe that is opened, and each of its steps sent again by the form, is the same recipe.
TEST(AnswerTest, EveryRecipeIsOpenedAndSentOn) {
  PageHouse house;
  for (const auto& file : fs::directory_iterator(source_dir / "recipes")) {
    if (file.path().extension() != ".yaml") continue;
    const auto text = contents(file.path());
    const auto whole = text_of(read_draft(text)).text;
    EXPECT_EQ(text_of(read_draft(whole)).text, whole) << file.path();
    if (text.find(".yaml") != std::string::npos) continue;  // rules in a file of one's own
    Fields opened;
    opened.add("text", text);
    const auto work = house.post("/open", opened);
    ASSERT_EQ(work.status, found) << file.path();
    const auto again = house.ask("/work", form_of(work.body, "/work"));
    const auto sheet = link_of(again.body, "sheet for a colleague to verify (JSON)");
    ASSERT_FALSE(sheet.empty()) << file.path() << "\n" << again.body.substr(again.body.find("id=\"result\""), 3000);
    EXPECT_EQ(figures_of(steps_of(house.get(sheet).body)), figures_of(steps_of(write_json(house.run(text)))))
        << file.path();
  }
}

// Whatever stands in a text, the draft's YAML gives it back.
TEST(AnswerTest, AnyTextComesBackFromTheDraft) {
  std::mt19937 random(7);
  const std::vector<std::string> parts{"a",  " ", ":", "#",  "'", "\"", "\\", "{", "}",  "[", "]",    ",", "-",
                                       "\n", "%", "@", "14", "±", "<",  "&",  "*", "\t", "!", "null", "é", "~"};
  for (int i = 0; i < 2000; ++i) {
    std::string text;
    const auto length = 1 + random() % 8;
    for (std::size_t k = 0; k < length; ++k) text += parts[random() % parts.size()];
    Draft draft;
    draft.set_word("recipe", text);
    DraftPart lot{text};
    lot.set(text, text_node_of(text));
    draft.lots.push_back(lot);
    const Draft back = read_draft(text_of(draft).text);
    ASSERT_EQ(back.word("recipe"), text);
    ASSERT_EQ(back.lots.at(0).name, text);
    ASSERT_NE(back.lots[0].find(text), nullptr) << text;
    EXPECT_EQ(back.lots[0].find(text)->text, text);
  }
}

// From a lot without a figure to its sheet, by the forms alone.
TEST(AnswerTest, TheWayFromTheLotToTheSheet) {
  PageHouse house;
  Fields lot = form_of(house.get("/").body, "/questions");
  lot.set("name", "T7");
  const auto questions = house.ask("/questions", lot);
  ASSERT_EQ(questions.status, found);
  std::string close;
  const auto* addition = house.registry.find("sulfite.addition", close).calculation;
  const auto form_page = house.get(link_of(questions.body, label_of(*addition)));
  ASSERT_EQ(form_page.status, found);
  EXPECT_NE(form_page.body.find("The worksheet stands here"), std::string::npos);
  Fields form = form_of(form_page.body, "/work");
  const auto empty = house.ask("/work", form);
  EXPECT_NE(empty.body.find("Still to be given"), std::string::npos);
  form.set("lot|volume", "48 hL");
  form.set("lot|pH", "3.42");
  form.set("lot|free SO2", "14 ± 2");  // the unit beside the field
  form.set("lot|total SO2", "0.062 g/L");
  form.set("step|target molecular SO2", "0.6 mg/L");
  const auto done = house.ask("/work", form);
  EXPECT_NE(done.body.find("<iframe"), std::string::npos) << done.body;
  EXPECT_NE(done.body.find("read as 62"), std::string::npos);
  const auto sheet = house.get(link_of(done.body, "The sheet alone, to print"));
  EXPECT_TRUE(sheet.is_sheet);
  EXPECT_NE(sheet.body.find("H318"), std::string::npos);
  // The next step starts from what this one leaves.
  const auto next = house.get(link_of(done.body, "Next step for this lot"));
  const auto second = house.get(link_of(next.body, label_of(*addition)));
  EXPECT_NE(second.body.find("What the lot brings along"), std::string::npos);
}

// A substance that another question answers: its form stands ready with what was typed.
TEST(AnswerTest, AChoiceThatAnotherQuestionAnswers) {
  PageHouse house;
  std::string close;
  const auto* addition = house.registry.find("acid.addition", close).calculation;
  Fields form;
  form.add("recipe", "lots: {T7: {volume: 48 hL}}");
  form.add("of", "cellar.dose");
  form.add("lot", "T7");
  form.add("lot|volume", "48 hL");
  form.add("step|substance", "tartaric acid");
  form.add("step|dose", "50 g/hL");
  const auto page = house.ask("/work", form).body;
  EXPECT_NE(page.find("There is a question of its own for tartaric acid"), std::string::npos) << page;
  EXPECT_EQ(page.find("<iframe"), std::string::npos);
  Fields there = form_of(house.get(link_of(page, label_of(*addition))).body, "/work");
  EXPECT_EQ(there.get("of"), "acid.addition");
  EXPECT_EQ(there.get("step|add"), "50 g/hL");
  EXPECT_EQ(there.get("step|add as"), "product");
  there.set("lot|pH", "3.5");
  there.set("lot|titratable acidity", "5.5 g/L as tartaric acid");
  const auto done = house.ask("/work", there).body;
  EXPECT_NE(done.find("<iframe"), std::string::npos) << done;
}

TEST(AnswerTest, ASlipStandsUnderItsFieldInTheHostsWords) {
  PageHouse house;
  Fields form;
  form.add("recipe", "lots: {T7: {}}");
  form.add("of", "sulfite.molecular");
  form.add("lot", "T7");
  form.add("lot|pH", "14 hL");
  form.add("lot|free SO2", "14,5 mg/L");
  const auto page = house.ask("/work", form).body;
  EXPECT_EQ(page.find("<iframe"), std::string::npos);
  EXPECT_NE(page.find("which is a volume"), std::string::npos) << page;
  EXPECT_NE(page.find("decimal"), std::string::npos);
  EXPECT_NE(page.find("aria-invalid"), std::string::npos);
  form.set("lot|pH", "4.6");
  form.set("lot|free SO2", "14 mg/L");
  EXPECT_NE(house.ask("/work", form).body.find("outside the usual"), std::string::npos);
}

// Whatever is typed anywhere, no mark-up of it reaches the page.
TEST(AnswerTest, WordsStayWords) {
  PageHouse house;
  const std::string evil = "\"><script>alert(1)</script>'&<img src=x>";
  for (const auto& id : all_ids(house)) {
    Fields form = form_of(house.get("/try?of=" + in_address(id)).body, "/work");
    Fields all;
    for (const auto& [name, value] : form.all()) all.add(name, name == "of" || name == "recipe" ? value : evil);
    const auto page = house.ask("/work", all).body;
    EXPECT_EQ(page.find("<script>"), std::string::npos) << id;
    EXPECT_EQ(page.find("<img"), std::string::npos) << id;
  }
  for (const auto* path : {"/", "/lot", "/lots", "/questions", "/ask", "/work", "/try", "/sheet", "/open", "/nowhere"})
    for (const auto* field : {"recipe", "of", "lot", "name", "search", "was", "text", "file", "rules"}) {
      Fields fields;
      fields.add(field, evil);
      if (std::string(field) != "of") fields.add("of", "sulfite.molecular");
      if (std::string(path) == "/questions" && std::string(field) == "name") fields.add("rules", evil);
      const auto page = house.ask(path, fields).body;
      EXPECT_EQ(page.find("<script>"), std::string::npos) << path << " " << field;
      EXPECT_EQ(page.find("<img"), std::string::npos) << path << " " << field;
    }
}

// No recipe makes the page read a file of the machine.
TEST(AnswerTest, NoFileOfRulesIsOpened) {
  PageHouse house;
  const Folder folder;
  const auto file = folder.write("secret.yaml", "secret: words\n");
  Fields fields;
  fields.add("text", "recipe: x\nrules: " + file.string() +
                         "\nlots: {T: {pH: 3.4, free SO2: 20 mg/L}}\nsteps:\n  - sulfite.molecular: {}\n");
  const auto page = house.post("/open", fields).body;
  EXPECT_EQ(page.find("secret: words"), std::string::npos);
  EXPECT_NE(page.find("a page opens no file of rules"), std::string::npos) << page;
}

// What a calculation, a substance or a fact is called stands in its description, and not in the page's own code.
TEST(AnswerTest, NothingIsNamedInThePagesOwnCode) {
  PageHouse house;
  std::set<std::string> names;
  for (const Input* key : lot::keys) names.emplace(key->name);
  for (const auto name : house.catalogue.names()) names.emplace(name);
  for (const auto& id : all_ids(house)) names.insert(id);
  // Words of HTML, HTTP, sockets and English that happen to be a fact's name too.
  for (const auto* word : {"class", "origin", "stage", "colour", "endpoint"}) names.erase(word);
  std::string code;
  for (const auto& file : fs::directory_iterator(source_dir / "host/page"))
    if (file.is_regular_file()) code += contents(file.path()) + "\n";
  ASSERT_GT(code.size(), 10'000U);
  const auto is_letter = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-';
  };
  for (const auto& name : names)
    for (auto at = code.find(name); at != std::string::npos; at = code.find(name, at + 1)) {
      const auto end = at + name.size();
      const bool whole = (at == 0 || !is_letter(code[at - 1])) && (end == code.size() || !is_letter(code[end]));
      EXPECT_FALSE(whole) << name << " in: " << code.substr(code.rfind('\n', at) + 1, 100);
      if (whole) break;
    }
}

// A sheet that was saved is verified; one that was changed is not; a figure is changed, and the change shown.
TEST(AnswerTest, AColleaguesSheetIsVerified) {
  PageHouse house;
  const auto text = contents(source_dir / "recipes/before-bottling.yaml");
  const auto sheet = write_json(house.run(text));
  Fields brought;
  brought.add("text", sheet);
  const auto page = house.post("/verify", brought);
  EXPECT_NE(page.body.find("every one is the same"), std::string::npos) << page.body;
  const auto work = house.get(link_of(page.body, "Change a figure and see what it changes"));
  ASSERT_NE(work.body.find(">all figures<"), std::string::npos) << work.body;
  Fields form = form_of(work.body, "/work");
  form.set("step|target molecular SO2", "0.8 mg/L");
  const auto changed = house.ask("/work", form).body;
  EXPECT_NE(changed.find("What it changes"), std::string::npos);
  EXPECT_EQ(changed.find(">all figures<"), std::string::npos);
  EXPECT_NE(changed.find("to add"), std::string::npos);

  auto wrong = sheet;
  constexpr std::string_view dose = "\"value\": 184";  // alone, 184 may stand in a hash too
  ASSERT_NE(wrong.find(dose), std::string::npos);
  wrong.replace(wrong.find(dose), dose.size(), "\"value\": 194");
  brought.set("text", wrong);
  EXPECT_NE(house.post("/verify", brought).body.find("do not work by this sheet"), std::string::npos);
  for (const auto* broken : {"", "{", "[]", "{\"sheet\": 1}", "{\"sheet\": 1, \"recipe\": 3}", "recipe: x"}) {
    brought.set("text", broken);
    EXPECT_EQ(house.post("/verify", brought).status, 400) << broken;
  }
}

// A table from a spreadsheet: tabs or semicolons, heads as people write them, decimal commas asked about.
TEST(AnswerTest, ATableOfLotsIsTaken) {
  PageHouse house;
  Fields brought;
  brought.add("text", "Tank\tpH\tFree SO2 (mg/L)\tVolume [hL]\nT1\t3.42\t14\t48\nT2\t3.20\t20 ± 2\t12\n");
  const auto page = house.post("/table", brought).body;
  Fields form = form_of(page, "/table");
  EXPECT_EQ(form.get("fact|0"), "the lot's name");
  EXPECT_EQ(form.get("fact|2"), "free SO2");
  EXPECT_EQ(form.get("unit|2"), "mg/L");
  EXPECT_EQ(form.get("unit|3"), "hL");
  const auto lots = house.post("/table", form).body;
  EXPECT_NE(lots.find("20 ±\u00a02"), std::string::npos) << lots;
  EXPECT_NE(lots.find("Add another lot"), std::string::npos);

  brought.set("text", "lot;pH;free SO2\r\nT1;3,42;14\r\n");  // the ends of lines as browsers send them
  const auto asked = house.post("/table", brought).body;
  EXPECT_NE(asked.find("There are commas in the numbers"), std::string::npos);
  form = form_of(asked, "/table");
  EXPECT_NE(house.post("/table", form).body.find("There are commas"), std::string::npos);  // until it is answered
  form.set("comma", "decimal");
  EXPECT_NE(house.post("/table", form).body.find("3.42"), std::string::npos);
  form.set("unit|2", "hL");
  EXPECT_NE(house.post("/table", form).body.find("which is a volume"), std::string::npos);
}

TEST(AnswerTest, FormsAreReadWhateverTheyHold) {
  const auto request =
      read_request("POST", "/open?a=1%20+b&=x&&c", "multipart/form-data; boundary=XX",
                   "--XX\r\nContent-Disposition: form-data; name=\"text\"\r\n\r\nrecipe: a\r\nb\r\n--XX--");
  EXPECT_EQ(request.path, "/open");
  EXPECT_EQ(request.fields.get("a"), "1  b");
  EXPECT_EQ(request.fields.get("text"), "recipe: a\r\nb");
  std::mt19937 random(11);
  const std::string signs = "%+&=;-X\r\n\"/?ab\x01\xff";
  PageHouse house;
  for (int i = 0; i < 300; ++i) {
    std::string target = "/", body = "--XX";
    for (int k = 0; k < 40; ++k) target += signs[random() % signs.size()];
    for (int k = 0; k < 80; ++k) body += signs[random() % signs.size()];
    read_request("POST", target, "multipart/form-data; boundary=XX", body);
    read_request("POST", target, "application/x-www-form-urlencoded", body);
    EXPECT_GT(house.get("/work?of=" + target.substr(1)).status, 0);
  }
}

TEST(AnswerTest, TheDoorOpensToThisRunsBrowserAlone) {
  const Door door{"secret", 8330};
  const auto knock = [&](Knock k) { return admit(door, k); };
  const std::string_view host = "127.0.0.1:8330", cookie = "x=1; vatwright-8330=secret", own = "http://127.0.0.1:8330";
  using Kind = Admission::Kind;
  EXPECT_EQ(knock({"GET", "/?token=secret", host, {}, {}, {}}).kind, Kind::sent_on);
  EXPECT_EQ(knock({"GET", "/?token=Secret", host, {}, {}, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/work?token=secret", host, {}, {}, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", host, {}, cookie, {}}).kind, Kind::in);
  EXPECT_EQ(knock({"GET", "/", "localhost:8330", {}, cookie, "none"}).kind, Kind::in);
  EXPECT_EQ(knock({"GET", "/", host, {}, "vatwright-8330=secre", {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", host, {}, "vatwright-8331=secret", {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", "evil.example", {}, cookie, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", "127.0.0.1", {}, cookie, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", host, {}, cookie, "cross-site"}).kind, Kind::refused);
  EXPECT_EQ(knock({"GET", "/", host, "http://evil.example", cookie, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"POST", "/open", host, own, cookie, "same-origin"}).kind, Kind::in);
  EXPECT_EQ(knock({"POST", "/open", host, {}, cookie, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"POST", "/open", host, "null", cookie, {}}).kind, Kind::refused);
  EXPECT_EQ(knock({"DELETE", "/", host, own, cookie, {}}).kind, Kind::refused);
}

}  // namespace answer_test
