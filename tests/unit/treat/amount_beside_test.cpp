// Amounts in messages: in the unit in which they are measured out, with the metric twin.
#include "treat/amount_beside.hpp"

#include <gtest/gtest.h>

#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

namespace units = measure::units;

TEST(AmountBeside, IsInTheUnitOfTheDeviceWithItsTwin) {
    const StatedAmount cup = parse_stated_volume("0.5 fl oz");
    EXPECT_EQ(beside(measure::Volume::of("5.5", units::us_fluid_ounce), cup),
              "5.5 US fluid ounces (162.65 mL)");
    EXPECT_EQ(beside(measure::Volume::of("1", units::us_fluid_ounce), cup),
              "1 US fluid ounce (29.57 mL)");
    EXPECT_EQ(beside(measure::Mass::of("1", units::pound), parse_stated_mass("1 lb")),
              "1 pound (453.59 g)");
}

TEST(AmountBeside, IsMetricAloneBesideAMetricDevice) {
    EXPECT_EQ(
        beside(measure::Volume::of("5.5", units::us_fluid_ounce), parse_stated_volume("1 mL")),
        "162.65 mL");
    EXPECT_EQ(beside(measure::Mass::of("2.5", units::gram), parse_stated_mass("1 g")), "2.5 g");
}

// A weight of a liquid is a slip, which is told elsewhere in these words.
TEST(AmountBeside, IsMetricBesideADeviceOfTheOtherKind) {
    EXPECT_EQ(beside(measure::Mass::of("2.5", units::gram), parse_stated_volume("0.5 fl oz")),
              "2.5 g");
}

}  // namespace
}  // namespace ashtriage::treat
