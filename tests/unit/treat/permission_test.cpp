// What the label forbids stops, what it is silent about warns: the reactions as the federal rules
// set them (FIFRA 2(ee), 7 U.S.C. 136(ee), restated: University of Florida 2006; Washington WAC
// 16-228-1225).
#include "treat/permission.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "card_text.hpp"
#include "measure/date.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

using measure::Length;
using measure::parse_date;
using measure::Volume;
using test::card_of;
using test::changed;
namespace units = measure::units;

using Reactions = std::vector<std::pair<std::string, Severity>>;

class Reaction : public testing::Test {
 protected:
    Reactions reactions() const {
        const LabelCard read = card_of(card);
        const Dose dose = dose_for(read, Length::of("10", units::inch));
        Reactions found;
        for (const Finding& finding : findings_about(read, dose, use)) {
            EXPECT_FALSE(finding.text.empty());
            found.emplace_back(finding.id, finding.severity);
        }
        return found;
    }
    static Reactions stop(const std::string& id) { return {{id, Severity::stop}}; }
    static Reactions warning(const std::string& id) { return {{id, Severity::warning}}; }
    static Amount ounces(std::string_view number) {
        return Volume::of(number, units::us_fluid_ounce);
    }

    std::string card = test::sprayed_liquid;
    IntendedUse use{parse_date("2026-05-20"), {}, {}, {}, {}, {}, true, false, {}};
};

TEST_F(Reaction, IsNoneWhereTheLabelAllowsEverything) {
    use.product = ounces("4.3");
    use.site = "Ornamental trees";
    use.pest = "bark beetles";
    EXPECT_EQ(reactions(), Reactions{});
}

// The label runs from 4.0 to 5.0 fl oz for a 10 in tree; both ends are allowed.
TEST_F(Reaction, ToAnAmountAboveTheLabelIsToStopAndBelowItToWarn) {
    use.product = ounces("5");
    EXPECT_EQ(reactions(), Reactions{});
    use.product = Volume::from_ticks(volume_of(ounces("5")).ticks() + 1);
    EXPECT_EQ(reactions(), stop("above-label"));
    use.product = ounces("4");
    EXPECT_EQ(reactions(), Reactions{});
    // A hundredth is what rounding to a mark may take from it.
    use.product = ounces("3.96");
    EXPECT_EQ(reactions(), Reactions{});
    use.product = Volume::from_ticks(volume_of(ounces("3.96")).ticks() - 1);
    EXPECT_EQ(reactions(), warning("below-label"));
    use.product = measure::Mass::of("100", units::gram);
    EXPECT_EQ(reactions(), stop("amount-of-another-kind"));
}

TEST_F(Reaction, ToASiteThatIsNotOnTheLabelIsToStop) {
    use.site = "vegetable garden";
    EXPECT_EQ(reactions(), stop("site-not-on-label"));
    use.site.clear();
    card = changed(card, "sites_cover_ash: yes", "sites_cover_ash: no");
    EXPECT_EQ(reactions(), stop("site-not-on-label"));
}

TEST_F(Reaction, ToAPestThatIsNotOnTheLabelIsToStopUnlessTheCardSaysThatOthersAreAllowed) {
    use.pest = "ash sawfly";
    EXPECT_EQ(reactions(), stop("pest-not-on-label"));
    card = changed(card, "  pests_cover_borer: yes\n",
                   "  pests_cover_borer: yes\n  other_pests_allowed: yes\n");
    EXPECT_EQ(reactions(), warning("pest-not-on-label"));
    use.pest.clear();
    card = changed(card, "pests_cover_borer: yes", "pests_cover_borer: no");
    EXPECT_EQ(reactions(), warning("pest-not-on-label"));
}

TEST_F(Reaction, ToOneApplicationTooManyInAYearIsToStop) {
    use.others = {parse_date("2026-01-02")};
    EXPECT_EQ(reactions(), stop("too-often"));
    use.others = {parse_date("2025-12-31")};
    EXPECT_EQ(reactions(), Reactions{});
}

TEST_F(Reaction, ToAnApplicationBeforeTheIntervalIsOverIsToStop) {
    card = changed(card, "limits: {applications_per_year: 1", "limits: {again_after_months: 12");
    use.others = {parse_date("2025-05-21"), parse_date("2023-05-20")};
    EXPECT_EQ(reactions(), stop("too-soon"));
    use.others = {parse_date("2025-05-20")};
    EXPECT_EQ(reactions(), Reactions{});
    card = changed(card, "again_after_months: 12", "again_after_months: 12, again_after_days: 366");
    EXPECT_EQ(reactions(), stop("too-soon"));
}

// Records come in any order: one that is entered late stops by what was done after it.
TEST_F(Reaction, ToALaterApplicationBeforeTheIntervalIsOverIsToStop) {
    card = changed(card, "limits: {applications_per_year: 1", "limits: {again_after_months: 12");
    use.others = {parse_date("2027-05-19"), parse_date("2029-05-20")};
    EXPECT_EQ(reactions(), stop("too-soon"));
    use.others = {parse_date("2027-05-20")};
    EXPECT_EQ(reactions(), Reactions{});
}

TEST(EarliestNext, IsTheSameDayMonthsLaterOrTheLastOfTheMonth) {
    Limits limits;
    EXPECT_EQ(earliest_next(limits, parse_date("2024-02-29")), std::nullopt);
    limits.again_after_months = 12;
    EXPECT_EQ(earliest_next(limits, parse_date("2024-02-29")), parse_date("2025-02-28"));
    limits.again_after_months = 1;
    EXPECT_EQ(earliest_next(limits, parse_date("2026-01-31")), parse_date("2026-02-28"));
    limits.again_after_days = 30;
    EXPECT_EQ(earliest_next(limits, parse_date("2026-01-31")), parse_date("2026-03-02"));
}

