// What the label says to an application that was done.
#include "treat/done_findings.hpp"

#include <gmock/gmock.h>

#include "card_text.hpp"
#include "record_example.hpp"

namespace ashtriage::treat {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
namespace units = measure::units;

// The invented spray: 0.4 to 0.5 fl oz per inch DBH, 2 to 30 in, once a year.
class DoneFindings : public testing::Test {
 protected:
    DoneFindings() {
        record.trees = {{.tree = 7,
                         .label = "A-1",
                         .dbh = inches("14"),
                         .product = ounces("6"),
                         .mix = {},
                         .rate = {}}};
        record.actives = {{"inventine", measure::Mass::of("17.75", units::gram)}};
        record.counted_as = CountedUse::bark;
        record.total_product = ounces("6");
        site.area = measure::Area::of("1", units::acre);
    }
    static measure::Length inches(std::string_view number) {
        return measure::Length::of(number, units::inch);
    }
    static measure::Volume ounces(std::string_view number) {
        return measure::Volume::of(number, units::us_fluid_ounce);
    }
    std::vector<std::string> ids(const SiteHistory& before = {}) const {
        std::vector<std::string> found;
        for (const Finding& finding : findings(before)) found.push_back(finding.id);
        return found;
    }
    std::vector<Finding> findings(const SiteHistory& before = {}) const {
        return findings_about_done(record, card, before, site);
    }

