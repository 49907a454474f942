// Every unit against the exact value published for it.
//
// Sources: NIST SP 811, Appendix B; NIST Handbook 44, Appendix C, sections 3 and 4; the notice
// ending the survey foot, 85 FR 62698 (5 October 2020). Values marked "memory" below were not
// looked up for this test; each of those also follows from a definition that is checked here.
#include "measure/units.hpp"

#include <gtest/gtest.h>

#include <cstdint>

namespace ashtriage::measure {
namespace {

TEST(PublishedUnits, Lengths) {
    EXPECT_EQ(Length::of("1", units::inch), Length::of("25.4", units::millimetre));
    EXPECT_EQ(Length::of("1", units::foot), Length::of("0.3048", units::metre));
    EXPECT_EQ(Length::of("1", units::foot), Length::of("12", units::inch));
    EXPECT_EQ(Length::of("1", units::mile), Length::of("1609.344", units::metre));  // memory
    EXPECT_EQ(Length::of("1", units::mile), Length::of("5280", units::foot));
    EXPECT_EQ(Length::of("1", units::centimetre), Length::of("10", units::millimetre));
    EXPECT_EQ(Length::of("1", units::metre), Length::of("1000", units::millimetre));
    EXPECT_EQ(Length::of("1", units::kilometre), Length::of("1000", units::metre));
    EXPECT_EQ(units::metre.ticks, 1'000'000'000);  // a tick is a nanometre
}

TEST(PublishedUnits, Areas) {
    EXPECT_EQ(Area::of("1", units::acre), Area::of("4046.8564224", units::square_metre));
    EXPECT_EQ(Area::of("1", units::acre), Area::of("43560", units::square_foot));
    EXPECT_EQ(Area::of("1", units::square_foot), Area::of("0.09290304", units::square_metre));
    EXPECT_EQ(Area::of("1", units::square_foot), Area::of("144", units::square_inch));
    EXPECT_EQ(Area::of("1", units::square_inch), Area::of("0.00064516", units::square_metre));
    EXPECT_EQ(Area::of("1", units::hectare), Area::of("10000", units::square_metre));
    EXPECT_EQ(Area::of("1", units::hectare).text(units::acre, 11, Rounding::down), "2.47105381467");
    EXPECT_EQ(units::square_metre.ticks, 100'000'000);
}

// A tick of area is 1e-8 m2 and a tick of length 1e-9 m, so a square unit has (length)^2 / 1e10
// ticks.
TEST(PublishedUnits, SquareUnitsAreSquaresOfTheirLengths) {
    const auto square = [](const LengthUnit& side) {
        return multiply_divide(side.ticks, side.ticks, 10'000'000'000, Rounding::nearest);
    };
    EXPECT_EQ(units::square_inch.ticks, square(units::inch));
    EXPECT_EQ(units::square_foot.ticks, square(units::foot));
    EXPECT_EQ(units::square_metre.ticks, square(units::metre));
}

TEST(PublishedUnits, Volumes) {
    EXPECT_EQ(Volume::of("1", units::us_gallon), Volume::of("3.785411784", units::litre));
    EXPECT_EQ(Volume::of("1", units::us_fluid_ounce),
              Volume::of("29.5735295625", units::millilitre));
    EXPECT_EQ(Volume::of("128", units::us_fluid_ounce), Volume::of("1", units::us_gallon));
    EXPECT_EQ(Volume::of("1", units::us_pint), Volume::of("16", units::us_fluid_ounce));   // memory
    EXPECT_EQ(Volume::of("1", units::us_quart), Volume::of("32", units::us_fluid_ounce));  // memory
    EXPECT_EQ(Volume::of("1", units::imperial_fluid_ounce),
              Volume::of("28.4130625", units::millilitre));
    // 160 imperial fluid ounces are the imperial gallon of 4.54609 L.
    EXPECT_EQ(Volume::of("160", units::imperial_fluid_ounce), Volume::of("4.54609", units::litre));
    EXPECT_EQ(Volume::of("1", units::litre), Volume::of("1000", units::millilitre));
    EXPECT_NEAR(Volume::of("1", units::imperial_fluid_ounce).in(units::us_fluid_ounce), 0.960760,
                0.5e-6);
}

// The US gallon is defined as 231 cubic inches; a cubic inch is 2.54^3 = 16.387064 mL.
TEST(PublishedUnits, TheGallonIs231CubicInches) {
    const Volume cubic_inch = Volume::of("16.387064", units::millilitre);
    EXPECT_EQ(231 * cubic_inch, Volume::of("1", units::us_gallon));
}

// 1 fl oz per gallon is 7.8125 mL per litre, exactly.
TEST(PublishedUnits, FluidOuncesPerGallon) {
    EXPECT_EQ(Volume::of("1", units::litre)
                  .scaled(units::us_fluid_ounce.ticks, units::us_gallon.ticks, Rounding::down),
              Volume::of("7.8125", units::millilitre));
}

TEST(PublishedUnits, Weights) {
    EXPECT_EQ(Mass::of("1", units::pound), Mass::of("453.59237", units::gram));
    EXPECT_EQ(Mass::of("1", units::avoirdupois_ounce), Mass::of("28.349523125", units::gram));
    EXPECT_EQ(Mass::of("16", units::avoirdupois_ounce), Mass::of("1", units::pound));
    EXPECT_EQ(Mass::of("1", units::kilogram), Mass::of("1000", units::gram));
    EXPECT_EQ(Mass::of("1", units::gram), Mass::of("1000", units::milligram));
    EXPECT_EQ(units::milligram.ticks, 1'000'000);  // a tick is a nanogram
}

// 1 lb per US gallon is 119.8264273... g per litre.
TEST(PublishedUnits, PoundsPerGallon) {
    EXPECT_EQ(Mass::of("1", units::pound)
                  .scaled(units::litre.ticks, units::us_gallon.ticks, Rounding::down)
                  .text(units::gram, 7, Rounding::down),
              "119.8264273");
}

// SP 811 (memory): F = 1.8 C + 32 exactly. Freezing and boiling of water, and the point where both
// scales agree.
TEST(PublishedUnits, Temperatures) {
    EXPECT_EQ(Temperature::of("32", units::fahrenheit), Temperature::of("0", units::celsius));
    EXPECT_EQ(Temperature::of("212", units::fahrenheit), Temperature::of("100", units::celsius));
    EXPECT_EQ(Temperature::of("-40", units::fahrenheit), Temperature::of("-40", units::celsius));
    EXPECT_EQ(Temperature::of("-273.15", units::celsius), Temperature::from_ticks(0));
    for (int tenths = -500; tenths <= 500; ++tenths) {
        const double celsius = tenths / 10.0;
        EXPECT_EQ(Temperature::of(celsius, units::celsius),
                  Temperature::of(1.8 * celsius + 32.0, units::fahrenheit))
            << celsius << " C";
    }
}

TEST(PublishedUnits, PercentAndDollarAreCountedInDecimalTicks) {
    EXPECT_EQ(Percent::of("0.000001", units::percent), Percent::from_ticks(1));
    EXPECT_EQ(Money::of("0.0001", units::dollar), Money::from_ticks(1));
}

}  // namespace
}  // namespace ashtriage::measure
