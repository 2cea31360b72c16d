// What a plugin gives back is checked before it goes on a worksheet: an answer that cannot be used
// ends the run with status 3 and shows nothing.
#include <gtest/gtest.h>

#include "tests/host/program.hpp"

namespace vet_test {

using namespace vatwright::test;

struct Fault {
  const char* calculation;
  const char* says;
};

class FaultyAnswerTest : public testing::TestWithParam<Fault> {};

const std::string folder = VATWRIGHT_FIXTURES "/faulty";

TEST_P(FaultyAnswerTest, IsRefusedAndNothingIsShown) {
  const auto [calculation, says] = GetParam();
  const std::string id = std::string("faulty.") + calculation;
  for (const auto* format : {"text", "json"}) {
    const auto said = call({"compute", id, "amount=2", "volume=10 hL", "--plugins", folder, "--format", format});
    EXPECT_EQ(said.status, 3) << said.err;
    EXPECT_TRUE(shows_nothing(said)) << said.out;
    EXPECT_NE(said.err.find(id), std::string::npos) << "the calculation is not named: " << said.err;
    EXPECT_NE(said.err.find(says), std::string::npos) << said.err;
  }
}

INSTANTIATE_TEST_SUITE_P(
    Faults, FaultyAnswerTest,
    testing::Values(
        Fault{"exception", "failed: the still is on fire"},
        Fault{"number", "failed with something that says nothing of itself"},
        Fault{"undeclaredinput", "reads 'pH', which was not given"}, Fault{"nan", "twice is not a finite number"},
        Fault{"result", "a result 'secret' that it does not declare"},
        Fault{"change", "a change of 'volume' that it does not declare"},
        Fault{"nopart", "part of the lot that is not above zero"},
        Fault{"nothing", "'tartaric acid' that is not above zero"},
        Fault{"negative", "'tartaric acid' that is not above zero"},
        Fault{"infinite", "tartaric acid is not a finite number"},
        Fault{"substance", "'moon dust' that is not in the catalogue"}, Fault{"empty", "with neither mass nor volume"},
        Fault{"dose", "a dose has no unit"}, Fault{"reagent", "'moon dust' that is not in the catalogue"},
        Fault{"secretreagent", "a reagent 'iodine solution' that it does not declare"},
        Fault{"memory", "failed: std::bad_alloc"}, Fault{"namelessresult", "a result without a name"},
        Fault{"namelesschange", "a change of nothing"},
        Fault{"forgets", "it forgets 'volume', which it does not declare as changed"},
        Fault{"forgetsnothing", "it forgets nothing"},
        Fault{"nowhere", "wine from a lot 'the neighbour's' that there is not"},
        Fault{"toomuch", "more wine than there is in lot 'A'"},
        Fault{"lessthannothing", "a negative volume taken from 'A'"},
        Fault{"nanvolume", "the volume taken from A is not a finite number"},
        Fault{"cuckoo", "a lot 'cuckoo' that it does not declare"}, Fault{"namelesslot", "a lot without a name"},
        Fault{"nanlot", "pH is not a finite number"}, Fault{"moonlight", "a lot with 'moonlight', which no lot has"},
        Fault{"nantable", "course is not a finite number"},
        Fault{"widetable", "a row of 'course' that is not as wide as its head"},
        Fault{"narrowtable", "a row of 'course' that is not as wide as its head"},
        Fault{"unittable", "course in 'fortnight', which is no unit"},
        Fault{"nanchart", "course is not a finite number"}, Fault{"nanband", "course is not a finite number"},
        Fault{"unitchart", "course in 'fortnight', which is no unit"},
        Fault{"unitcheck", "height in 'cubit', which is no unit"}, Fault{"nancheck", "height is not a finite number"},
        Fault{"nanopinion", "the old way is not a finite number"},
        Fault{"dimensioncheck", "strength of the dose: a mass per volume (such as '30 mg/L') does not go into 'hL'"},
        Fault{"dimensionopinion", "the old way: a mass (such as '250 g') does not go into 'pH'"},
        Fault{"tworesults", "two results of one name, 'twice'"}, Fault{"twochecks", "two checks of one name, 'height'"},
        Fault{"twoopinions", "two second opinions of one name, 'the old way'"},
        Fault{"nodose", "1 kg of 'tartaric acid', which is no dose of 0.0000 g/hL in the volume of the lot"},
        Fault{"otherdose", "1 kg of 'tartaric acid', which is no dose of 10.1000 g/hL"},
        Fault{"partdose", "1 kg of 'tartaric acid', which is no dose of 50.0000 g/hL"},
        Fault{"degreedose", "a dose of 'tartaric acid' that is a temperature"},
        Fault{"volumedose", "a dose of 'tartaric acid' that is a plain number"},
        Fault{"heavy", "1001 kg of 'tartaric acid', more than the lot can take"},
        Fault{"heaviest", "of 'tartaric acid', more than the lot can take"},
        Fault{"bell", "an addition with a control character in its name"},
        Fault{"holdsabove", "'height' is said to hold, and 9000.0000 m is not at most 1000.0000 m"},
        Fault{"holdsbelow", "'height' is said to hold, and 1.0000 m is not at least 1000.0000 m"},
        Fault{"failsbelow", "'height' is said to fail, and 1.0000 m is at most 1000.0000 m"},
        Fault{"failsabove", "'height' is said to fail, and 9000.0000 m is at least 1000.0000 m"},
        Fault{"holdsapart", "'height' is said to hold, and 1200.0000 m is not equal to 1000.0000 m"},
        Fault{"holdssomehow", "by 'about', not by one of: at most, at least, below, equals"},
        Fault{"holdsanother", "'height' holds a length (such as '10 mm') against a mass (such as '250 g')"},
        Fault{"escapes", "a check with a control character in its words"},
        Fault{"twokinds", "'the old way' compares a length (such as '10 mm') with a mass (such as '250 g')"},
        Fault{"dimensionnote", "failed: a mass per volume (such as '30 mg/L') does not go into 'hL'"}),
    [](const auto& fault) { return std::string(fault.param.calculation); });

// A calculation may say that its inputs do not go together: that is the reader's to mend.
TEST(VetTest, InputErrorIsBadInput) {
  const auto said = call({"compute", "faulty.input", "amount=2", "--plugins", folder});
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(said.out, "");
  EXPECT_NE(said.err.find("faulty.input: these two do not go together"), std::string::npos) << said.err;
  EXPECT_NE(said.err.find("change one of them"), std::string::npos) << said.err;
}

// So is a lot that would become what no lot is: more was asked for than the wine can be.
TEST(VetTest, ALotThatCannotBeIsBadInput) {
  const auto said = call({"compute", "faulty.range", "amount=2", "volume=10 hL", "--plugins", folder});
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(said.out, "");
  EXPECT_NE(said.err.find("faulty.range: pH of lot "), std::string::npos) << said.err;
  EXPECT_NE(said.err.find(" would come to 9.000, which is outside what can be: 2 to 5"), std::string::npos) << said.err;
  EXPECT_NE(said.err.find("ask for less, and look at the readings"), std::string::npos) << said.err;
}

// What a lot may be is the lot's to say: a plugin's own key of the same name has no say in it.
TEST(VetTest, TheRangeIsTheLotsOwn) {
  const auto said = call({"compute", "faulty.ownrange", "amount=2", "volume=10 hL", "pH=3.4", "--plugins", folder});
  EXPECT_EQ(said.status, 2) << said.out;
  EXPECT_EQ(said.out, "");
  EXPECT_NE(said.err.find(" would come to 10.20, which is outside what can be: 2 to 5"), std::string::npos) << said.err;
}

TEST(VetTest, ACheckMayBeOffByWhatIsNotShown) {
  const auto said = call({"compute", "faulty.allbut", "amount=2", "volume=10 hL", "--plugins", folder});
  EXPECT_EQ(said.status, 1) << said.err;
  EXPECT_EQ(said.err, "");
}

// On any thread: the process does not end by it.
TEST(VetTest, FailureWhileReadingsAreDrawn) {
  for (const auto* draws : {"2", "5000"}) {
    const auto said = call({"compute", "faulty.moody", "amount=2 ± 0.1", "--plugins", folder, "--draws", draws});
    EXPECT_EQ(said.status, 3) << said.err;
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err.find("faulty.moody failed: only two will do"), std::string::npos) << said.err;
  }
}

// A step that fails takes the steps before it with it: no part of a sheet is written.
TEST(VetTest, NoPartOfASheetIsWritten) {
  const Folder scratch;
  const auto recipe = scratch.write("r.yaml",
                                    "recipe: test\nlots:\n  A: {pH: 3.4, free SO2: 14 mg/L}\nsteps:\n"
                                    "  - sulfite.molecular\n  - faulty.nan: {amount: 2}\n");
  const auto sheet = scratch.path() / "sheet.txt";
  const auto said = call({"run", recipe.string(), "--plugins", folder, "--out", sheet.string()});
  EXPECT_EQ(said.status, 3) << said.err;
  EXPECT_EQ(said.out, "");
  EXPECT_FALSE(fs::exists(sheet));
}

}  // namespace vet_test
