// Control samples over the days: of the table, and of the book before it.
#include "tests/folder.hpp"
#include "tests/host/book.hpp"
#include "tests/host/program.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace vatwright::test {
namespace intake_control_test {

using Json = nlohmann::json;

constexpr char dated[] = "mapping: days\nsample: S\ndate: Day\nresults:\n  pH: {column: P, unit: pH}\ncontrols: ";
constexpr char undated[] = "mapping: today\nsample: S\nresults:\n  pH: {column: P, unit: pH}\ncontrols: ";

Said taken(const std::string& table, const std::string& mapping, const std::vector<std::string>& more = {}) {
  const Folder folder;
  std::vector<std::string> words{"intake",   folder.write("t.csv", table).string(),
                                 "--by",     folder.write("m.yaml", mapping).string(),
                                 "--format", "json"};
  words.insert(words.end(), more.begin(), more.end());
  // Nobody's own book is looked at.
  return call(words, "XDG_DATA_HOME=" + quoted(folder.path().string()));
}

// A day's control sample and a wine, in the order given.
std::string days_of(const std::vector<double>& control) {
  std::string table = "S,Day,P\n";
  for (std::size_t i = 0; i < control.size(); ++i)
    table += fmt::format("C,2026-09-{0:02},{1:.2f}\nT{0},2026-09-{0:02},3.30\n", i + 1, control[i]);
  return table;
}

std::vector<std::string> held(const Json& sheet) {
  std::vector<std::string> names;
  for (const auto& sample : sheet["samples"])
    if (sample["results"][0].value("held back", false)) names.push_back(sample["sample"]);
  return names;
}

const std::vector<double> steady{3.40, 3.41, 3.39, 3.40, 3.42, 3.41};

TEST(ControlOverTime, ATrialSetsTheLimits) {
  const auto said = taken(days_of(steady), std::string(dated) + "{C: {pH: {trial: 5}}}\n");
  ASSERT_EQ(said.status, 0) << said.err;
  const Json sheet = Json::parse(said.out);
  EXPECT_TRUE(sheet["controls"][0]["right"]);
  EXPECT_EQ(sheet["controls"][0]["readings"], 6);
  const auto few = Json::parse(taken(days_of({3.4, 3.5, 3.9}), std::string(dated) + "{C: {pH: {trial: 5}}}\n").out);
  EXPECT_NE(few["controls"][0]["words"].get<std::string>().find("nothing is judged yet"), std::string::npos);
}

// Off on the day before last, and right again: the results of that day alone wait.
TEST(ControlOverTime, ADayThatWasOffHoldsItsResultsBack) {
  auto days = steady;
  days.insert(days.end(), {3.90, 3.40});
  for (const auto* target : {"{C: {pH: {trial: 5}}}\n", "{C: {pH: 3.40 ± 0.02 pH}}\n"}) {
    const auto said = taken(days_of(days), std::string(dated) + target);
    EXPECT_EQ(said.status, 1) << said.err;
    const Json sheet = Json::parse(said.out);
    EXPECT_TRUE(sheet["controls"][0]["right"]);
    EXPECT_EQ(held(sheet), std::vector<std::string>{"T7"});
  }
}

TEST(ControlOverTime, WhatCameAfterTheLastControlWaits) {
  const auto said = taken(days_of(steady) + "T9,09.09.2026,3.30\n", std::string(dated) + "{C: {pH: {trial: 5}}}\n");
  EXPECT_EQ(held(Json::parse(said.out)), std::vector<std::string>{"T9"});
}

TEST(ControlOverTime, OfSeveralDaysTheLastCounts) {
  const auto said = taken("S,Day,P\nA,2026-09-01,3.30\nA,2026-09-02,3.50\n", std::string(dated) + "{}\n");
  EXPECT_NEAR(Json::parse(said.out)["samples"][0]["results"][0]["value"], 3.50, 1e-9) << said.err;
}

TEST(ControlOverTime, TheBookComesBeforeTheTable) {
  const CellarBook book;
  int day = 1;
  for (const double reading : {3.40, 3.41, 3.39, 3.40, 3.42})
    ASSERT_EQ(book({"measure", "C", fmt::format("pH={}", reading), "--at", fmt::format("2026-08-{:02}", day++)}).status,
              0);
  const auto mapping = std::string(undated) + "{C: {pH: {trial: 5}}}\n";
  const auto judged = [&](const std::string& control) {
    return taken("S,P\nC," + control + "\nT1,3.30\n", mapping, {"--book", book.file.string()});
  };
  EXPECT_EQ(judged("3.41").status, 0);
  const Json off = Json::parse(judged("3.90").out);
  EXPECT_FALSE(off["controls"][0]["right"]);
  EXPECT_EQ(off["controls"][0]["readings"], 6);
  EXPECT_NE(off["controls"][0]["words"].get<std::string>().find("hold back"), std::string::npos);
}

TEST(ControlOverTime, WhatIsNoDayOrNoTrialIsRefused) {
  const auto of = [](const std::string& table, const std::string& target) {
    return taken(table, std::string(dated) + target).err;
  };
  EXPECT_NE(of("S,Day,P\nA,9/10/2026,3.3\n", "{}\n").find("row 2: '9/10/2026' is no day"), std::string::npos);
  EXPECT_NE(of("S,Day,P\nA,2026-02-30,3.3\n", "{}\n").find("is no day"), std::string::npos);
  for (const auto* trial : {"3", "many", "5.5", "-5"}) {
    const auto said = of(days_of(steady), fmt::format("{{C: {{pH: {{trial: {}}}}}}}\n", trial));
    EXPECT_NE(said.find("m.yaml:6:"), std::string::npos) << said;
    EXPECT_NE(said.find("20 is usual"), std::string::npos) << said;
  }
}

}  // namespace intake_control_test
}  // namespace vatwright::test