TEST_F(Reaction, ToAForbiddenMixtureIsToStopAndToAnyOtherToWarn) {
    card = changed(card, "cautions:", "never_mix_with: [fertilizer, other pesticides]\ncautions:");
    use.mixed_with = {"liquid Fertilizer"};
    EXPECT_EQ(reactions(), stop("forbidden-mixture"));
}

TEST_F(Reaction, ToAForbiddenMixtureDoesNotHangOnItsSpelling) {
    card = changed(card, "cautions:", "never_mix_with: [liquid fertilizers]\ncautions:");
    for (const char* other : {"Fertilisers", "fertiliser", "liquid  FERTILIZER"}) {
        use.mixed_with = {other};
        EXPECT_EQ(reactions(), stop("forbidden-mixture")) << other;
    }
    use.mixed_with = {"blue marker dye"};
    EXPECT_EQ(reactions(), warning("mixture-not-on-label"));
}

// An active ingredient does not say of itself that it is a pesticide.
TEST_F(Reaction, ToAMixtureThatMayBeForbiddenIsToStop) {
    card = changed(card, "cautions:", "never_mix_with: [other pesticides]\ncautions:");
    use.mixed_with = {"otherine"};
    EXPECT_EQ(reactions(), stop("mixture-may-be-forbidden"));
}

TEST_F(Reaction, ToWaterNearerThanTheLabelAllowsIsToStopAndToWaterAnywhereToWarn) {
    card = changed(card, "cautions:",
                   "buffers: [{from: open water, at_least: 25 ft, source: label}]\ncautions:");
    EXPECT_EQ(reactions(), warning("buffer"));
    use.distance_to_water = Length::of("25", units::foot);
    EXPECT_EQ(reactions(), Reactions{});
    use.distance_to_water = Length::from_ticks(use.distance_to_water->ticks() - 1);
    EXPECT_EQ(reactions(), stop("within-the-buffer"));
}

TEST_F(Reaction, ToABufferFromAnythingElseIsToWarn) {
    card = changed(card, "cautions:",
                   "buffers: [{from: a beehive, at_least: 25 ft, source: label}]\ncautions:");
    use.distance_to_water = Length::of("1", units::foot);
    EXPECT_EQ(reactions(), warning("buffer"));
}

TEST_F(Reaction, ToAFoodTreeIsToStopWhereTheLabelForbidsIt) {
    use.may_yield_food = true;
    EXPECT_EQ(reactions(), Reactions{});
    card = changed(card, "cautions:", "never_food_trees: yes\ncautions:");
    EXPECT_EQ(reactions(), stop("food-tree"));
}

TEST_F(Reaction, ToARestrictedProductHangsOnWhoAppliesIt) {
    card = changed(card, "restricted_use: no", "restricted_use: yes");
    EXPECT_EQ(reactions(), Reactions{});
    use.certified = false;
    EXPECT_EQ(reactions(), stop("restricted-use"));
    use.certified.reset();
    EXPECT_EQ(reactions(), warning("restricted-use"));
}

TEST_F(Reaction, ToASpecialLabelThatHasEndedIsToStop) {
    card = changed(card, "  checked_on:",
                   "  special_need: {jurisdiction: Anystate, reference: XX-000000, expires: "
                   "2026-05-20}\n  checked_on:");
    EXPECT_EQ(reactions(), Reactions{});
    use.on = parse_date("2026-05-21");
    EXPECT_EQ(reactions(), stop("label-expired"));
}

TEST_F(Reaction, ToADayOutsideTheSeasonOfTheLabelIsToStop) {
    card = changed(card, "cautions:",
                   "conditions: {season: {from: 04-15, to: 05-20}, source: label}\ncautions:");
    EXPECT_EQ(reactions(), Reactions{});
    use.on = parse_date("2026-05-21");
    EXPECT_EQ(reactions(), stop("out-of-label-season"));
    use.on = parse_date("2026-04-14");
    EXPECT_EQ(reactions(), stop("out-of-label-season"));
}

TEST(LabelSeason, MayRunOverTheEndOfTheYear) {
    const LabelSeason winter{{11, 1}, {2, 28}};
    EXPECT_TRUE(winter.contains({11, 1}));
    EXPECT_TRUE(winter.contains({1, 15}));
    EXPECT_TRUE(winter.contains({2, 28}));
    EXPECT_FALSE(winter.contains({3, 1}));
    EXPECT_FALSE(winter.contains({10, 31}));
}

// The card of the tests was checked on 1 March 2026.
TEST_F(Reaction, ToACardNotCheckedForAYearIsToWarn) {
    use.on = parse_date("2027-03-01");
    EXPECT_EQ(reactions(), Reactions{});
    use.on = parse_date("2027-03-02");
    EXPECT_EQ(reactions(), warning("card-not-checked"));
}

TEST_F(Reaction, ToAnExampleCardIsToStop) {
    card = test::injected_liquid;
    EXPECT_EQ(reactions(), stop("example-card"));
}

TEST_F(Reaction, CollectsAllThereIs) {
    use.site = "pond";
    use.pest = "mosquitoes";
    use.product = ounces("6");
    use.others = {parse_date("2026-05-01")};
    EXPECT_EQ(reactions(), (Reactions{{"site-not-on-label", Severity::stop},
                                      {"pest-not-on-label", Severity::stop},
                                      {"above-label", Severity::stop},
                                      {"too-often", Severity::stop}}));
}

}  // namespace
}  // namespace ashtriage::treat
