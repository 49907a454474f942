#include "treat/acre_limit.hpp"

#include <gtest/gtest.h>

#include "card_text.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

using measure::Area;
using measure::InputError;
using measure::Mass;
namespace units = measure::units;

const Area one_acre = Area::of("1", units::acre);

Mass grams(std::string_view number) {
    return Mass::of(number, units::gram);
}

TEST(WholeInchesAllowed, RoundsDownAtTheVeryEdge) {
    EXPECT_EQ(whole_inches_allowed(grams("10"), one_acre, Mass(), grams("2.5")), 4);
    EXPECT_EQ(whole_inches_allowed(grams("9.999999999"), one_acre, Mass(), grams("2.5")), 3);
}

TEST(WholeInchesAllowed, TakesOtherUsesOffFirstAndNeverFallsBelowNothing) {
    EXPECT_EQ(whole_inches_allowed(grams("10"), one_acre, grams("5"), grams("2.5")), 2);
    EXPECT_EQ(whole_inches_allowed(grams("10"), one_acre, grams("11"), grams("2.5")), 0);
}

TEST(WholeInchesAllowed, GoesByTheAreaOfTheSite) {
    EXPECT_EQ(whole_inches_allowed(grams("10"), Area::of("0.5", units::acre), Mass(), grams("2.5")),
              2);
}

TEST(WholeInchesAllowed, RefusesARateOfNothing) {
    EXPECT_THROW(whole_inches_allowed(grams("10"), one_acre, Mass(), Mass()), InputError);
}

// 2 g of a 75 % powder are 1.5 g active ingredient; 0.4 lb = 181.436948 g; 120.95... inches.
TEST(WholeInchesAllowed, ReadsLimitStrengthAndRateOffTheCard) {
    const LabelCard card = test::card_of(test::dry_drench);
    EXPECT_EQ(whole_inches_allowed(card, card.rates.classes.front().rate.usual, one_acre, Mass()),
              120);
}

// 1 mL per cm of a 40 g/L liquid is 0.04 g per cm, 0.1016 g per inch; 10 g reach for 98.4 inches.
TEST(WholeInchesAllowed, TurnsARatePerCentimetreIntoInches) {
    LabelCard card = test::card_of(test::injected_liquid);
    EXPECT_EQ(whole_inches_allowed(card, card.rates.classes.front().rate.usual, one_acre, Mass()),
              std::nullopt);
    card.limits.active_per_acre_per_year = grams("10");
    EXPECT_EQ(whole_inches_allowed(card, card.rates.classes.front().rate.usual, one_acre, Mass()),
              98);
}

TEST(WholeInchesAllowed, RefusesARateOfTheOtherKind) {
    const LabelCard card = test::card_of(test::dry_drench);
    EXPECT_THROW(whole_inches_allowed(card, parse_stated_volume("1 mL"), one_acre, Mass()),
                 InputError);
}

}  // namespace
}  // namespace ashtriage::treat
