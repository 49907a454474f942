#include "treat/exact_ratio.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "measure/input_error.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using measure::Rounding;

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

TEST(ExactRatio, IsRoundedOnceAtTheEnd) {
    // 7/2 x 2/7 is 1; rounding 7/2 first would give 0 or more than 1.
    EXPECT_EQ(exact_ratio({7, 2}, {2, 7}, Rounding::down), 1);
    EXPECT_EQ(exact_ratio({7, 2}, {2, 7}, Rounding::up), 1);
    EXPECT_EQ(exact_ratio({7}, {2}, Rounding::down), 3);
    EXPECT_EQ(exact_ratio({7}, {2}, Rounding::up), 4);
    EXPECT_EQ(exact_ratio({7}, {2}, Rounding::nearest), 4);
    EXPECT_EQ(exact_ratio({7}, {3}, Rounding::nearest), 2);
    EXPECT_EQ(exact_ratio({0, 5}, {3}, Rounding::up), 0);
}

TEST(ExactRatio, HoldsProductsBeyond64Bits) {
    EXPECT_EQ(exact_ratio({largest, 1'000'003}, {1'000'003}, Rounding::down), largest);
    EXPECT_EQ(exact_ratio({largest, largest - 1}, {largest - 2, largest}, Rounding::down), 1);
}

TEST(ExactRatio, RefusesWhatItCannotHoldOrDivide) {
    EXPECT_THROW(exact_ratio({largest, 2}, {1}, Rounding::down), InputError);
    EXPECT_THROW(exact_ratio({largest, largest, largest}, {3}, Rounding::down), InputError);
    EXPECT_THROW(exact_ratio({1}, {0}, Rounding::down), InputError);
    EXPECT_THROW(exact_ratio({-1}, {1}, Rounding::down), InputError);
}

}  // namespace
}  // namespace ashtriage::treat
