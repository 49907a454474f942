#include "measure/quantity.hpp"

#include <gtest/gtest.h>

#include <concepts>
#include <cstdint>
#include <limits>
#include <random>
#include <type_traits>

#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
    a < b;
};

static_assert(Addable<Length, Length>);
static_assert(!Addable<Length, Area> && !Addable<Volume, Mass> && !Addable<Length, double>);
static_assert(!Comparable<Volume, Mass> && !Comparable<Length, int>);
static_assert(!Addable<Temperature, Temperature>, "20 C + 20 C is not a temperature");
static_assert(!std::is_convertible_v<double, Length> && !std::is_convertible_v<Length, double>);

TEST(Quantity, ConvertsExactlyBetweenUnits) {
    EXPECT_EQ(Length::of("14", units::inch), Length::of("35.56", units::centimetre));
    EXPECT_EQ(Length::of("14", units::inch).in(units::centimetre), 35.56);
    EXPECT_EQ(Length::of("14", units::inch).in(units::inch), 14.0);
    EXPECT_EQ(Length::of("5280", units::foot), Length::of("1", units::mile));
}

TEST(Quantity, TakesANumberToTheNearestTick) {
    EXPECT_EQ(Length::of(14.35, units::inch), Length::of("14.35", units::inch));
    EXPECT_EQ(Money::of(0.1, units::dollar) + Money::of(0.2, units::dollar),
              Money::of("0.3", units::dollar));
    EXPECT_THROW(Length::of(std::numeric_limits<double>::quiet_NaN(), units::inch), InputError);
    EXPECT_THROW(Length::of(std::numeric_limits<double>::infinity(), units::inch), InputError);
    EXPECT_THROW(Volume::of(1e6, units::litre), InputError);  // 64 bits hold 922,337 L
    EXPECT_THROW(Volume::of("1000000", units::litre), InputError);
}

TEST(Quantity, ShowsExactDecimalText) {
    const Length dbh = Length::of("14.25", units::inch);
    EXPECT_EQ(dbh.text(units::inch, 2), "14.25");
    EXPECT_EQ(dbh.text(units::inch, 1), "14.3");
    EXPECT_EQ(dbh.text(units::inch, 1, Rounding::down), "14.2");
    EXPECT_EQ(dbh.text(units::inch, 1, Rounding::up), "14.3");
    EXPECT_EQ(dbh.text(units::inch, 0), "14");
    EXPECT_EQ(dbh.with_unit(units::centimetre, 1), "36.2 cm");  // 36.195
}

TEST(Quantity, RoundsToAStepAsAsked) {
    const Volume half_millilitre = Volume::of("0.5", units::millilitre);
    const Volume dose = Volume::of("10.25", units::millilitre);
    EXPECT_EQ(dose.rounded_to(half_millilitre, Rounding::down),
              Volume::of("10", units::millilitre));
    EXPECT_EQ(dose.rounded_to(half_millilitre, Rounding::up),
              Volume::of("10.5", units::millilitre));
    EXPECT_EQ(dose.rounded_to(half_millilitre, Rounding::nearest),
              Volume::of("10.5", units::millilitre));
    const Volume ten = Volume::of("10", units::millilitre);
    for (const Rounding rounding : {Rounding::nearest, Rounding::down, Rounding::up}) {
        EXPECT_EQ(ten.rounded_to(half_millilitre, rounding), ten);
    }
    EXPECT_THROW(dose.rounded_to(Volume{}, Rounding::down), InputError);
    EXPECT_THROW(dose.rounded_to(Volume{} - half_millilitre, Rounding::down), InputError);
}

TEST(Quantity, AddsSubtractsAndMultipliesOrRefuses) {
    const Mass gram = Mass::of("1", units::gram);
    EXPECT_EQ(gram + gram, 2 * gram);
    EXPECT_EQ(gram * 1000, Mass::of("1", units::kilogram));
    EXPECT_EQ(gram - gram, Mass{});
    EXPECT_LT(gram - 2 * gram, Mass{});
    Mass total;
    total += gram;
    total += gram;
    total -= gram;
    EXPECT_EQ(total, gram);
    const Mass most = Mass::from_ticks(std::numeric_limits<std::int64_t>::max());
    EXPECT_THROW(most + gram, InputError);
    EXPECT_THROW(Mass{} - most - gram, InputError);
    EXPECT_THROW(most * 2, InputError);
}

TEST(Quantity, DividesByACountAndByItsOwnKind) {
    const Length trunk = Length::of("44", units::inch);
    EXPECT_EQ(trunk / 4, Length::of("11", units::inch));
    EXPECT_EQ(trunk / Length::of("4", units::inch), 11.0);
    EXPECT_EQ(Length::from_ticks(5) / 2, Length::from_ticks(3));
    EXPECT_THROW(trunk / 0, InputError);
    EXPECT_THROW(trunk / Length{}, InputError);
}

