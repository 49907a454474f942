#include "triage/worked_out.hpp"

#include <gmock/gmock.h>

#include "trees.hpp"

namespace ashtriage::triage {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::string loss(const Entries& entries) {
    return written(facts_of(entries).values, "canopy_loss");
}

// The rule: dieback and thinning are different measures, never added and never converted; the worse
// one is held against the thresholds.
TEST(CanopyLoss, IsTheWorseOfDiebackAndThinning) {
    EXPECT_EQ(loss({{"canopy_dieback", "35 %"}, {"canopy_thinning", "20 %"}}), "35 %");
    EXPECT_EQ(loss({{"canopy_dieback", "20 %"}, {"canopy_thinning", "35 %"}}), "35 %");
    EXPECT_EQ(loss({{"canopy_dieback", "0 %"}, {"canopy_thinning", "0 %"}}), "0 %");
    EXPECT_EQ(loss({{"canopy_dieback", "100 %"}, {"canopy_thinning", "100 %"}}), "100 %");
}

TEST(CanopyLoss, IsTheOneMeasureThatWasTakenWhenTheOtherWasNot) {
    EXPECT_EQ(loss({{"canopy_dieback", "35 %"}}), "35 %");
    EXPECT_EQ(loss({{"canopy_thinning", "35 %"}}), "35 %");
    EXPECT_EQ(loss({{"canopy_dieback", "could not see"}, {"canopy_thinning", "35 %"}}), "35 %");
}

TEST(CanopyLoss, OfTwoRangesReachesFromTheWorseLowEndToTheWorseHighEnd) {
    EXPECT_EQ(loss({{"canopy_dieback", "20-30"}, {"canopy_thinning", "10-60"}}), "20 to 60 %");
    EXPECT_EQ(loss({{"canopy_dieback", "20-30"}, {"canopy_thinning", "25"}}), "25 to 30 %");
}

TEST(CanopyLoss, SaysFromWhichMeasuresItCame) {
    EXPECT_THAT(facts_of({{"canopy_dieback", "35 %"}}).notes,
                ElementsAre(AllOf(HasSubstr("Only a canopy dieback of 35 %"))));
    EXPECT_THAT(facts_of({{"canopy_dieback", "35 %"}, {"canopy_thinning", "20 %"}}).notes,
                ElementsAre(AllOf(HasSubstr("canopy dieback of 35 %"),
                                  HasSubstr("canopy thinning of 20 %"), HasSubstr("not added"))));
}

// "Judge the thinning in percent": the scale has no figure for class 2.
TEST(CanopyLoss, FromAClassGoesNoFurtherThanTheClassDoes) {
    EXPECT_EQ(loss({{"canopy_class", "class 1"}}), "0 %");
    EXPECT_EQ(loss({{"canopy_class", "class 2"}}), "not asked");
    EXPECT_EQ(loss({{"canopy_class", "class 3"}}), "over 0 to under 50 %");
    EXPECT_EQ(loss({{"canopy_class", "class 4"}}), "over 50 to under 100 %");
    EXPECT_EQ(loss({{"canopy_class", "class 5"}}), "100 %");
    EXPECT_EQ(loss({{"canopy_class", "class 3 or class 4"}}), "not asked");
    EXPECT_EQ(loss({{"canopy_class", "could not see"}}), "not asked");
}

TEST(CanopyLoss, TakesAPercentageBeforeAClass) {
    EXPECT_EQ(loss({{"canopy_class", "class 5"}, {"canopy_dieback", "35 %"}}), "35 %");
}

TEST(CanopyLoss, IsNeverOverwrittenOnceItWasRecorded) {
    const TreeFacts facts = facts_of(
        {{"canopy_loss", "20 %"}, {"canopy_dieback", "90 %"}, {"canopy_class", "class 5"}});
    EXPECT_EQ(written(facts.values, "canopy_loss"), "20 %");
    EXPECT_THAT(facts.notes, IsEmpty());
}

TEST(CanopyLoss, IsWorkedOutWhereItCouldNotBeSeenAsSuch) {
    EXPECT_EQ(loss({{"canopy_loss", "could not see"}, {"canopy_dieback", "90 %"}}), "90 %");
}

TEST(CanopyLoss, StaysUnknownWhereNothingIsKnown) {
    EXPECT_EQ(loss({}), "not asked");
    EXPECT_EQ(loss({{"canopy_dieback", "could not see"}}), "not asked");
}

std::string shell(const Entries& entries, std::string_view stems) {
    return written(facts_of(entries, stems).values, "shell_per_6_inches");
}

// The hazard rating asks for inches of sound shell for each 6 in of stem diameter: 2 in of shell on
// a 12 in stem are 1 in for each 6 in.
TEST(ShellThickness, IsTakenForEachSixInchesOfStem) {
    EXPECT_EQ(shell({{"cavity", "open"}, {"shell_thickness", "2 in"}}, "12 in"), "1 in per 6 in");
    EXPECT_EQ(shell({{"cavity", "closed"}, {"shell_thickness", "2 in"}}, "24 in"),
              "0.5 in per 6 in");
    EXPECT_EQ(shell({{"cavity", "open"}, {"shell_thickness", "0 in"}}, "12 in"), "0 in per 6 in");
}

// A stem has 4 to 120 in here: 2 in of shell are 6 x 2 / 120 = 0.1 at the least, and no more than
// the 3 in for each 6 in that a stem without a hollow has.
TEST(ShellThickness, NeedsAHollowAndOfAStemNobodyMeasuredTakesEverySize) {
    EXPECT_EQ(shell({{"cavity", "open"}, {"shell_thickness", "2 in"}}, {}), "0.1 to 3 in per 6 in");
    EXPECT_EQ(shell({{"cavity", "none"}}, "12 in"), "does not apply");
    EXPECT_EQ(shell({{"cavity", "could not see"}}, "12 in"), "not asked");
}

// A shell as thick as the radius leaves no hollow: 3 in for each 6 in is all there can be.
TEST(ShellThickness, IsHeldWithinWhatAStemCanHave) {
    EXPECT_EQ(shell({{"cavity", "open"}, {"shell_thickness", "12 in"}}, "12 in"), "3 in per 6 in");
}

std::string heights(const Entries& entries) {
    return written(facts_of(entries).values, "target_distance_in_heights");
}

TEST(DistancesInHeights, AreTheDistanceOverTheHeight) {
    EXPECT_EQ(heights({{"target_distance", "60 ft"}, {"tree_height", "40 ft"}}),
              "1.5 tree heights");
    EXPECT_EQ(heights({{"target_distance", "40 ft"}, {"tree_height", "40 ft"}}), "1 tree height");
    EXPECT_EQ(heights({{"target_distance", "0 ft"}, {"tree_height", "40 ft"}}), "0 tree heights");
    EXPECT_EQ(written(facts_of({{"line_distance", "20 ft"}, {"tree_height", "50 ft"}}).values,
                      "line_distance_in_heights"),
              "0.4 tree heights");
}

// The nearest it can be is the short distance over the tall tree, the farthest the other way round.
TEST(DistancesInHeights, OfRangesReachFromTheNearestToTheFarthestTheyCanBe) {
    EXPECT_EQ(heights({{"target_distance", "30-60 ft"}, {"tree_height", "40-60 ft"}}),
              "0.5 to 1.5 tree heights");
}

// The range of the fact ends at 400 heights; 1000 ft over the smallest tree is less.
TEST(DistancesInHeights, ReachTheirLargestWithinTheRange) {
    EXPECT_EQ(heights({{"target_distance", "900 ft"}, {"tree_height", "3 ft"}}),
              "300 tree heights");
}

// No tree here is taller than 200 ft or lower than 3: 30 ft are 0.15 heights at the least.
TEST(DistancesInHeights, OfATreeOfUnknownHeightAreThoseOfEveryHeight) {
    EXPECT_EQ(heights({{"target_distance", "30 ft"}}), "0.15 to 10 tree heights");
    EXPECT_EQ(heights({{"target_distance", "0 ft"}}), "0 tree heights");
    EXPECT_EQ(heights({{"tree_height", "30 ft"}}), "not asked");
    EXPECT_EQ(heights({{"target_distance", "30 ft"},
                       {"tree_height", "30 ft"},
                       {"target_distance_in_heights", "2"}}),
              "2 tree heights");
}

// No house and no line anywhere near: nothing that the tree could reach.
TEST(DistancesInHeights, DoNotApplyWhereTheDistanceDoesNot) {
    EXPECT_EQ(heights({{"target_distance", "does not apply"}, {"tree_height", "30 ft"}}),
              "does not apply");
    EXPECT_EQ(heights({{"target_distance", "does not apply"}}), "does not apply");
    EXPECT_EQ(
        written(facts_of({{"line_distance", "does not apply"}}).values, "line_distance_in_heights"),
        "does not apply");
}

// One case that leaves the range at both ends needs facts of its own.
TEST(DistancesInHeights, BeyondTheRangeCountAsItsEnd) {
    packs::RuleSet narrow = built_in_rules();
    const auto ratio = fact_named(narrow, "target_distance_in_heights");
    narrow.model.facts[ratio].range = reason::Interval::closed(0.5, 2.0);
    const auto clamped = [&](const std::string& distance) {
        reason::Observation values(narrow.model.facts.size());
        const auto enter = [&](std::string_view fact, const std::string& text) {
            const auto index = fact_named(narrow, fact);
            values[index] =
                packs::parse_value(narrow.model.facts[index], narrow.facts[index], text);
        };
        enter("target_distance", distance);
        enter("tree_height", "40 ft");
        work_out(narrow, values);
        return *values[ratio].interval();
    };
    EXPECT_EQ(clamped("4 ft"), reason::Interval::point(0.5));
    EXPECT_EQ(clamped("400 ft"), reason::Interval::point(2.0));
    EXPECT_EQ(clamped("4-400 ft"), reason::Interval::closed(0.5, 2.0));
}

std::vector<std::string> entered_for(std::string_view fact) {
    const packs::RuleSet& rules = built_in_rules();
    std::vector<std::string> names;
    for (const reason::FactIndex entered :
         rules.facts[*rules.model.find_fact(fact)].worked_out_from) {
        names.push_back(rules.model.facts[entered].name);
    }
    return names;
}

TEST(TheBuiltInFacts, NameWhatPeopleEnterInTheirPlace) {
    EXPECT_THAT(entered_for("canopy_loss"),
                ElementsAre("canopy_dieback", "canopy_thinning", "canopy_class"));
    EXPECT_THAT(entered_for("target_distance_in_heights"),
                testing::UnorderedElementsAre("target_distance", "tree_height"));
    EXPECT_THAT(entered_for("line_distance_in_heights"),
                testing::UnorderedElementsAre("line_distance", "tree_height"));
    EXPECT_THAT(entered_for("species"), IsEmpty());
}

// A worked-out fact that nobody can bring about would be asked for in vain.
TEST(TheBuiltInFacts, ThatAreNotAskedAllSayWhatTheyAreWorkedOutFrom) {
    const packs::RuleSet& rules = built_in_rules();
    for (reason::FactIndex fact = 0; fact < rules.facts.size(); ++fact) {
        const std::string& name = rules.model.facts[fact].name;
        if (rules.facts[fact].asked || name == "dbh") continue;  // DBH comes from the stems
        EXPECT_FALSE(rules.facts[fact].worked_out_from.empty()) << name;
    }
}

}  // namespace
}  // namespace ashtriage::triage
