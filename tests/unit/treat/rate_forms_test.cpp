// Doses by every basis a label may count by.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "card_text.hpp"
#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "treat/dose.hpp"

namespace ashtriage::treat {
namespace {

using measure::Area;
using measure::Length;
using measure::Mass;
using measure::Volume;
using test::card_of;
using test::changed;
namespace units = measure::units;

Length inches(std::string_view number) {
    return Length::of(number, units::inch);
}

Amount product_of(const Dose& dose) {
    const MeasuredAmount* product = dose.find(Part::product);
    EXPECT_NE(product, nullptr);
    return product == nullptr ? Amount(Volume()) : product->measured;
}

bool finds(const Dose& dose, std::string_view id) {
    return std::ranges::any_of(dose.findings,
                               [&](const Finding& finding) { return finding.id == id; });
}

// A girth of 31.4159 in is a DBH of 10 in: an amount by girth is 3.14 times one by DBH, and the
// millilitre is rounded down.
TEST(RateByGirth, CountsTheGirthAndNeverTheDbh) {
    const LabelCard card = card_of(changed(test::injected_liquid, "{per: cm_dbh, usual: 1 mL",
                                           "{per: inch_girth, usual: 1 mL"));
    EXPECT_EQ(product_of(dose_for(card, inches("10"))),
              Amount(Volume::of("31", units::millilitre)));
    const LabelCard metric = card_of(
        changed(test::injected_liquid, "{per: cm_dbh, usual: 1 mL", "{per: cm_girth, usual: 1 mL"));
    EXPECT_EQ(product_of(dose_for(metric, Length::of("10", units::centimetre))),
              Amount(Volume::of("31", units::millilitre)));
}

TEST(RateByTree, IsTheSameForEverySize) {
    const LabelCard card = card_of(
        changed(test::injected_liquid, "{per: cm_dbh, usual: 1 mL", "{per: tree, usual: 12 mL"));
    EXPECT_EQ(product_of(dose_for(card, inches("5"))), Amount(Volume::of("12", units::millilitre)));
    EXPECT_EQ(product_of(dose_for(card, inches("25"))),
              Amount(Volume::of("12", units::millilitre)));
}

class RateByClass : public testing::Test {
 protected:
    const LabelCard card = card_of(changed(
        test::injected_liquid, "{per: cm_dbh, usual: 1 mL",
        "{per: tree, classes: [{to: 10 in, low: 10 mL, usual: 20 mL, high: 30 mL}, {to: 20 in, "
        "usual: 50 mL}]"));
};

TEST_F(RateByClass, TakesTheLineInWhichTheDbhLiesItsEndIncluded) {
    EXPECT_EQ(product_of(dose_for(card, inches("10"))),
              Amount(Volume::of("20", units::millilitre)));
    EXPECT_EQ(product_of(dose_for(card, inches("10.01"))),
              Amount(Volume::of("50", units::millilitre)));
    EXPECT_EQ(product_of(dose_for(card, inches("9"), RateLevel::high)),
              Amount(Volume::of("30", units::millilitre)));
}

TEST_F(RateByClass, StopsAboveTheEndOfTheTable) {
    const Dose dose = dose_for(card, inches("20.01"));
    EXPECT_TRUE(finds(dose, "dbh-beyond-table"));
    EXPECT_TRUE(dose.stopped());
    EXPECT_TRUE(dose.amounts.empty());
}

TEST(RateByArea, NeedsTheAreaAndStopsWithoutIt) {
    const LabelCard card = card_of(changed(test::injected_liquid, "{per: cm_dbh, usual: 1 mL",
                                           "{per: treated_area, each: 1000 sq ft, usual: 60 mL"));
    EXPECT_TRUE(finds(dose_for(card, inches("10")), "area-missing"));
    const DoseTask task{{inches("10")}, RateLevel::usual, Area::of("500", units::square_foot)};
    EXPECT_EQ(product_of(dose_for(card, task)), Amount(Volume::of("30", units::millilitre)));
}

// Bark 10 in thick and 5 ft high is pi x 10/12 x 5 = 13.09 sq ft, by arithmetic. At a gallon for
// each 100 sq ft that takes 16.75 fl oz of mix, and at 64 mL in each gallon 8.38 mL of product.
TEST(RateByFinishedMix, FollowsTheBarkThatTheMixWets) {
    std::string text = changed(test::sprayed_liquid,
                               "{per: inch_dbh, low: 0.4 fl oz, usual: 0.43 fl oz, high: 0.5 fl oz",
                               "{per: finished_mix, each: 1 gal, usual: 64 mL");
    text = changed(text, "finished: 8.3 fl oz, per: inch_dbh",
                   "finished: 1 gal, per: bark_area, each: 100 sq ft");
    text = changed(text, "amount: 0.65 mL, per: inch_dbh", "share: 0.25 %");
    text = changed(text, "product: 0.5 fl oz", "product: 1 mL");
    const Dose dose = dose_for(card_of(text), inches("10"));
    ASSERT_TRUE(dose.bark);
    EXPECT_EQ(dose.bark->text(units::square_foot, 2), "13.09");
    EXPECT_EQ(dose.find(Part::product)->text, "8 millilitres");
    EXPECT_NEAR(volume_of(dose.find(Part::product)->exact).in(units::millilitre), 8.378, 0.001);
    EXPECT_NEAR(dose.finished->in(units::us_fluid_ounce), 16.75, 1.0);
}

// A quarter of one percent of the whole is as much as 0.25 / 99.75 of the rest.
TEST(Surfactant, AsAShareOfAMixWhoseCarrierIsStated) {
    std::string text = changed(test::sprayed_liquid, "finished: 8.3 fl oz, per: inch_dbh",
                               "carrier_amount: 10 fl oz, per: inch_dbh");
    text = changed(text, "amount: 0.65 mL, per: inch_dbh", "share: 0.25 %");
    const Dose dose = dose_for(card_of(text), inches("10"));
    const double others = 100.0 + 4.0;  // water, and 4.3 fl oz of product held at 4.0
    EXPECT_NEAR(volume_of(dose.find(Part::surfactant)->exact).in(units::us_fluid_ounce),
                others * 0.25 / 99.75, 1e-6);
    EXPECT_EQ(dose.find(Part::carrier)->text, "100 US fluid ounces");
}

TEST(OtherActiveIngredients, AreReckonedBesideTheFirst) {
    const LabelCard card = card_of(changed(test::injected_liquid, "rate: {",
                                           "other_active_ingredients: [{name: secondine, active: "
                                           "10 g, per: 1 L, source: test-source}]\n"
                                           "rate: {"));
    const Dose dose = dose_for(card, Length::of("20", units::centimetre));
    EXPECT_EQ(dose.active, Mass::of("0.8", units::gram));
    ASSERT_EQ(dose.other_actives.size(), 1U);
    EXPECT_EQ(dose.other_actives[0].name, "secondine");
    EXPECT_EQ(dose.other_actives[0].mass, Mass::of("0.2", units::gram));
}

TEST(BasisOf, RefusesASizeWhereNoneBelongsAndNoneWhereOneIsNeeded) {
    EXPECT_THROW(basis_of(Per::bark_area), measure::InputError);
    EXPECT_THROW(basis_of(Per::tree, "1 gal"), measure::InputError);
    EXPECT_THROW(basis_of(Per::finished_mix, "1 sq ft"), measure::InputError);
    EXPECT_THROW(basis_of(Per::treated_area, "0 sq ft"), measure::InputError);
    EXPECT_EQ(basis_of(Per::treated_area, "1000 sq ft").ticks, 1000 * units::square_foot.ticks);
}

}  // namespace
}  // namespace ashtriage::treat
