// Raw readings on the page give what the command line gives.
#include "tests/host/page_form.hpp"
#include "tests/host/program.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace vatwright::test {
namespace intake_page_test {

using Json = nlohmann::json;

const fs::path morning = source_dir / "recipes/laboratory-morning";

Fields typed(const std::string& table, const std::string& mapping) {
  Fields out;
  out.add("table", table);
  out.add("mapping", mapping);
  return out;
}

TEST(IntakePage, TheMorningAsOnTheCommandLine) {
  PageHouse house;
  const Fields fields = typed(contents(morning / "burette.csv"), contents(morning / "mapping.yaml"));
  const auto page = house.post("/intake", fields);
  EXPECT_EQ(page.status, 200);
  EXPECT_NE(page.body.find("read a third time"), std::string::npos);
  const Fields again = form_of(page.body, "/intake");
  EXPECT_EQ(again.get("mapping"), fields.get("mapping"));
  const auto ours = Json::parse(house.post("/intake/results.json", again).body)["samples"];
  const auto said = call(
      {"intake", (morning / "burette.csv").string(), "--by", (morning / "mapping.yaml").string(), "--format", "json"});
  EXPECT_EQ(ours, Json::parse(said.out)["samples"]);
  EXPECT_TRUE(house.post("/intake/sheet.html", again).is_sheet);
  const auto lots = house.post("/intake/lots", again);
  EXPECT_NE(lots.body.find("Take 14 lots"), std::string::npos);
}

TEST(IntakePage, AShippedMappingToBeginWithAndSlipsInWords) {
  PageHouse house;
  const auto first = house.get("/intake");
  const auto begun = house.get(link_of(first.body, "A morning at the burette"));
  EXPECT_NE(begun.body.find("titrant concentration"), std::string::npos);
  const auto empty = house.post("/intake", typed("S,P\nA,3.4\n", ""));
  EXPECT_NE(empty.body.find("The mapping"), std::string::npos);
  const auto slip = house.post("/intake", typed("S,P\nA,3.4\n", "mapping: m\nsample: S\nresults:\n  pH: {column: Q}"));
  EXPECT_EQ(slip.status, 422);
  EXPECT_NE(slip.body.find("the mapping, line 4"), std::string::npos) << slip.body;
  const auto script = house.post("/intake", typed("S,P\n<script>x,3.4\n",
                                                  "mapping: m\nsample: S\nresults:\n  pH: "
                                                  "{column: P}"));
  EXPECT_EQ(script.body.find("<script>x"), std::string::npos);
}

}  // namespace intake_page_test
}  // namespace vatwright::test
