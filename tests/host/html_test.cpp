// The worksheet in HTML: no dose without its cautions, nothing of a recipe is taken for markup, the
// file needs no other, and a real browser finds nothing to complain of.
#include "host/sheet/html_markup.hpp"
#include "host/sheet/no_break.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/sheets.hpp"
#include "tests/host/words.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <regex>
#include <sstream>

namespace html_test {

using namespace vatwright;
using namespace vatwright::test;

std::vector<fs::path> recipes() {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(source_dir / "recipes"))
    if (entry.path().extension() == ".yaml") out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

Worksheet run(TestHouse& house, const fs::path& recipe) {
  return house.bench().run(read_recipe(Document::open(recipe.string())));
}

// A page's words as they are read, with single spaces.
std::string words_of(const std::string& page) {
  const auto body = page.substr(page.find("<body>"));
  std::string text = std::regex_replace(body, std::regex("<[^>]*>"), " ");
  for (const auto& [mark, sign] : std::vector<std::pair<std::string, std::string>>{{"&lt;", "<"},
                                                                                   {"&gt;", ">"},
                                                                                   {"&quot;", "\""},
                                                                                   {"&#39;", "'"},
                                                                                   {"&amp;", "&"},
                                                                                   {"\u00a0", " "},
                                                                                   {"\u2060", ""}})
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + 1))
      text.replace(at, mark.size(), sign);
  std::istringstream in(text);
  std::string out, word;
  while (in >> word) out += word + " ";
  return out;
}

TEST(HtmlTest, NoAdditionWithoutItsCautions) {
  const TestHouse house;
  int additions = 0;
  for (const auto id : house.catalogue.names()) {
    const Substance& substance = *house.catalogue.find(id);
    const auto page = words_of(write_html(sheet_of({step_adding(house, {id})})));
    const auto dose = page.find("184 g of " + substance.name() + " into lot T7"), end = page.find("Numbers used");
    ASSERT_LT(dose, end) << id;
    ASSERT_FALSE(substance.cautions.empty());
    for (const auto& caution : substance.cautions) ASSERT_FALSE(caution.empty()) << id;
    for (const auto& caution : substance.cautions) EXPECT_LT(page.find(caution, dose), end) << id << ": " << caution;
    for (const auto& hazard : substance.hazards) {
      EXPECT_LT(page.find(hazard.code + " " + hazard.text, dose), end) << id << ": " << hazard.code;
    }
    for (const auto& line : substance.handling) EXPECT_LT(page.find(line, dose), end) << id << ": " << line;
    ++additions;
  }
  EXPECT_GE(additions, 10);
}

TEST(HtmlTest, ReagentsCarryTheirCautions) {
  const TestHouse house;
  StepSheet step = step_adding(house, {});
  for (const auto id : house.catalogue.names()) step.reagents.push_back(house.catalogue.find(id));
  const auto page = words_of(write_html(sheet_of({step})));
  for (const auto* reagent : step.reagents) {
    const auto at = page.find("Handle with care: " + reagent->name() + " ");
    ASSERT_NE(at, std::string::npos) << reagent->facts.id;
    for (const auto& caution : reagent->cautions) EXPECT_NE(page.find(caution, at), std::string::npos) << caution;
  }
}

TEST(HtmlTest, TroubleComesBeforeWork) {
  const TestHouse house;
  StepSheet step = step_adding(house, {"potassium metabisulfite"});
  step.outcome.checks.push_back(check_of("the good one", true));
  step.outcome.checks.push_back(check_of("the bad one", false, "do otherwise"));
  const auto page = words_of(write_html(sheet_of({step})));
  EXPECT_NE(page.find("Checks: 1 of 2 FAIL : read them before any work"), std::string::npos) << page;
  EXPECT_LT(page.find("the bad one"), page.find("184 g"));
  EXPECT_LT(page.find("do otherwise"), page.find("184 g"));
  EXPECT_GT(page.find("the good one"), page.find("184 g"));
}

// Every figure of the text sheet stands on the page.
TEST(HtmlTest, SaysWhatTheTextSaysAboutEveryRecipe) {
  TestHouse house;
  int figures = 0;
  for (const auto& recipe : recipes()) {
    const Worksheet sheet = run(house, recipe);
    const auto page = words_of(write_html(sheet));
    std::istringstream text(write_text(sheet, {}));
    for (std::string word; text >> word;) {
      word.erase(0, std::min(word.find_first_not_of("([\""), word.size()));
      while (!word.empty() && std::string(")],.:;").find(word.back()) != std::string::npos) word.pop_back();
      if (word.find_first_of("0123456789") == std::string::npos) continue;
      EXPECT_NE(page.find(word), std::string::npos) << recipe << ": " << word;
      ++figures;
    }
  }
  EXPECT_GT(figures, 200);
}

