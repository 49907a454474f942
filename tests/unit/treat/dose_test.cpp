#include "treat/dose.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "card_text.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using measure::Length;
using measure::Mass;
using measure::Volume;
using test::card_of;
using test::changed;
namespace units = measure::units;

Length inches(std::string_view number) {
    return Length::of(number, units::inch);
}
Volume ounces(std::string_view number) {
    return Volume::of(number, units::us_fluid_ounce);
}

const Finding* finding(const Dose& dose, std::string_view id) {
    const auto found = std::find_if(dose.findings.begin(), dose.findings.end(),
                                    [&](const Finding& each) { return each.id == id; });
    return found == dose.findings.end() ? nullptr : &*found;
}

MATCHER_P2(Finds, id, severity, "") {
    const Finding* found = finding(arg, id);
    return found != nullptr && found->severity == severity;
}

TEST(Dose, MultipliesTheRateByTheDiameterExactly) {
    const Dose dose = dose_for(card_of(test::sprayed_liquid), inches("10"));
    const MeasuredAmount* product = dose.find(Part::product);
    ASSERT_NE(product, nullptr);
    // 4.3 fl oz are no whole number of ticks: down.
    EXPECT_EQ(product->exact, Amount(ounces("1").scaled(43, 10, measure::Rounding::down)));
    EXPECT_EQ(product->measured, Amount(ounces("4.0")));
    EXPECT_EQ(product->text, "4.0 US fluid ounces");
    EXPECT_EQ(product->twin, "118.2 millilitres");  // 118.29...: down
}

TEST(Dose, UsesTheRateAskedFor) {
    const LabelCard card = card_of(test::sprayed_liquid);
    EXPECT_EQ(dose_for(card, inches("10"), RateLevel::low).find(Part::product)->exact,
              Amount(ounces("4")));
    EXPECT_EQ(dose_for(card, inches("10"), RateLevel::high).find(Part::product)->exact,
              Amount(ounces("5")));
}

TEST(Dose, CountsACentimetreRateInCentimetres) {
    const Dose dose =
        dose_for(card_of(test::injected_liquid), Length::of("40.5", units::centimetre));
    EXPECT_EQ(dose.find(Part::product)->exact, Amount(Volume::of("40.5", units::millilitre)));
    EXPECT_EQ(dose.find(Part::product)->text, "40 millilitres");
    EXPECT_EQ(dose.find(Part::product)->twin, "1.35 US fluid ounces");  // 1.3525...
}

// Over the whole range of the card, in tenths of an inch.
TEST(Dose, NeverMeasuresMoreThanTheLabelAllowsNorAStrongerMix) {
    const LabelCard card = card_of(test::sprayed_liquid);
    const Volume half_ounce = ounces("0.5");
    for (int tenths = 20; tenths <= 300; ++tenths) {
        const Length dbh = inches("0.1") * tenths;
        const Dose dose = dose_for(card, dbh, RateLevel::high);
        const Volume measured = volume_of(dose.find(Part::product)->measured);
        // 0.5 fl oz per inch is 1 fl oz for 20 tenths of an inch, so whole ounces need no rounding.
        const Volume most = ounces("1").scaled(tenths, 20, measure::Rounding::down);
        ASSERT_LE(measured, most) << tenths;
        ASSERT_GT(measured + half_ounce, most) << tenths;
        ASSERT_EQ(measured, ounces("1").scaled(tenths / 10, 2, measure::Rounding::down)) << tenths;
        // Share of product in the tank against the card's 0.5 in 8.3.
        ASSERT_LE(measured / *dose.finished, 0.5 / 8.3) << tenths;
        ASSERT_LE(volume_of(dose.find(Part::surfactant)->measured),
                  Volume::of("0.065", units::millilitre) * tenths)
            << tenths;
    }
}

TEST(Dose, BelongsToTheCardUpToAndIncludingBothEndsOfItsRange) {
    const LabelCard card = card_of(test::sprayed_liquid);
    EXPECT_FALSE(dose_for(card, inches("2")).stopped());
    EXPECT_FALSE(dose_for(card, inches("30")).stopped());
    const Dose below = dose_for(card, inches("1.99"));
    EXPECT_THAT(below, Finds("dbh-below-label", Severity::stop));
    EXPECT_TRUE(below.amounts.empty());
    EXPECT_TRUE(below.stopped());
    EXPECT_THAT(dose_for(card, inches("30.01")), Finds("dbh-above-label", Severity::stop));
}

TEST(Dose, TellsADiameterFromTheLimitThatItIsJustBeyond) {
    const LabelCard card = card_of(test::sprayed_liquid);
    const Dose dose = dose_for(card, inches("30.01"));
    EXPECT_THAT(dose.findings.back().text, testing::HasSubstr("30.01 inches"));
    EXPECT_THAT(dose.findings.back().text, testing::HasSubstr("30.00 inches"));
    EXPECT_THAT(dose.findings.back().text, testing::HasSubstr("Measure again"));
}

