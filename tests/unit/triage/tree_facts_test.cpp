#include "triage/tree_facts.hpp"

#include <gmock/gmock.h>

#include "measure/units.hpp"
#include "trees.hpp"

namespace ashtriage::triage {
namespace {

using measure::Length;
using measure::StemRule;
using measure::units::foot;
using measure::units::inch;
using measure::units::mile;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Service Forester's Handbook, table of basal area by DBH: 14 in DBH stands beside 44.0 in girth.
TEST(Stems, AGirthIsDividedByPiAndTheNoteSaysSo) {
    const TreeFacts facts = facts_of({}, "girth 44 in");
    EXPECT_EQ(facts.dbh->text(inch, 1), "14.0");
    EXPECT_THAT(facts.notes, ElementsAre(AllOf(HasSubstr("girth of 44.0 in"), HasSubstr("pi"),
                                               HasSubstr("14.0 in"))));
}

TEST(Stems, ADiameterNeedsNoNote) {
    const TreeFacts facts = facts_of({}, "14 in");
    EXPECT_EQ(facts.dbh, Length::of("14", inch));
    EXPECT_THAT(facts.notes, IsEmpty());
    EXPECT_EQ(written(facts.values, "dbh"), "14 in");
}

// 38.1 cm are 15 in to the last digit (1 in = 25.4 mm), so a limit of 15 in is not passed by it.
TEST(Stems, ALengthInCentimetresIsTheSameLengthInInches) {
    EXPECT_EQ(written(facts_of({}, "38.1 cm").values, "dbh"), "15 in");
}

// The square root of 81 + 64 + 42.25 is 13.684; the sum of 9, 8 and 6.5 is 23.5.
TEST(Stems, SeveralCountAsOneByTheRuleAskedFor) {
    const auto dbh_by = [](StemRule rule) {
        return tree_facts(built_in_rules(), nullptr, walked({}, "9 in + 8 in + 6.5 in"), rule);
    };
    const TreeFacts root = dbh_by(StemRule::root_of_sum_of_squares);
    EXPECT_EQ(root.dbh->text(inch, 3), "13.684");
    EXPECT_EQ(root.diameters.size(), 3U);
    EXPECT_THAT(root.notes, ElementsAre(AllOf(HasSubstr("3 stems"), HasSubstr("13.7 in"),
                                              HasSubstr("root of the sum of squares"))));
    EXPECT_EQ(dbh_by(StemRule::sum).dbh, Length::of("23.5", inch));
    EXPECT_EQ(dbh_by(StemRule::largest).dbh, Length::of("9", inch));
}

TEST(Stems, NoneLeaveTheDiameterOpen) {
    const TreeFacts facts = facts_of({});
    EXPECT_FALSE(facts.dbh);
    EXPECT_EQ(written(facts.values, "dbh"), "not asked");
}

// A DBH goes from 0.5 to 120 in; 120 in of DBH are 376.99 in of girth.
TEST(Stems, BeyondWhatATreeCanHaveAreRefused) {
    EXPECT_NO_THROW(facts_of({}, "0.5 in"));
    EXPECT_NO_THROW(facts_of({}, "120 in"));
    EXPECT_NO_THROW(facts_of({}, "girth 376.9 in"));
    for (const char* stems : {"0.49 in", "120.1 in", "girth 377.1 in", "100 in + 100 in"}) {
        const Refusal refusal = refusal_of([&] { facts_of({}, stems); });
        EXPECT_THAT(refusal.what, HasSubstr("DBH")) << stems;
        EXPECT_THAT(refusal.hint, HasSubstr("girth")) << stems;
    }
}

observe::Site some_site() {
    observe::Site site;
    site.name = "Nowhere";
    site.soil = "clay";
    site.distance_to_water = Length::of("25", foot);
    site.infestation_distance = Length::of("15", mile);
    site.in_quarantined_county = true;
    return site;
}

TEST(SiteFacts, FillInWhatTheWalkAroundDoesNotSay) {
    const observe::Site site = some_site();
    const auto facts = tree_facts(built_in_rules(), &site, walked({{"soil", "could not see"}}));
    EXPECT_EQ(written(facts.values, "soil"), "clay");
    EXPECT_EQ(written(facts.values, "distance_to_water"), "25 ft");
    // Exactly the 15 mi of the published trigger, not a hair more.
    EXPECT_EQ(written(facts.values, "infestation_distance"), "15 mi");
    EXPECT_EQ(written(facts.values, "in_quarantined_county"), "yes");
}

TEST(SiteFacts, DoNotOverrideWhatTheWalkAroundSays) {
    const observe::Site site = some_site();
    const auto facts = tree_facts(built_in_rules(), &site,
                                  walked({{"soil", "sandy"},
                                          {"distance_to_water", "40 ft"},
                                          {"infestation_distance", "62 miles"},
                                          {"in_quarantined_county", "no"}}));
    EXPECT_EQ(written(facts.values, "soil"), "sandy");
    EXPECT_EQ(written(facts.values, "distance_to_water"), "40 ft");
    EXPECT_EQ(written(facts.values, "infestation_distance"), "62 mi");
    EXPECT_EQ(written(facts.values, "in_quarantined_county"), "no");
}

TEST(SiteFacts, AnEmptySiteTellsNothing) {
    const observe::Site site;
    const auto facts = tree_facts(built_in_rules(), &site, walked({}));
    EXPECT_EQ(facts.values, facts_of({}).values);
}

// Farther than the fact can say is as good as at its far end.
TEST(SiteFacts, ADistanceBeyondTheRangeCountsAsItsEnd) {
    observe::Site site = some_site();
    site.distance_to_water = Length::of("40000", foot);
    const auto facts = tree_facts(built_in_rules(), &site, walked({}));
    const auto water = fact_named(built_in_rules(), "distance_to_water");
    EXPECT_EQ(facts.values[water].interval()->high, built_in_rules().model.facts[water].range.high);
}

TEST(SiteFacts, ASoilThatIsNoneIsRefused) {
    observe::Site site = some_site();
    site.soil = "moon dust";
    EXPECT_THAT(refusal_of([&] { tree_facts(built_in_rules(), &site, walked({})); }).what,
                HasSubstr("moon dust"));
}

TEST(Findings, OfAnUnknownFactAreRefusedWithTheNearestName) {
    const Refusal refusal = refusal_of([] { facts_of({{"canopy_diebak", "20 %"}}); });
    EXPECT_THAT(refusal.what, HasSubstr("canopy_diebak"));
    EXPECT_THAT(refusal.hint, HasSubstr("canopy_dieback"));
    EXPECT_THAT(refusal_of([] { facts_of({{"zzzzzzzzzz", "1"}}); }).hint, HasSubstr("rules facts"));
}

TEST(Findings, GivenTwiceAreRefused) {
    const Refusal refusal = refusal_of([] {
        facts_of({{"conks", "no"}, {"lean", "3"}, {"conks", "yes"}});
    });
    EXPECT_THAT(refusal.what, HasSubstr("conks"));
    EXPECT_THAT(refusal.what, HasSubstr("twice"));
}

TEST(Findings, WithAValueThatCannotBeAreRefused) {
    EXPECT_THAT(refusal_of([] { facts_of({{"canopy_dieback", "101 %"}}); }).what, HasSubstr("101"));
    EXPECT_THAT(refusal_of([] { facts_of({{"canopy_dieback", "-1 %"}}); }).what, HasSubstr("-1"));
    EXPECT_THAT(refusal_of([] { facts_of({{"canopy_dieback", "nan"}}); }).what, HasSubstr("nan"));
    EXPECT_THAT(refusal_of([] { facts_of({{"conks", "perhaps"}}); }).what, HasSubstr("perhaps"));
}

TEST(QuestionsWithACondition, DoNotApplyWhenItFails) {
    const auto shape = [](const Entries& entries) {
        return written(facts_of(entries).values, "exit_hole_shape");
    };
    EXPECT_EQ(shape({{"exit_holes", "0"}}), "does not apply");
    EXPECT_EQ(shape({{"exit_holes", "1"}}), "not asked");
    EXPECT_EQ(shape({{"exit_holes", "0-3"}}), "not asked");
    EXPECT_EQ(shape({{"exit_holes", "could not see"}}), "not asked");
    EXPECT_EQ(shape({}), "not asked");
}

TEST(QuestionsWithACondition, RefuseAnAnswerThatContradictsIt) {
    const Refusal refusal = refusal_of([] {
        facts_of({{"exit_holes", "0"}, {"exit_hole_shape", "round"}});
    });
    EXPECT_THAT(refusal.what, HasSubstr("exit hole shape"));
    EXPECT_THAT(refusal.hint, HasSubstr("exit holes"));
    EXPECT_NO_THROW(facts_of({{"exit_holes", "0-3"}, {"exit_hole_shape", "round"}}));
    EXPECT_NO_THROW(facts_of({{"exit_hole_shape", "round"}}));
    EXPECT_NO_THROW(facts_of({{"exit_holes", "0"}, {"exit_hole_shape", "could not see"}}));
}

// 60 in is the largest DBH that is not asked about; a girth taken for a diameter is pi times the
// DBH of the last visit (12 in and 37.7 in).
TEST(DoubtfulEntries, AreAskedAboutAndLeftAsTheyAre) {
    EXPECT_THAT(doubtful_entries(facts_of({}, "60 in"), nullptr), IsEmpty());
    const TreeFacts large = facts_of({}, "61 in");
    EXPECT_EQ(doubtful_entries(large, nullptr).size(), 1U);
    EXPECT_EQ(large.dbh, Length::of("61", inch));

    const TreeFacts before = facts_of({}, "12 in");
    EXPECT_THAT(doubtful_entries(facts_of({}, "37.7 in"), &before), Contains(HasSubstr("girth")));
    EXPECT_THAT(doubtful_entries(facts_of({}, "12.4 in"), &before), IsEmpty());
    EXPECT_THAT(doubtful_entries(facts_of({}), &before), IsEmpty());
}

}  // namespace
}  // namespace ashtriage::triage