// treatment.md lists the arithmetic: a 75 % powder in a 1.6-oz packet holds 34.0 g of active
// ingredient, enough for 23.96 in at 1.42 g per inch, so for 23 whole inches and not for 24.
TEST(Quantity, ScalesByAnExactRatio) {
    const Mass packet = Mass::of("1.6", units::avoirdupois_ounce);
    EXPECT_EQ(packet.text(units::gram, 2), "45.36");
    const Mass active = packet.scaled(75, 100, Rounding::down);
    EXPECT_EQ(active.text(units::gram, 1), "34.0");
    const Mass per_inch = Mass::of("1.42", units::gram);
    EXPECT_NEAR(active / per_inch, 23.96, 0.005);
    EXPECT_EQ(active.rounded_to(per_inch, Rounding::down), 23 * per_inch);
    const Length dbh = Length::of("14.3", units::inch);
    EXPECT_EQ(per_inch.scaled(dbh.ticks(), units::inch.ticks, Rounding::down),
              Mass::of("20.306", units::gram));  // 1.42 x 14.3
}

TEST(Temperature, ConvertsBetweenScalesWithDifferentZeros) {
    EXPECT_EQ(Temperature::of("50", units::fahrenheit), Temperature::of("10", units::celsius));
    EXPECT_EQ(Temperature::of("68", units::fahrenheit).text(units::celsius, 1), "20.0");
    EXPECT_EQ(Temperature::of("-10", units::celsius).text(units::fahrenheit, 1), "14.0");
    EXPECT_EQ(Temperature::of("-0.5", units::celsius).text(units::celsius, 1), "-0.5");
    EXPECT_LT(Temperature::of("49.9", units::fahrenheit), Temperature::of("10", units::celsius));
}

TEST(Temperature, StopsAtAbsoluteZero) {
    EXPECT_EQ(Temperature::of("-273.15", units::celsius).ticks(), 0);
    EXPECT_EQ(Temperature::of("-459.67", units::fahrenheit).ticks(), 0);
    EXPECT_THROW(Temperature::of("-273.15006", units::celsius), InputError);  // one tick below
    EXPECT_THROW(Temperature::of(-459.68, units::fahrenheit), InputError);
}

template <class Dimension>
void expect_text_round_trip(const Unit<Dimension>& unit, std::int64_t most_ticks) {
    std::mt19937_64 random(45);  // fixed, so that a failure can be repeated
    std::uniform_int_distribution<std::int64_t> hundredths(0, most_ticks / unit.ticks * 100);
    for (int i = 0; i < 2'000; ++i) {
        const std::string written = decimal_text(hundredths(random), 100, 2, Rounding::nearest);
        const auto quantity = Quantity<Dimension>::of(written, unit);
        ASSERT_EQ(quantity.text(unit, 2), written) << unit.name;
        ASSERT_EQ(Quantity<Dimension>::of(quantity.in(unit), unit), quantity) << unit.name;
        ASSERT_EQ(Quantity<Dimension>::from_ticks(quantity.ticks()), quantity) << unit.name;
    }
}

// Written to hundredths of the unit and shown again, an amount is what it was; through a double it
// comes back too, as long as its ticks fit the 53 bits of one.
TEST(Quantity, ComesBackFromTextAndFromADoubleInEveryUnit) {
    constexpr std::int64_t bits_of_a_double = std::int64_t{1} << 52;
    expect_text_round_trip(units::millimetre, bits_of_a_double);
    expect_text_round_trip(units::centimetre, bits_of_a_double);
    expect_text_round_trip(units::metre, bits_of_a_double);
    expect_text_round_trip(units::kilometre, bits_of_a_double);
    expect_text_round_trip(units::inch, bits_of_a_double);
    expect_text_round_trip(units::foot, bits_of_a_double);
    expect_text_round_trip(units::mile, bits_of_a_double);
    expect_text_round_trip(units::square_inch, bits_of_a_double);
    expect_text_round_trip(units::square_foot, bits_of_a_double);
    expect_text_round_trip(units::acre, bits_of_a_double);
    expect_text_round_trip(units::square_metre, bits_of_a_double);
    expect_text_round_trip(units::hectare, bits_of_a_double);
    expect_text_round_trip(units::us_fluid_ounce, bits_of_a_double);
    expect_text_round_trip(units::us_pint, bits_of_a_double);
    expect_text_round_trip(units::us_quart, bits_of_a_double);
    expect_text_round_trip(units::us_gallon, bits_of_a_double);
    expect_text_round_trip(units::imperial_fluid_ounce, bits_of_a_double);
    expect_text_round_trip(units::millilitre, bits_of_a_double);
    expect_text_round_trip(units::litre, bits_of_a_double);
    expect_text_round_trip(units::milligram, bits_of_a_double);
    expect_text_round_trip(units::gram, bits_of_a_double);
    expect_text_round_trip(units::kilogram, bits_of_a_double);
    expect_text_round_trip(units::avoirdupois_ounce, bits_of_a_double);
    expect_text_round_trip(units::pound, bits_of_a_double);
    expect_text_round_trip(units::percent, 1'000 * units::percent.ticks);
    expect_text_round_trip(units::dollar, 10'000'000 * units::dollar.ticks);
    expect_text_round_trip(units::celsius, 1'000 * units::celsius.ticks);
    expect_text_round_trip(units::fahrenheit, 1'000 * units::fahrenheit.ticks);
}

}  // namespace
}  // namespace ashtriage::measure