    LabelCard card = test::card_of(test::sprayed_liquid);
    ApplicationRecord record = test::full_record();
    observe::Site site;
};

TEST_F(DoneFindings, AreNoneForWhatTheLabelAllows) {
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(DoneFindings, StopMoreThanTheLabelAllowsForATree) {
    record.trees.front().product = ounces("7");  // 0.5 fl oz times 14
    EXPECT_THAT(findings(), IsEmpty());
    record.trees.front().product = ounces("7.01");
    EXPECT_THAT(ids(), ElementsAre("above-label"));
    EXPECT_THAT(findings().front().text, testing::StartsWith("A-1: "));
    EXPECT_TRUE(any_stop(findings()));
}

TEST_F(DoneFindings, StopWaterNearerThanTheLabelAllows) {
    card.buffers = {{"open water", measure::Length::of("25", units::foot), {}}};
    EXPECT_THAT(ids(), ElementsAre("buffer"));
    site.distance_to_water = measure::Length::of("24", units::foot);
    EXPECT_THAT(ids(), ElementsAre("within-the-buffer"));
    site.distance_to_water = measure::Length::of("25", units::foot);
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(DoneFindings, StopWindTemperatureAndSoilThatTheLabelDoesNotAllow) {
    card.conditions.wind_to = measure::Speed::of("10", units::mile_per_hour);
    card.conditions.temperature_from = measure::Temperature::of("45", units::fahrenheit);
    card.conditions.temperature_to = measure::Temperature::of("90", units::fahrenheit);
    card.conditions.soil = {SoilState::moist};
    record.wind_speed = measure::Speed::of("10", units::mile_per_hour);
    record.air_temperature = measure::Temperature::of("45", units::fahrenheit);
    record.soil_state = "moist";
    EXPECT_THAT(findings(), IsEmpty());
    record.wind_speed = measure::Speed::of("10.1", units::mile_per_hour);
    record.air_temperature = measure::Temperature::of("44.9", units::fahrenheit);
    record.soil_state = "saturated";
    EXPECT_THAT(ids(), ElementsAre("wind-above-label", "temperature-below-label",
                                   "soil-not-as-the-label-asks"));
    EXPECT_TRUE(any_stop(findings()));
    record.air_temperature = measure::Temperature::of("90.1", units::fahrenheit);
    EXPECT_THAT(ids(), Contains("temperature-above-label"));
}

TEST_F(DoneFindings, SayNothingOfConditionsThatWereNotWrittenDownOrThatTheLabelDoesNotName) {
    record.wind_speed = measure::Speed::of("40", units::mile_per_hour);
    EXPECT_THAT(findings(), IsEmpty());
    card.conditions.wind_to = measure::Speed::of("10", units::mile_per_hour);
    card.conditions.soil = {SoilState::moist};
    record.wind_speed.reset();
    record.soil_state = "a little dry on top";
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(DoneFindings, WarnOfLessThanTheLabelsLowest) {
    record.trees.front().product = ounces("5");
    record.total_product = ounces("5");
    EXPECT_THAT(ids(), ElementsAre("below-label"));
    EXPECT_FALSE(any_stop(findings()));
}

TEST_F(DoneFindings, HoldTheTotalAgainstAllTreesWhereNoAmountOfEachIsKnown) {
    record.trees.push_back(
        {.tree = 8, .label = "A-2", .dbh = inches("10"), .product = {}, .mix = {}, .rate = {}});
    record.trees.front().product.reset();
    record.total_product = ounces("12");  // 0.5 fl oz times 24
    EXPECT_THAT(findings(), IsEmpty());
    record.total_product = ounces("12.1");
    EXPECT_THAT(ids(), ElementsAre("above-label"));
}

TEST_F(DoneFindings, StopATreeOfASizeThatTheLabelDoesNotName) {
    record.trees.front().dbh = inches("31");
    EXPECT_THAT(ids(), Contains("dbh-above-label"));
}

TEST_F(DoneFindings, StopATreatmentThatCameTooOften) {
    SiteHistory before;
    before.on_trees = {{7, "inventine", measure::parse_date("2026-04-01")}};
    EXPECT_THAT(ids(before), ElementsAre("too-often"));
    before.on_trees.front().tree = 8;
    EXPECT_THAT(findings(before), IsEmpty());
}

TEST_F(DoneFindings, SayWhatIsTrueOfTheCardOnce) {
    record.trees.push_back(record.trees.front());
    record.trees.back().label = "A-2";
    card.from_label->sites_cover_ash = false;
    EXPECT_THAT(ids(), ElementsAre("site-not-on-label"));
}

TEST_F(DoneFindings, StopMoreThanTheAcreTakesInTheYear) {
    card.limits.active_per_acre_per_year = measure::Mass::of("20", units::gram);
    EXPECT_THAT(findings(), IsEmpty());
    SiteHistory before;
    before.spent = {{"inventine", CountedUse::other, measure::parse_date("2026-04-01"),
                     measure::Mass::of("2.25", units::gram)}};
    EXPECT_THAT(findings(before), IsEmpty());  // exactly 20 g
    before.spent.front().mass = measure::Mass::of("2.26", units::gram);
    EXPECT_THAT(ids(before), ElementsAre("over-the-acre"));
    before.spent.front().on = measure::parse_date("2025-12-31");
    EXPECT_THAT(findings(before), IsEmpty());
}

TEST_F(DoneFindings, SayWhenTheAcreCannotBeTold) {
    card.limits.active_per_acre_per_year = measure::Mass::of("20", units::gram);
    record.actives.front().mass.reset();
    EXPECT_THAT(ids(), ElementsAre("acre-not-known"));
    record.actives.front().mass = measure::Mass::of("1", units::gram);
    site.area.reset();
    EXPECT_THAT(ids(), ElementsAre("acre-not-known"));
    site.area = measure::Area::of("1", units::acre);
    SiteHistory before;
    before.untold = {{4, measure::parse_date("2026-05-01"), {}}};
    EXPECT_THAT(ids(before), ElementsAre("acre-not-known"));
    EXPECT_THAT(findings(before).front().text, HasSubstr("application 4"));
    before.untold = {{4, measure::parse_date("2026-05-01"), {"dinotefuran"}}};
    EXPECT_THAT(findings(before), IsEmpty());
}

TEST(SiteHistory, FollowsWhatWasDone) {
    ApplicationRecord record = test::full_record();
    record.id = 3;
    record.trees.front().tree = 7;
    SiteHistory history;
    add_application(history, record);
    ASSERT_EQ(history.spent.size(), 1U);
    EXPECT_EQ(history.spent.front().active_ingredient, "dinotefuran");
    EXPECT_EQ(history.spent.front().mass, measure::Mass::of("70.5", units::gram));
    LabelCard card = test::card_of(test::sprayed_liquid);
    EXPECT_THAT(days_on_tree(history, 7, card), IsEmpty());
    card.other_actives = {{"dinotefuran", card.strength}};
    EXPECT_THAT(days_on_tree(history, 7, card), ElementsAre(record.work_date));
    // A product of two active ingredients is one application.
    history.on_trees.push_back({7, card.active_ingredient, record.work_date});
    EXPECT_THAT(days_on_tree(history, 7, card), ElementsAre(record.work_date));
    history.on_trees.pop_back();
    EXPECT_EQ(untold_words(history, "dinotefuran", std::chrono::year{2026}), "");

    record.actives.front().mass.reset();
    add_application(history, record);
    EXPECT_THAT(untold_words(history, "dinotefuran", std::chrono::year{2026}),
                HasSubstr("application 3"));
    EXPECT_EQ(untold_words(history, "dinotefuran", std::chrono::year{2025}), "");
    EXPECT_EQ(untold_words(history, "imidacloprid", std::chrono::year{2026}), "");
}

TEST_F(DoneFindings, WarnOfATotalBelowTheLabel) {
    record.trees.front().product.reset();
    record.total_product = ounces("5.6");  // 0.4 fl oz times 14
    EXPECT_THAT(findings(), IsEmpty());
    record.total_product = ounces("5.5");
    EXPECT_THAT(ids(), ElementsAre("below-label"));
}

// The label asks for 8.3 fl oz of mix for each inch, 116.2 in all, with up to 7 of product in it.
TEST_F(DoneFindings, StopAMixThatIsStrongerThanTheLabel) {
    record.mixed = ounces("100");
    EXPECT_THAT(findings(), IsEmpty());
    record.mixed = ounces("90");
    EXPECT_THAT(ids(), ElementsAre("mix-above-label"));
    record.mixed.reset();
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(DoneFindings, StopARateAboveTheLabel) {
    record.rate = LabelledRate{"0.5 fl oz", "inch DBH"};
    EXPECT_THAT(findings(), IsEmpty());
    record.rate = LabelledRate{"9/14 fl oz", "inch DBH"};
    EXPECT_THAT(ids(), ElementsAre("rate-above-label"));
}

TEST_F(DoneFindings, WarnOfALicenseThatHadEnded) {
    record.applicator.license_expires = record.work_date;
    EXPECT_THAT(findings(), IsEmpty());
    record.applicator.license_expires = measure::add_days(record.work_date, -1);
    EXPECT_THAT(ids(), ElementsAre("license-ended"));
}

TEST_F(DoneFindings, WarnOfAnotherMethodAndStopAnotherCropOrPestThanTheLabelNames) {
    record.method = "trunk injection";
    EXPECT_THAT(ids(), ElementsAre("not-as-the-card"));
    EXPECT_FALSE(any_stop(findings()));
    record.method = "Basal trunk spray, hand sprayer";
    record.crop = "apple";
    EXPECT_THAT(ids(), ElementsAre("not-as-the-card"));
    EXPECT_TRUE(any_stop(findings()));
    record.crop = "Green ash";
    record.target_pest = "aphids";
    EXPECT_THAT(ids(), ElementsAre("not-as-the-card"));
    EXPECT_TRUE(any_stop(findings()));
    card.from_label->other_pests_allowed = true;
    EXPECT_FALSE(any_stop(findings()));
    record.target_pest = "Emerald Ash Borer";
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(DoneFindings, HoldATreeWithoutADbhAgainstTheLabelByThatOfTheBook) {
    record.trees.front().dbh.reset();
    record.trees.front().product = ounces("7.01");
    record.total_product = ounces("7.01");
    EXPECT_THAT(ids(), ElementsAre("no-dbh"));
    const auto found = findings_about_done(record, card, {}, site, {{7, inches("14")}});
    EXPECT_THAT(found, ElementsAre(Field(&Finding::id, "above-label")));
}

TEST_F(DoneFindings, AskAboutADbhThatIsUnlikeThatOfTheBook) {
    const auto with = [&](const char* measured) {
        return findings_about_done(record, card, {}, site, {{7, inches(measured)}});
    };
    EXPECT_THAT(with("14"), IsEmpty());
    EXPECT_THAT(with("12.8"), IsEmpty());
    const auto found = with("12.7");  // 14 is more than a tenth above
    ASSERT_THAT(found, ElementsAre(Field(&Finding::id, "dbh-unlike-the-book")));
    EXPECT_THAT(found.front().text, HasSubstr("12.7 in"));
    EXPECT_THAT(with("15.5"), IsEmpty());
    EXPECT_THAT(with("15.6"), ElementsAre(Field(&Finding::id, "dbh-unlike-the-book")));
}

TEST_F(DoneFindings, HoldTreesThatAreNotListedAgainstTheLabelByTheSumOfTheirDbh) {
    record.trees.clear();
    record.mixed.reset();
    record.number_of_trees = 3;
    record.dbh_sum = inches("42");
    record.total_product = ounces("21");  // 0.5 fl oz times 42
    EXPECT_THAT(ids(), ElementsAre("trees-not-listed"));
    record.total_product = ounces("21.1");
    EXPECT_THAT(ids(), ElementsAre("trees-not-listed", "above-label"));
    EXPECT_TRUE(any_stop(findings()));
}

TEST_F(DoneFindings, AskWhatBecameOfProductThatNoTreeGot) {
    record.total_product = ounces("6.5");
    EXPECT_THAT(ids(), ElementsAre("more-than-on-the-trees"));
    record.total_product = ounces("7.1");  // more than the label allows for the tree
    EXPECT_THAT(ids(), ElementsAre("more-than-on-the-trees", "above-label"));
}

TEST_F(DoneFindings, WarnOfBloomWhereTheLabelForbidsIt) {
    card.conditions.not_in_bloom = true;
    for (const char* none : {"", "nothing near", "none", "No"}) {
        record.bloom_state = none;
        EXPECT_THAT(findings(), IsEmpty()) << none;
    }
    record.bloom_state = "clover in the lawn";
    EXPECT_THAT(ids(), ElementsAre("in-bloom"));
}

}  // namespace
}  // namespace ashtriage::treat
