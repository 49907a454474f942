#include "measure/exact.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

#include "measure/input_error.hpp"

namespace ashtriage::measure {
namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t smallest = std::numeric_limits<std::int64_t>::min();

TEST(MultiplyDivide, SendsAHalfAwayFromZeroWhenRoundingToTheNearest) {
    EXPECT_EQ(multiply_divide(5, 1, 2, Rounding::nearest), 3);
    EXPECT_EQ(multiply_divide(-5, 1, 2, Rounding::nearest), -3);
    EXPECT_EQ(multiply_divide(1, 1, 2, Rounding::nearest), 1);
    EXPECT_EQ(multiply_divide(49, 1, 100, Rounding::nearest), 0);
    EXPECT_EQ(multiply_divide(51, 1, 100, Rounding::nearest), 1);
    EXPECT_EQ(multiply_divide(-49, 1, 100, Rounding::nearest), 0);
}

TEST(MultiplyDivide, RoundsDownNeverAboveTheValueAndUpNeverBelowIt) {
    EXPECT_EQ(multiply_divide(5, 1, 2, Rounding::down), 2);
    EXPECT_EQ(multiply_divide(5, 1, 2, Rounding::up), 3);
    EXPECT_EQ(multiply_divide(-5, 1, 2, Rounding::down), -3);
    EXPECT_EQ(multiply_divide(-5, 1, 2, Rounding::up), -2);
    EXPECT_EQ(multiply_divide(999'999, 1, 1'000'000, Rounding::down), 0);
    EXPECT_EQ(multiply_divide(1, 1, 1'000'000, Rounding::up), 1);
}

TEST(MultiplyDivide, LeavesAnExactResultAloneUnderEveryRounding) {
    for (const Rounding rounding : {Rounding::nearest, Rounding::down, Rounding::up}) {
        EXPECT_EQ(multiply_divide(6, 7, 3, rounding), 14);
        EXPECT_EQ(multiply_divide(-6, 7, 3, rounding), -14);
        EXPECT_EQ(multiply_divide(0, 7, 3, rounding), 0);
    }
}

TEST(MultiplyDivide, TakesTheSignOfTheDenominatorIntoAccount) {
    EXPECT_EQ(multiply_divide(5, 1, -2, Rounding::down), -3);
    EXPECT_EQ(multiply_divide(-5, 1, -2, Rounding::down), 2);
}

TEST(MultiplyDivide, HoldsAProductFarBeyond64Bits) {
    EXPECT_EQ(multiply_divide(largest, largest, largest, Rounding::nearest), largest);
    EXPECT_EQ(multiply_divide(smallest, largest, largest, Rounding::nearest), smallest);
    EXPECT_EQ(multiply_divide(largest, smallest, smallest, Rounding::nearest), largest);
}

TEST(MultiplyDivide, RefusesAResultThatDoesNotFitAndAZeroDenominator) {
    EXPECT_THROW(multiply_divide(largest, 2, 1, Rounding::nearest), InputError);
    EXPECT_THROW(multiply_divide(smallest, 1, -1, Rounding::nearest), InputError);
    EXPECT_THROW(multiply_divide(largest, 3, 2, Rounding::down), InputError);
    EXPECT_THROW(multiply_divide(1, 1, 0, Rounding::nearest), InputError);
}

// By definition floor(q) <= q <= ceiling(q), they differ by at most one, and the nearest is one of
// them, no more than a half away.
TEST(MultiplyDivide, BracketsTheTrueValueForAnyNumbers) {
    std::mt19937_64 random(20260518);  // fixed, so that a failure can be repeated
    std::uniform_int_distribution<std::int64_t> number(-1'000'000'000, 1'000'000'000);
    for (int i = 0; i < 20'000; ++i) {
        const std::int64_t value = number(random);
        const std::int64_t numerator = number(random) / 100'000;
        std::int64_t denominator = number(random) / 100'000;
        if (denominator == 0) denominator = 1;
        const std::int64_t down = multiply_divide(value, numerator, denominator, Rounding::down);
        const std::int64_t up = multiply_divide(value, numerator, denominator, Rounding::up);
        const std::int64_t near = multiply_divide(value, numerator, denominator, Rounding::nearest);
        // The products stay below 2^63, so plain integers can check them.
        const std::int64_t sign = denominator < 0 ? -1 : 1;
        const std::int64_t product = value * numerator * sign;
        const std::int64_t divisor = denominator * sign;
        ASSERT_LE(down * divisor, product);
        ASSERT_GE(up * divisor, product);
        ASSERT_LE(up - down, 1);
        ASSERT_LE(2 * std::abs(near * divisor - product), divisor);
    }
}

TEST(CheckedArithmetic, RefusesToWrapAround) {
    EXPECT_EQ(checked_add(largest - 1, 1), largest);
    EXPECT_THROW(checked_add(largest, 1), InputError);
    EXPECT_EQ(checked_subtract(smallest + 1, 1), smallest);
    EXPECT_THROW(checked_subtract(smallest, 1), InputError);
    EXPECT_EQ(checked_multiply(largest, -1), -largest);
    EXPECT_THROW(checked_multiply(smallest, -1), InputError);
}

TEST(DecimalText, PutsThePointWhereItBelongs) {
    EXPECT_EQ(decimal_text(1'234, 100, 2, Rounding::nearest), "12.34");
    EXPECT_EQ(decimal_text(5, 100, 2, Rounding::nearest), "0.05");
    EXPECT_EQ(decimal_text(-5, 100, 2, Rounding::nearest), "-0.05");
    EXPECT_EQ(decimal_text(1'400, 100, 0, Rounding::nearest), "14");
    EXPECT_EQ(decimal_text(1'400, 100, 3, Rounding::nearest), "14.000");
    EXPECT_EQ(decimal_text(0, 100, 1, Rounding::nearest), "0.0");
}

TEST(DecimalText, RoundsAHalfAsAsked) {
    EXPECT_EQ(decimal_text(25, 100, 1, Rounding::nearest), "0.3");
    EXPECT_EQ(decimal_text(25, 100, 1, Rounding::down), "0.2");
    EXPECT_EQ(decimal_text(25, 100, 1, Rounding::up), "0.3");
    EXPECT_EQ(decimal_text(-25, 100, 1, Rounding::nearest), "-0.3");
}

TEST(DecimalText, NeverShowsAMinusInFrontOfZero) {
    EXPECT_EQ(decimal_text(-4, 100, 1, Rounding::nearest), "0.0");
    EXPECT_EQ(decimal_text(-4, 100, 0, Rounding::up), "0");
}

// A limit of 2.996 printed as 3.0 would be a violation on paper.
TEST(DecimalText, NeverShowsAMaximumAsMoreThanItIs) {
    EXPECT_EQ(decimal_text(2'996, 1'000, 1, Rounding::down), "2.9");
    EXPECT_EQ(decimal_text(2'996, 1'000, 1, Rounding::nearest), "3.0");
}

TEST(DecimalText, RefusesANonsensicalNumberOfPlaces) {
    EXPECT_THROW(decimal_text(1, 1, -1, Rounding::nearest), InputError);
    EXPECT_THROW(decimal_text(1, 1, 13, Rounding::nearest), InputError);
    EXPECT_THROW(decimal_text(largest, 1, 12, Rounding::nearest), InputError);
}

TEST(TicksOf, RoundsToTheNearestTick) {
    EXPECT_EQ(ticks_of("0.0000004", 1'000'000), 0);
    EXPECT_EQ(ticks_of("0.0000005", 1'000'000), 1);
    EXPECT_EQ(ticks_of(14.35, 25'400'000), 364'490'000);  // 14.35 has no exact binary form
}

TEST(TicksOf, RefusesWhatCannotBeHeld) {
    EXPECT_THROW(ticks_of(std::nan(""), 1), InputError);
    EXPECT_THROW(ticks_of(std::numeric_limits<double>::infinity(), 1), InputError);
    EXPECT_THROW(ticks_of(-std::numeric_limits<double>::infinity(), 1), InputError);
    EXPECT_THROW(ticks_of(1e19, 1), InputError);
    EXPECT_THROW(ticks_of(std::numeric_limits<double>::max(), largest), InputError);
    EXPECT_THROW(ticks_of("100000000000000000", 1'000), InputError);
    EXPECT_THROW(ticks_of("ten", 1), InputError);
}

}  // namespace
}  // namespace ashtriage::measure