TEST(Dose, StopsWithoutADiameter) {
    const LabelCard card = card_of(test::sprayed_liquid);
    EXPECT_THAT(dose_for(card, DoseTask{}), Finds("dbh-missing", Severity::stop));
    EXPECT_THAT(dose_for(card, Length()), Finds("dbh-missing", Severity::stop));
    EXPECT_THAT(dose_for(card, {{inches("10"), Length()}, RateLevel::usual, {}}),
                Finds("dbh-missing", Severity::stop));
}

TEST(Dose, IsHeldAtTheLabelsMaximumForOneTree) {
    const LabelCard card = card_of(test::dry_drench);
    const Dose at = dose_for(card, inches("15"));
    EXPECT_EQ(at.find(Part::product)->text, "30 grams");
    EXPECT_EQ(finding(at, "held-at-maximum"), nullptr);
    const Dose above = dose_for(card, inches("15.5"));
    EXPECT_EQ(above.find(Part::product)->text, "30 grams");
    EXPECT_THAT(above, Finds("held-at-maximum", Severity::warning));
    EXPECT_THAT(above, Finds("below-label", Severity::warning));
}

TEST(Dose, WarnsWhenRoundingFallsBelowTheLowestRate) {
    const LabelCard card = card_of(test::sprayed_liquid);
    // 10 in at the lowest rate is 4.0 fl oz, a whole number of half ounces.
    EXPECT_EQ(finding(dose_for(card, inches("10"), RateLevel::low), "below-label"), nullptr);
    // 11 in at the lowest rate is 4.4 fl oz; 4.0 are measured.
    EXPECT_THAT(dose_for(card, inches("11"), RateLevel::low),
                Finds("below-label", Severity::warning));
}

// Where a label gives one rate only, the mark below it is as near as a measure comes.
TEST(Dose, OnlyNotesThatTheMarkIsHardlyBelowTheOneRateThereIs) {
    const LabelCard card = card_of(changed(test::dry_drench, "usual: 2 g", "usual: 2.02 g"));
    const Dose dose = dose_for(card, inches("5"));  // 10.1 g
    EXPECT_EQ(dose.find(Part::product)->text, "10 grams");
    EXPECT_EQ(finding(dose, "below-label"), nullptr);
    EXPECT_THAT(dose, Finds("rounded-to-the-mark", Severity::note));
    // 3.03 g: 3 are 99.01 in a hundred of it; 9.696 g: 9 are not.
    EXPECT_THAT(dose_for(card, inches("1.5")), Finds("rounded-to-the-mark", Severity::note));
    EXPECT_THAT(dose_for(card, inches("4.8")), Finds("below-label", Severity::warning));
}

TEST(Dose, StopsWhenTheDeviceCannotShowIt) {
    const LabelCard card =
        card_of(changed(test::sprayed_liquid, "product: 0.5 fl oz", "product: 1 pt"));
    const Dose dose = dose_for(card, inches("10"));
    EXPECT_THAT(dose, Finds("device-too-coarse", Severity::stop));
    EXPECT_TRUE(dose.amounts.empty());
}

TEST(Dose, OfAnExampleCardAlwaysSaysSo) {
    const Dose dose = dose_for(card_of(test::injected_liquid), inches("10"));
    ASSERT_THAT(dose, Finds("example-card", Severity::warning));
    EXPECT_THAT(finding(dose, "example-card")->text, testing::StartsWith("EXAMPLE"));
    EXPECT_FALSE(dose.stopped());
    EXPECT_EQ(finding(dose_for(card_of(test::sprayed_liquid), inches("10")), "example-card"),
              nullptr);
}

// Sums and roots of 10 and 10, 14, 9 and 5 inches: 20, 14.1; 28.
TEST(Dose, GoesByTheSumOfTheStemsUnlessTheCardSaysOtherwise) {
    const LabelCard card = card_of(test::sprayed_liquid);
    const Dose summed =
        dose_for(card, {{inches("14"), inches("9"), inches("5")}, RateLevel::usual, {}});
    EXPECT_EQ(summed.dbh, inches("28"));
    EXPECT_THAT(summed, Finds("several-stems", Severity::note));
    const LabelCard largest = card_of(test::sprayed_liquid + "several_stems: largest\n");
    EXPECT_EQ(
        dose_for(largest, {{inches("14"), inches("9"), inches("5")}, RateLevel::usual, {}}).dbh,
        inches("14"));
    const LabelCard root =
        card_of(test::sprayed_liquid + "several_stems: root_of_sum_of_squares\n");
    EXPECT_EQ(dose_for(root, {{inches("10"), inches("10")}, RateLevel::usual, {}})
                  .dbh->text(units::inch, 1),
              "14.1");
    EXPECT_EQ(finding(dose_for(card, inches("14")), "several-stems"), nullptr);
}