// --- a figure is one

// '_' stands for a no-break space.
TEST(HtmlTest, ANumberAndItsUnitAreHeldTogether) {
  for (const std::string text : {"263.0_g/L",
                                 "21.3 ±_2.9_mg/L",
                                 "at most 12.6_%_vol (at least 12.2_%_vol)",
                                 "5.1_g/L as tartaric acid",
                                 "22.4_°Brix, 61_°F; 48_hL",
                                 "1e-5_mol²/L²",
                                 "dose 3.7_g/hL.",
                                 "10_kg/m³",
                                 "8_lb/1000_gal",
                                 "2_imp_fl_oz",
                                 "1.080_SG",
                                 "chance 95_%",
                                 "184_g of potassium metabisulfite",
                                 "portion 1 of 2, when a third is gone",
                                 "3 lots, 2 plots",
                                 "±_3",
                                 "± of",
                                 "lot 7 and 8",
                                 "g/L",
                                 "",
                                 " "}) {
    std::string plain = text, held = text;
    std::replace(plain.begin(), plain.end(), '_', ' ');
    for (auto at = held.find('_'); at != std::string::npos; at = held.find('_', at)) held.replace(at, 1, "\u00a0");
    EXPECT_EQ(held_together(plain), held);
  }
  EXPECT_EQ(held_together("from 2026-08-29 to 2026-09-03."), "from 2026-\u206008-\u206029 to 2026-\u206009-\u206003.");
  for (const std::string text : {"12-2026", "OIV-MA-AS323-04C", "1e-5", "2026-8-2", "2026-08-", "-"})
    EXPECT_EQ(held_together(text), text);
}

// --- hostile words

TEST(HtmlTest, NothingOfARecipeIsMarkup) {
  const TestHouse house;
  const auto page = write_html(hostile_sheet(house));
  EXPECT_EQ(count(page, "<script"), 0U);
  EXPECT_EQ(count(page, "<img"), 0U);
  EXPECT_EQ(count(page, "</style>"), 1U);
  EXPECT_EQ(count(page, "</title>"), 1U);
  EXPECT_GT(count(page, "&lt;script&gt;alert(1)&lt;/script&gt;"), 20U);
  EXPECT_GT(count(words_of(page), hostile), 20U);
}

TEST(HtmlTest, BytesThatAreNoTextAreReplaced) {
  TestHouse house;
  StepSheet step = step_adding(house, {"tartaric acid"});
  step.lot = "T\xff\xc3(7";
  step.outcome.notes = {"cut \xe2\x82", std::string("nul \0 bell \a", 12),
                        "turned \xe2\x80\xae"
                        "g 5.1\xe2\x81\xa9",
                        "kept: é °C 百 \xf0\x9f\x8d\x87 \xe2\x80\x93"};
  const auto page = write_html(sheet_of({step}));
  EXPECT_NO_THROW(nlohmann::json(page).dump());  // strict: throws for what is no UTF-8
  const auto words = words_of(page);
  EXPECT_NE(words.find("lot T\uFFFD\uFFFD(7"), std::string::npos);
  EXPECT_NE(words.find("cut \uFFFD"), std::string::npos);
  EXPECT_NE(words.find("nul \uFFFD bell \uFFFD"), std::string::npos);
  EXPECT_NE(words.find("turned \uFFFDg 5.1\uFFFD"), std::string::npos);
  EXPECT_NE(words.find("kept: é °C 百 \xf0\x9f\x8d\x87 \xe2\x80\x93"), std::string::npos);
}

// The foot of a printed page stands in the style sheet, where a title may end no string and no element.
TEST(HtmlTest, TheFootOfAPrintedPageNamesTheRecipe) {
  Worksheet sheet = sheet_of({});
  sheet.title = "T7 \"pink\" </style>\\ \xe2\x80\xae é" + std::string(80, 'x');
  const auto page = write_html(sheet);
  EXPECT_NE(page.find("content:\"worksheet aaaaaaaaaaaa: T7 \\22 pink\\22  \\3c \\2f style\\3e \\5c  \uFFFD éxxx"),
            std::string::npos)
      << page.substr(page.find("worksheet aaa"), 200);
  EXPECT_NE(page.find("xx...\"}}\n"), std::string::npos);
}

