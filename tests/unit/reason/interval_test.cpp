#include "reason/interval.hpp"

#include <gtest/gtest.h>

namespace ashtriage::reason {
namespace {

const Interval above_fifty{50, 100, true, false};
const Interval at_most_fifty = Interval::closed(0, 50);

TEST(Interval, AnOpenEndIsNotPartOfIt) {
    EXPECT_FALSE(above_fifty.contains(50));
    EXPECT_TRUE(above_fifty.contains(50.0001));
    EXPECT_TRUE(at_most_fifty.contains(50));
}

TEST(Interval, IsEmptyWhenItsOnlyNumberIsLeftOut) {
    EXPECT_TRUE((Interval{5, 5, true, false}.empty()));
    EXPECT_TRUE((Interval{6, 5, false, false}.empty()));
    EXPECT_FALSE(Interval::point(5).empty());
}

TEST(Interval, TouchingAtAnOpenEndSharesNothing) {
    EXPECT_FALSE(intersection(above_fifty, at_most_fifty).has_value());
    EXPECT_EQ(intersection(Interval::closed(50, 100), at_most_fifty), Interval::point(50));
}

TEST(Interval, ContainsAnotherOnlyIfItsOpenEndsAreNotNeeded) {
    EXPECT_TRUE(Interval::closed(50, 100).contains(above_fifty));
    EXPECT_FALSE(above_fifty.contains(Interval::closed(50, 100)));
    EXPECT_TRUE(above_fifty.contains(above_fifty));
    EXPECT_TRUE(above_fifty.contains(Interval{1, 0, false, false}));
}

TEST(Interval, DistanceIsZeroInsideAndToTheNearerEndOutside) {
    EXPECT_EQ(distance(70, above_fifty), 0.0);
    EXPECT_EQ(distance(41, above_fifty), 9.0);
    EXPECT_EQ(distance(50, above_fifty), 0.0);
    EXPECT_EQ(distance(60, at_most_fifty), 10.0);
}

TEST(Interval, WideningStaysInsideTheLimits) {
    EXPECT_EQ(widened(Interval::point(5), 10, Interval::closed(0, 100)), Interval::closed(0, 15));
    EXPECT_EQ(widened(Interval::closed(20, 30), 10, Interval::closed(0, 100)),
              Interval::closed(10, 40));
}

}  // namespace
}  // namespace ashtriage::reason