// Girth of 40 cm DBH: 125.66 cm, so 13 holes 10 cm apart; of 10 cm: 31.4 cm, so 4.
TEST(Dose, CountsHolesOnEveryStem) {
    const LabelCard card = card_of(test::injected_liquid);
    const Length large = Length::of("40", units::centimetre);
    const Length small = Length::of("10", units::centimetre);
    EXPECT_EQ(dose_for(card, large).holes, 13);
    EXPECT_EQ(dose_for(card, {{large, small}, RateLevel::usual, {}}).holes, 17);
    const Dose dose = dose_for(card, large);
    const Volume shared = volume_of(*dose.product_per_hole) * 13;
    EXPECT_LE(shared, volume_of(dose.find(Part::product)->measured));
    EXPECT_GT(shared + Volume::from_ticks(13), volume_of(dose.find(Part::product)->measured));
}

TEST(Dose, WetsTheBarkOfEveryStemUpToTheHeightOfTheCard) {
    const Dose dose = dose_for(card_of(test::sprayed_liquid),
                               {{inches("12"), inches("6")}, RateLevel::usual, {}});
    ASSERT_TRUE(dose.bark);
    // pi x 1.5 ft x 5 ft in all.
    EXPECT_NEAR(dose.bark->in(units::square_foot), std::numbers::pi * 1.5 * 5.0, 1e-3);
    EXPECT_THAT(dose, Finds("bark-is-approximate", Severity::note));
}

TEST(Dose, TakesASurfactantAsAShareOfTheFinishedVolume) {
    const LabelCard card = card_of(changed(
        test::sprayed_liquid, "amount: 0.65 mL, per: inch_dbh, source", "share: 0.5 %, source"));
    const Dose dose = dose_for(card, inches("10"));
    // 0.5 % of 83 fl oz is 0.415 fl oz, 12.27 mL.
    EXPECT_EQ(dose.find(Part::surfactant)->exact, Amount(ounces("0.415")));
    EXPECT_EQ(dose.find(Part::surfactant)->text, "12 millilitres");
}

TEST(Dose, SaysWhenASurfactantIsTooLittleToMeasure) {
    const LabelCard card =
        card_of(changed(test::sprayed_liquid, "amount: 0.65 mL", "amount: 0.01 mL"));
    EXPECT_THAT(dose_for(card, inches("10")),
                Finds("surfactant-too-little-to-measure", Severity::warning));
}

TEST(Dose, FillsADryProductUpToTheFinishedVolume) {
    const Dose dose = dose_for(card_of(test::dry_drench), inches("8"));
    EXPECT_EQ(dose.find(Part::product)->text, "16 grams");
    EXPECT_EQ(dose.find(Part::carrier)->text, "128 US fluid ounces");  // 8 pints
    EXPECT_EQ(dose.finished, Volume::of("1", units::us_gallon));
    EXPECT_EQ(dose.active, Mass::of("12", units::gram));
    EXPECT_THAT(dose, Finds("bulk-left-out", Severity::note));
}

// 5.5 fl oz are no whole number of ticks; what is lost of one must not ask for another half ounce.
TEST(Dose, LeavesExactlyTheRestForTheCarrier) {
    LabelCard card = card_of(test::sprayed_liquid);
    card.surfactant.reset();
    card.mix->volume = parse_stated_volume("8 fl oz");
    card.measure_with.carrier = parse_stated_volume("0.5 fl oz");
    const Dose dose = dose_for(card, inches("11"), RateLevel::high);
    EXPECT_EQ(dose.find(Part::product)->text, "5.5 US fluid ounces");
    EXPECT_EQ(dose.find(Part::carrier)->text, "82.5 US fluid ounces");
}

TEST(Dose, OfAnUndilutedProductHasNoCarrier) {
    const Dose dose = dose_for(card_of(test::injected_liquid), Length::of("30", units::centimetre));
    EXPECT_EQ(dose.amounts.size(), 1U);
    EXPECT_EQ(dose.finished, Volume::of("30", units::millilitre));
    EXPECT_EQ(dose.active, Mass::of("1.2", units::gram));
    EXPECT_FALSE(dose.bark);
}

TEST(Dose, IsStoppedWhereTheMixHasNoRoomForWater) {
    LabelCard card = card_of(test::sprayed_liquid);
    card.mix->volume = parse_stated_volume("0.4 fl oz");
    const Dose dose = dose_for(card, inches("10"));
    EXPECT_THAT(dose, Finds("mix-too-small", Severity::stop));
    EXPECT_TRUE(dose.amounts.empty());
}

TEST(ActiveIn, RefusesAWeightOfALiquid) {
    const LabelCard card = card_of(test::injected_liquid);
    EXPECT_THROW(active_in(card.strength, Mass::of("1", units::gram)), InputError);
}

// 1 lb = 453.59237 g.
TEST(ActiveText, GivesGramsAndPounds) {
    EXPECT_EQ(active_text(Mass::of("181.436948", units::gram)), "181.44 grams (0.4000 pounds)");
}

}  // namespace
}  // namespace ashtriage::treat
