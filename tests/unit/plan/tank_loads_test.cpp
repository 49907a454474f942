#include "plan/tank_loads.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "../treat/card_text.hpp"
#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::plan {
namespace {

using measure::Length;
using measure::Volume;
using treat::LabelCard;
using treat::Part;
namespace units = measure::units;

Volume gallons(std::string_view number) {
    return Volume::of(number, units::us_gallon);
}

std::vector<DosedTree> trees_of(const LabelCard& card, const std::vector<Length>& dbhs,
                                treat::RateLevel rate = treat::RateLevel::usual) {
    std::vector<DosedTree> trees;
    for (const Length& dbh : dbhs) {
        trees.push_back({"Quarry Lane", "Q" + std::to_string(trees.size() + 1),
                         treat::dose_for(card, dbh, rate)});
    }
    return trees;
}

Length inches(int number) {
    return Length::from_ticks(units::inch.ticks * number);
}

const treat::MeasuredAmount& part(const TankLoad& load, Part wanted) {
    return *std::ranges::find(load.amounts, wanted, &treat::MeasuredAmount::part);
}

class TankLoads : public testing::Test {
 protected:
    const LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
};

// 10 in take 83 fl oz of mix and 6 in take 50 (rounded up to the ounce): together more than the 128
// of a gallon, so each has a tank of its own; 4 in take 34 and fit beside 83.
TEST_F(TankLoads, HoldWholeTreesInTheirOrder) {
    const auto loads =
        tank_loads(card, trees_of(card, {inches(10), inches(6), inches(8)}), gallons("1"));
    ASSERT_EQ(loads.size(), 2U);
    ASSERT_EQ(loads[0].shares.size(), 1U);
    ASSERT_EQ(loads[1].shares.size(), 2U);
    EXPECT_EQ(loads[1].shares[0].tree, 1U);
    EXPECT_EQ(loads[1].shares[1].parts, 1);
}

// Rounded to a mark once more, the product of trees that are alike would come a mark short.
TEST_F(TankLoads, OfTreesThatAreAlikeHoldAsMuchAsTheyTakeOneByOne) {
    for (const int inches_of_dbh : {4, 5, 7, 9, 11}) {
        const auto trees = trees_of(card, std::vector<Length>(3, inches(inches_of_dbh)));
        const auto loads = tank_loads(card, trees, gallons("3"));
        ASSERT_EQ(loads.size(), 1U);
        for (const Part each : {Part::product, Part::surfactant}) {
            const treat::Amount& one = trees[0].dose.find(each)->measured;
            // Each is rounded to the tick.
            EXPECT_NEAR(static_cast<double>(treat::ticks_of(part(loads[0], each).measured)),
                        3.0 * static_cast<double>(treat::ticks_of(one)), 3.0)
                << inches_of_dbh;
        }
    }
}

TEST_F(TankLoads, OfOneTreeAreItsDose) {
    const auto trees = trees_of(card, {inches(10)});
    const auto loads = tank_loads(card, trees, gallons("1"));
    ASSERT_EQ(loads.size(), 1U);
    ASSERT_EQ(loads[0].amounts.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(loads[0].amounts[i].text, trees[0].dose.amounts[i].text);
    }
    EXPECT_EQ(loads[0].finished, *trees[0].dose.finished);
}

// 28 in take 232.4 fl oz: two parts, of 6 fl oz of product each.
TEST_F(TankLoads, DivideATreeThatTakesMoreThanATankIntoPartsOfOneStrength) {
    const auto trees = trees_of(card, {inches(28)});
    EXPECT_EQ(trees[0].dose.find(Part::product)->text, "12.0 US fluid ounces");
    const auto loads = tank_loads(card, trees, gallons("1"));
    ASSERT_EQ(loads.size(), 2U);
    EXPECT_EQ(part(loads[0], Part::product).text, "6.0 US fluid ounces");
    EXPECT_EQ(part(loads[1], Part::product).text, "6.0 US fluid ounces");
    EXPECT_EQ(loads[0].shares[0].parts, 2);
    EXPECT_EQ(loads[1].shares[0].part, 2);
    EXPECT_GE(loads[0].finished + loads[1].finished, *trees[0].dose.finished);
}

// Rounding up the water makes a little more than was asked for: left in the tank, it would take
// part of the product with it.
TEST_F(TankLoads, LeaveNothingInTheTank) {
    for (const int dbh : {5, 7, 13, 28, 29}) {
        for (const TankLoad& load : tank_loads(card, trees_of(card, {inches(dbh)}), gallons("1"))) {
            ASSERT_EQ(load.shares.size(), 1U);
            EXPECT_EQ(load.shares[0].finished, load.finished) << dbh;
        }
    }
}

// The same water for every tree and more product for the larger: one tank of both would give the
// larger the strength of the smaller.
TEST(TankLoadsOfSeveralStrengths, AreKeptApart) {
    const LabelCard by_tree = treat::test::card_of(
        treat::test::changed(treat::test::sprayed_liquid, "finished: 8.3 fl oz, per: inch_dbh",
                             "finished: 30 fl oz, per: tree"));
    const auto trees = trees_of(by_tree, {inches(4), inches(12), inches(12)});
    const auto loads = tank_loads(by_tree, trees, gallons("1"));
    ASSERT_EQ(loads.size(), 2U);
    EXPECT_EQ(loads[0].shares.size(), 1U);
    ASSERT_EQ(loads[1].shares.size(), 2U);
    // 0.43 fl oz an inch: 1.72 and 5.16 for each, at half ounces.
    EXPECT_EQ(part(loads[0], Part::product).text, "1.5 US fluid ounces");
    EXPECT_EQ(part(loads[1], Part::product).text, "10.0 US fluid ounces");
}

TEST_F(TankLoads, AreNoneForAProductAppliedAsItIs) {
    const LabelCard injected = treat::test::card_of(treat::test::injected_liquid);
    EXPECT_TRUE(tank_loads(injected, trees_of(injected, {inches(10)}), gallons("1")).empty());
}

TEST_F(TankLoads, RefuseATankOfNothingAndOneTooSmallToMeasureFor) {
    EXPECT_THROW(tank_loads(card, trees_of(card, {inches(10)}), Volume()), measure::InputError);
    EXPECT_THROW(
        tank_loads(card, trees_of(card, {inches(10)}), Volume::of("2", units::us_fluid_ounce)),
        measure::InputError);
}

long double number(const treat::Amount& amount) {
    return std::visit([](const auto& each) { return static_cast<long double>(each.ticks()); },
                      amount);
}

// On random days, by a card whose mix grows with the tree and by one whose mix does not: no load is
// fuller than the tank, every tree gets at least its mix, with the load's strength never more
// product or surfactant than the card asks for it, and less by no more than two marks: that of the
// strength that it shares, and that to which the load is rounded down.
struct MixOfADay {
    const char* mix;
    bool divides;  // whether a tree may take more than the smallest tank
};

class TankLoadsOfADay : public testing::TestWithParam<MixOfADay> {};

TEST_P(TankLoadsOfADay, GiveEveryTreeItsDoseAndNeverMore) {
    const LabelCard card = treat::test::card_of(treat::test::changed(
        treat::test::sprayed_liquid, "finished: 8.3 fl oz, per: inch_dbh", GetParam().mix));
    std::mt19937 random(20260522);
    int divided = 0;
    int shared = 0;
    for (int round = 0; round < 2000; ++round) {
        std::vector<Length> dbhs(1 + random() % 8);
        for (Length& dbh : dbhs) {
            dbh =
                Length::from_ticks(60'000'000 + static_cast<std::int64_t>(random() % 700'000'000));
        }
        const auto trees = trees_of(card, dbhs, static_cast<treat::RateLevel>(random() % 3));
        const Volume tank = Volume::from_ticks(units::us_fluid_ounce.ticks *
                                               static_cast<std::int64_t>(64 + random() % 448));
        std::vector<Volume> given(trees.size());
        std::vector<long double> product(trees.size());
        for (const TankLoad& load : tank_loads(card, trees, tank)) {
            ASSERT_LE(load.finished, tank);
            shared += load.shares.size() > 1 ? 1 : 0;
            for (const LoadShare& share : load.shares) {
                given[share.tree] += share.finished;
                product[share.tree] += number(part(load, Part::product).measured) *
                                       number(treat::Amount(share.finished)) /
                                       number(treat::Amount(load.finished));
                divided += share.parts > 1 ? 1 : 0;
                const treat::Dose& dose = trees[share.tree].dose;
                for (const Part each : {Part::product, Part::surfactant}) {
                    const long double strength =
                        number(part(load, each).measured) / number(treat::Amount(load.finished));
                    const long double asked =
                        number(dose.find(each)->exact) / number(treat::Amount(*dose.finished));
                    ASSERT_LE(strength, asked * (1.0L + 1e-12L)) << "round " << round;
                }
            }
        }
        for (std::size_t tree = 0; tree < trees.size(); ++tree) {
            ASSERT_GE(given[tree], *trees[tree].dose.finished) << "round " << round;
            const long double asked = number(trees[tree].dose.find(Part::product)->exact);
            const long double mark =
                number(treat::at_mark(1, card.measure_with.product)) * (1.0L + 1e-9L);
            ASSERT_GE(product[tree], asked - 2.0L * mark) << "round " << round;
        }
    }
    EXPECT_EQ(divided > 100, GetParam().divides);
    EXPECT_GT(shared, 100);
}

INSTANTIATE_TEST_SUITE_P(Each, TankLoadsOfADay,
                         testing::Values(MixOfADay{"finished: 8.3 fl oz, per: inch_dbh", true},
                                         MixOfADay{"finished: 60 fl oz, per: tree", false}));

}  // namespace
}  // namespace ashtriage::plan