TEST(HtmlTest, NeedsNoOtherFile) {
  TestHouse house;
  for (const auto& recipe : recipes()) {
    const auto page = write_html(run(house, recipe));
    for (const auto* reach : {"<script", "src=", "url(", "@import", "http:", "https:", "<iframe", "<object"})
      EXPECT_EQ(count(page, reach), 0U) << reach << " in " << recipe;
    EXPECT_EQ(count(page, "<link "), 1U);
    EXPECT_EQ(count(page, "<link rel=\"icon\" href=\"data:,\" />"), 1U);
    EXPECT_EQ(count(page, "default-src &#39;none&#39;"), 1U);
  }
}

TEST(HtmlTest, FromTheCommandLine) {
  const Folder folder;
  const auto file = folder.path() / "sheet.html";
  const auto recipe = (source_dir / "recipes/before-bottling.yaml").string();
  const auto said = call({"run", recipe, "--format", "html", "--out", file.string()});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(contents(file).substr(0, 15), "<!DOCTYPE html>");
  const auto printed = call({"compute", "sulfite.molecular", "pH=3.40", "free SO2=30 mg/L", "--format", "html"});
  EXPECT_EQ(printed.status, 0) << printed.err;
  EXPECT_TRUE(printed.out.ends_with("</html>\n"));
}

// --- outside judges

// Every recipe, a sheet of all charts, one of all substances, and the hostile one.
std::vector<std::string> write_all(const Folder& folder) {
  TestHouse house;
  std::vector<std::string> files;
  const auto keep = [&](const std::string& name, const Worksheet& sheet) {
    files.push_back(folder.write(name + ".html", write_html(sheet)).string());
  };
  for (const auto& recipe : recipes()) keep(recipe.stem(), run(house, recipe));
  StepSheet charts = step_adding(house, {});
  charts.outcome.charts = charts_of_all_kinds();
  charts.outcome.swatches = {{"this lot", 244, 200, 186}, {"reference", 120, 20, 40}};
  charts.outcome.tables.push_back(
      {"Readings", {{"plot", "", 0}, {"sugar", "g/L", 1}}, {{"Sorrel", 200.0}, {"Teasel", 190.0}}});
  keep("charts", sheet_of({charts}));
  std::vector<StepSheet> steps;
  // What is only handled in the laboratory is never an addition.
  for (const auto id : house.catalogue.names())
    if (house.catalogue.find(id)->uses == "dosing") steps.push_back(step_adding(house, {id}));
  keep("substances", sheet_of(steps));
  keep("hostile", hostile_sheet(house));
  const auto day = source_dir / "recipes/day-of-samples";
  const auto lots =
      call({"run", (day / "recipe.yaml").string(), "--lots", (day / "lots.csv").string(), "--format", "html"});
  files.push_back(folder.write("lots.html", lots.out).string());
  // Many lots, and one whose name begins as another's: on paper it must not look like that one.
  const auto table =
      folder.write("lots.csv",
                   "lot,volume [hL],pH,free SO2 [mg/L],total SO2 [mg/L],ethanol [% vol]\n"
                   "T11,24.0,3.31,12 ± 2,58,12.1\nT12,36.5,3.45,18 ± 2,71,12.8\nT1,50.0,3.18,22 ± 2,80,11.9\n"
                   "T2,18.2,3.27,9,44,12.4\nT21,60.0,3.68,15 ± 2,199,13.6\n"
                   "The old cask by the door,1.2,3.4,9,44,12.4\nT3,1.2,0,9,44,12.4\n");
  for (const auto& [name, more] : std::vector<std::pair<std::string, std::string>>{
           {"many lots", ""},
           {"many figures", "  - sulfite.molecular: {}\n  - sulfite.binding: {acetaldehyde: 40 mg/L}\n"}}) {
    const auto recipe =
        folder.write(name + ".yaml", "recipe: " + name +
                                         "\nrules: EU\nlots: {each: {class: still, stage: wine, colour: pink, "
                                         "sugar: 2 g/L}}\nsteps:\n"
                                         "  - sulfite.addition: {target free SO2: 28 mg/L}\n" +
                                         more);
    const auto said = call({"run", recipe.string(), "--lots", table.string(), "--format", "html"});
    EXPECT_NE(said.out, "") << said.err;
    files.push_back(folder.write(name + ".html", said.out).string());
  }
  return files;
}

