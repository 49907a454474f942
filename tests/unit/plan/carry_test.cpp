#include "plan/carry.hpp"

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
using treat::Amount;
using treat::parse_stated_volume;
namespace units = measure::units;

Amount millilitres(std::int64_t number) {
    return Volume::from_ticks(units::millilitre.ticks * number);
}

std::vector<std::pair<std::string, int>> counts(const std::vector<Containers>& containers) {
    std::vector<std::pair<std::string, int>> all;
    for (const Containers& each : containers) {
        all.emplace_back(treat::plain_text(treat::amount_of(each.size)), each.count);
    }
    return all;
}

TEST(ContainersFor, LeaveTheLeastAndOfThoseAreTheFewest) {
    const std::vector<treat::StatedAmount> sizes{parse_stated_volume("250 mL"),
                                                 parse_stated_volume("1 L")};
    using Counts = std::vector<std::pair<std::string, int>>;
    EXPECT_EQ(counts(containers_for(millilitres(1), sizes)), (Counts{{"250 mL", 1}}));
    EXPECT_EQ(counts(containers_for(millilitres(750), sizes)), (Counts{{"250 mL", 3}}));
    EXPECT_EQ(counts(containers_for(millilitres(751), sizes)), (Counts{{"1 L", 1}}));
    EXPECT_EQ(counts(containers_for(millilitres(1001), sizes)),
              (Counts{{"250 mL", 1}, {"1 L", 1}}));
    EXPECT_TRUE(containers_for(millilitres(0), sizes).empty());
    EXPECT_TRUE(containers_for(millilitres(5), {}).empty());
    EXPECT_THROW(containers_for(Amount(measure::Mass::of("1", units::gram)), sizes),
                 measure::InputError);
}

TEST(ContainersFor, AreTheBestOfAllWaysForRandomNeeds) {
    std::mt19937 random(20260523);
    for (int round = 0; round < 300; ++round) {
        const std::int64_t small = 1 + static_cast<std::int64_t>(random() % 7);
        const std::int64_t large = small + 1 + static_cast<std::int64_t>(random() % 9);
        const std::int64_t need = 1 + static_cast<std::int64_t>(random() % 60);
        std::pair<std::int64_t, std::int64_t> best{1'000, 1'000};  // total, count
        for (std::int64_t a = 0; a <= 61; ++a) {
            for (std::int64_t b = 0; b <= 61; ++b) {
                const std::int64_t total = a * small + b * large;
                if (total >= need) best = std::min(best, {total, a + b});
            }
        }
        std::int64_t total = 0;
        std::int64_t count = 0;
        for (const Containers& each : containers_for(
                 millilitres(need), {parse_stated_volume(std::to_string(small) + " mL"),
                                     parse_stated_volume(std::to_string(large) + " mL")})) {
            total += each.count * treat::volume_of(treat::amount_of(each.size)).ticks();
            count += each.count;
        }
        ASSERT_EQ(total, best.first * units::millilitre.ticks) << need;
        ASSERT_EQ(count, best.second) << need << " of " << small << " and " << large;
    }
}

TEST(ContainersFor, AWholeYearOfWorkTakesTheLargestFirst) {
    const auto many = containers_for(millilitres(10'000'000),
                                     {parse_stated_volume("3 mL"), parse_stated_volume("7 mL")});
    std::int64_t total = 0;
    for (const Containers& each : many) {
        total += each.count * treat::volume_of(treat::amount_of(each.size)).ticks();
    }
    EXPECT_GE(total, 10'000'000 * units::millilitre.ticks);
    EXPECT_LT(total, 10'000'010 * units::millilitre.ticks);
}

// Two trees of 10 in: 8 fl oz of product, a tenth more to carry, in quarts.
TEST(Carried, AddsUpTheTreesWithTheReserve) {
    treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    card.containers = {parse_stated_volume("1 qt")};
    const treat::Dose dose = treat::dose_for(card, Length::of("10", units::inch));
    const auto all = carried(card, {{"Quarry Lane", "Q1", dose}, {"Quarry Lane", "Q2", dose}}, {},
                             measure::Percent::of("10", units::percent));
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(treat::volume_of(all[0].planned), Volume::of("8", units::us_fluid_ounce));
    EXPECT_EQ(treat::volume_of(all[0].with_reserve), Volume::of("8.8", units::us_fluid_ounce));
    ASSERT_EQ(all[0].containers.size(), 1U);
    EXPECT_EQ(all[0].containers[0].count, 1);
    EXPECT_EQ(treat::volume_of(*all[0].left_in_containers),
              Volume::of("24", units::us_fluid_ounce));
    EXPECT_EQ(all[2].what, "water");
    EXPECT_TRUE(all[2].containers.empty());
}

// A large tree in many small tanks: the water of each is rounded up to a mark.
TEST(Carried, IsEnoughForTheTreesOneByOneAndForTheirTankLoads) {
    const treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    int more_for_loads = 0;
    for (int tenths = 200; tenths <= 300; tenths += 7) {
        const Length dbh = Length::from_ticks(units::inch.ticks * tenths / 10);
        const std::vector<DosedTree> trees{{"Quarry Lane", "Q1", treat::dose_for(card, dbh)}};
        const auto loads = tank_loads(card, trees, Volume::of("41", units::us_fluid_ounce));
        for (const Carried& each : carried(card, trees, loads, measure::Percent())) {
            const auto of_tree = treat::ticks_of(trees[0].dose.find(each.part)->measured);
            std::int64_t of_loads = 0;
            for (const TankLoad& load : loads) {
                for (const treat::MeasuredAmount& amount : load.amounts) {
                    if (amount.part == each.part) of_loads += treat::ticks_of(amount.measured);
                }
            }
            EXPECT_EQ(treat::ticks_of(each.with_reserve), std::max(of_tree, of_loads));
            more_for_loads += of_loads > of_tree ? 1 : 0;
        }
    }
    EXPECT_GT(more_for_loads, 0);
}

}  // namespace
}  // namespace ashtriage::plan
