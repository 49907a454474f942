#include "measure/slope.hpp"

#include <gtest/gtest.h>

#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

const Length hundred_feet = Length::of("100", units::foot);

// Horizontal distance = taped distance x cos(slope): 100 ft on a 25 % slope (14.0 degrees) is 97.0
// ft.
TEST(LevelDistance, IsTheTapedDistanceTimesTheCosine) {
    EXPECT_EQ(level_distance(hundred_feet, Percent::of("25", units::percent)).text(units::foot, 1),
              "97.0");
    // A 3-4-5 triangle: 75 % slope, 80 of 100.
    EXPECT_EQ(level_distance(hundred_feet, Percent::of("75", units::percent)).text(units::foot, 3),
              "80.000");
}

TEST(LevelDistance, IsTheSameUphillDownhillAndOnTheLevel) {
    EXPECT_EQ(level_distance(hundred_feet, Percent{}), hundred_feet);
    EXPECT_EQ(level_distance(hundred_feet, Percent::of("-75", units::percent)),
              level_distance(hundred_feet, Percent::of("75", units::percent)));
}

}  // namespace
}  // namespace ashtriage::measure