// HTML Tidy (package tidy) reads HTML 5; status 0: neither errors nor warnings.
TEST(HtmlTest, TidyFindsNothing) {
  ASSERT_TRUE(fs::exists("/usr/bin/tidy")) << "install the package tidy to run this test";
  const Folder folder;
  for (const auto& file : write_all(folder)) {
    const auto said = run_program("/usr/bin/tidy", {"-q", "-e", file});
    EXPECT_EQ(said.status, 0) << file << '\n' << said.err;
  }
  const auto bad = run_program("/usr/bin/tidy", {"-q", "-e", folder.write("bad.html", "<p><div></p>").string()});
  EXPECT_NE(bad.status, 0);
}

constexpr int no_browser = 9;

Said look(const std::vector<std::string>& files) { return run_program(source_dir / "tests/host/browser_check", files); }

TEST(BrowserTest, FindsNothingToComplainOf) {
  const Folder folder;
  const auto said = look(write_all(folder));
  ASSERT_NE(said.status, no_browser)
      << "install the packages chromium, chromium-driver, python3-selenium and poppler-utils to run this test";
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.out, "");
}

// The check is not one that takes everything.
TEST(BrowserTest, SeesEachFault) {
  const Folder folder;
  TestHouse house;
  const auto good = write_html(run(house, source_dir / "recipes/before-bottling.yaml"));
  const std::vector<std::array<std::string, 4>> faults{
      {"wide", "</main>", "<div style=\"width:90rem\">x</div></main>", "the page is"},
      {"pale", "--quiet: #555b60", "--quiet: #a9adb0", "light: contrast"},
      {"dim", "--quiet: #a9adb0", "--quiet: #555b60", "dark: contrast"},
      {"faint", "--t0: #1f4f55", "--t0: #d0d8d0", "a line of a chart"},
      {"script", "</main>", "</main><script>alert(1)</script>", "console:"},
      {"leap", "<h3>Checks</h3>", "<h5>Checks</h5>", "of rank 5 follows"},
      {"mute", " role=\"img\"", "", "a picture without words"},
      {"headless", "<th scope=\"row\">pH</th>", "<th>pH</th>", "heads neither"},
      {"fetch", "img-src data:", "img-src *", "console: [^\n]*nothing.png"},
      {"split", "<h4>Handling</h4>", "<h4>Handling</h4><p style=\"height:60rem\"></p>", "is split"},
      {"beside", "</main>",
       "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"x\"><table><tbody><tr><td "
       "style=\"min-width:50rem\">"
       "17 g</td></tr></tbody></table></div></main>",
       "lies beside the window"},
      {"parted", ".expect .figure { white-space: nowrap; }",
       ".expect .figure { overflow-wrap: anywhere; display: block; width: 1rem; }", "the word '[^\n]*' is broken"},
      {"alone", "<footer>", "<div style=\"height:1px;break-after:page\"></div><footer>", "the footer stands alone"},
      {"torn", "</footer>", "<div style=\"height:1px;break-after:page\"></div>and so on</footer>",
       "the footer is parted"},
      {"apart", "</main>", "<p style=\"width:1px;overflow-wrap:normal\">263.0 g/L</p></main>",
       "the figure '263.0 g/L' is broken"},
      {"edge", "padding: 0 2px;", "padding: 0;", "lies on the edge of the print"},
      {"upon", "class=\"tag\"", "class=\"tag\" style=\"translate:-10px 35px\"", "lie on one another"}};
  std::vector<std::string> files;
  for (const auto& [name, part, instead, complaint] : faults) {
    std::string page = good;
    ASSERT_NE(page.find(part), std::string::npos) << part;
    page.replace(page.find(part), part.size(), instead);
    if (name == "fetch") page.insert(page.find("</main>"), "<img src=\"nothing.png\" alt=\"\">");
    files.push_back(folder.write(name + ".html", page).string());
  }
  const auto said = look(files);
  ASSERT_NE(said.status, no_browser)
      << "install the packages chromium, chromium-driver, python3-selenium and poppler-utils to run this test";
  for (const auto& [name, part, instead, complaint] : faults) {
    const auto found = std::regex_search(said.out, std::regex(name + "\\.html: [^\n]*" + complaint));
    EXPECT_TRUE(found) << name << ": " << complaint << "\n" << said.out;
  }
}

}  // namespace html_test
