#include "treat/amount.hpp"

#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using measure::Mass;
using measure::Rounding;
using measure::Volume;
namespace units = measure::units;

TEST(ParseStatedAmount, KeepsTheNumberExactlyAndTheUnitItIsIn) {
    const StatedVolume cup = parse_stated_volume("0.5 fl oz");
    EXPECT_EQ(cup.numerator * 2, cup.denominator);
    EXPECT_EQ(cup.unit.name, units::us_fluid_ounce.name);
    const StatedVolume fraction = parse_stated_volume(" 2 1/2 fl oz");
    EXPECT_EQ(fraction.numerator * 2, fraction.denominator * 5);
    EXPECT_EQ(parse_stated_mass("8.5 g").quantity(), Mass::of("8.5", units::gram));
}

TEST(ParseStatedAmount, RefusesABareOunceNoUnitZeroAndTheOtherKind) {
    for (const char* wrong : {"1 oz", "1", "0 mL", "-1 mL", "1 g", "", "mL", "010 mL", "1/0 mL"}) {
        EXPECT_THROW(parse_stated_volume(wrong), InputError) << wrong;
    }
    for (const char* wrong : {"1 oz", "1", "0 g", "1 mL", "nan g"}) {
        EXPECT_THROW(parse_stated_mass(wrong), InputError) << wrong;
    }
}

// Half a US fluid ounce is no whole number of ticks; nine halves must still reach the ninth mark.
TEST(Marks, AreReachedExactly) {
    const StatedAmount cup = parse_stated_volume("0.5 fl oz");
    for (const int halves : {1, 7, 8, 9, 1001}) {
        EXPECT_EQ(marks(cup, halves, 1, cup, Rounding::down), halves);
        EXPECT_EQ(marks(cup, halves, 1, cup, Rounding::up), halves);
    }
    const StatedAmount rate = parse_stated_volume("0.41 fl oz");
    const StatedAmount ounce = parse_stated_volume("1 fl oz");
    EXPECT_EQ(marks(rate, 100, 1, ounce, Rounding::down), 41);
    EXPECT_EQ(marks(rate, 1'000'000'000 - 1, 10'000'000, ounce, Rounding::down), 40);
}

TEST(Marks, RoundDownOrUp) {
    const StatedAmount cup = parse_stated_volume("0.5 fl oz");
    const auto ounces = [](std::string_view number) {
        return Amount(Volume::of(number, units::us_fluid_ounce));
    };
    EXPECT_EQ(marks(ounces("6.49"), cup, Rounding::down), 12);
    EXPECT_EQ(marks(ounces("6.01"), cup, Rounding::up), 13);
    EXPECT_EQ(marks(ounces("6"), cup, Rounding::up), 12);
    EXPECT_EQ(at_mark(12, cup), ounces("6"));
}

TEST(Marks, RefuseAWeightInAMeasuringCup) {
    const StatedAmount cup = parse_stated_volume("1 mL");
    EXPECT_THROW(marks(Amount(Mass::of("3", units::gram)), cup, Rounding::down), InputError);
    EXPECT_THROW(marks(StatedAmount(parse_stated_mass("3 g")), 1, 1, cup, Rounding::down),
                 InputError);
}

TEST(MarkText, SpellsTheUnitOutWithAsManyDigitsAsTheMarksNeed) {
    const auto text = [](int mark, std::string_view step) {
        return mark_text(mark, parse_stated_volume(step));
    };
    EXPECT_EQ(text(12, "0.5 fl oz"), "6.0 US fluid ounces");
    EXPECT_EQ(text(25, "1/4 fl oz"), "6.25 US fluid ounces");
    EXPECT_EQ(text(22, "5 fl oz"), "110 US fluid ounces");
    EXPECT_EQ(text(1, "1 fl oz"), "1 US fluid ounce");
    EXPECT_EQ(mark_text(119, parse_stated_mass("1 g")), "119 grams");
}

// 1 US fluid ounce = 29.5735295625 mL and 1 ounce (weight) = 28.349523125 g: NIST Handbook 44,
// Appendix C. 6 fl oz = 177.441... mL; 119 g = 4.1976... oz.
TEST(TwinText, GivesTheOtherSystemRoundedTheWayAsked) {
    EXPECT_EQ(twin_text(6, parse_stated_volume("1 fl oz"), Rounding::down), "177.4 millilitres");
    EXPECT_EQ(twin_text(110, parse_stated_volume("1 fl oz"), Rounding::up),
              "3.26 litres");  // 3.25308... L
    EXPECT_EQ(twin_text(9, parse_stated_volume("1 mL"), Rounding::down),
              "0.30 US fluid ounces");  // 0.3043...
    EXPECT_EQ(twin_text(119, parse_stated_mass("1 g"), Rounding::down), "4.19 ounces (weight)");
    EXPECT_EQ(twin_text(16, parse_stated_mass("0.1 oz (weight)"), Rounding::down),
              "45.3 grams");  // 45.359...
}

TEST(PlainText, LeavesIdleZerosOut) {
    EXPECT_EQ(plain_text(Volume::of("8.5", units::millilitre)), "8.5 mL");
    EXPECT_EQ(plain_text(Volume::of("2", units::litre)), "2 L");
    EXPECT_EQ(plain_text(Mass::of("0.25", units::gram)), "250 mg");
    EXPECT_EQ(plain_text(Mass::of("100", units::gram)), "100 g");
}

}  // namespace
}  // namespace ashtriage::treat
