#include "measure/parse.hpp"

#include <gtest/gtest.h>

#include <string>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

Length inches(const char* number) {
    return Length::of(number, units::inch);
}

TEST(ParseLength, ReadsANumberAndAUnit) {
    EXPECT_EQ(parse_length("14 in"), inches("14"));
    EXPECT_EQ(parse_length("14in"), inches("14"));
    EXPECT_EQ(parse_length("14\""), inches("14"));
    EXPECT_EQ(parse_length("14 inches"), inches("14"));
    EXPECT_EQ(parse_length("14 Inches"), inches("14"));
    EXPECT_EQ(parse_length("14 in."), inches("14"));
    EXPECT_EQ(parse_length("  14   in "), inches("14"));
    EXPECT_EQ(parse_length("35.6 cm"), Length::of("35.6", units::centimetre));
    EXPECT_EQ(parse_length("0 in"), Length{});
    EXPECT_EQ(parse_length("4.5 ft"), Length::of("4.5", units::foot));
    EXPECT_EQ(parse_length("1.3 m"), Length::of("1.3", units::metre));
    EXPECT_EQ(parse_length("2 mi"), Length::of("2", units::mile));
    EXPECT_EQ(parse_length("2 km"), Length::of("2", units::kilometre));
    EXPECT_EQ(parse_length("8 mm"), Length::of("8", units::millimetre));
}

TEST(ParseLength, ReadsSimpleFractions) {
    EXPECT_EQ(parse_length("1/2 in"), inches("0.5"));
    EXPECT_EQ(parse_length("14 1/2 in"), inches("14.5"));
    EXPECT_EQ(parse_length("14 3/8\""), inches("14.375"));
    EXPECT_EQ(parse_length("1/3 in"), Length::from_ticks(8'466'667));  // 25.4 mm / 3
}

TEST(ParseLength, ReadsFeetAndInches) {
    EXPECT_EQ(parse_length("5'6\""), inches("66"));
    EXPECT_EQ(parse_length("5' 6\""), inches("66"));
    EXPECT_EQ(parse_length("5 ft 6 in"), inches("66"));
    EXPECT_EQ(parse_length("5 ft. 6 1/2 in."), inches("66.5"));
    EXPECT_EQ(parse_length("5 feet 6.25 inches"), inches("66.25"));
    EXPECT_EQ(parse_length("0'6\""), inches("6"));
    EXPECT_EQ(parse_length("5’6”"), inches("66"));  // as a telephone writes it
    EXPECT_EQ(parse_length("5′6″"), inches("66"));
}

TEST(ParseLength, RefusesFeetAndInchesThatDoNotAddUp) {
    EXPECT_THROW(parse_length("5'12\""), InputError);
    EXPECT_THROW(parse_length("5.5'6\""), InputError);
    EXPECT_THROW(parse_length("1/2 ft 6 in"), InputError);
    EXPECT_THROW(parse_length("5'6"), InputError);
    EXPECT_THROW(parse_length("5' 6 cm"), InputError);
    EXPECT_THROW(parse_length("5'6\"7"), InputError);
    EXPECT_THROW(parse_length("6 in 5 ft"), InputError);
    EXPECT_THROW(parse_length("5'-6\""), InputError);
    EXPECT_THROW(parse_length("5 m 6 in"), InputError);
}

TEST(ParseLength, TakesABareNumberOnlyWhenToldItsUnit) {
    EXPECT_EQ(parse_length("14", units::inch), inches("14"));
    EXPECT_EQ(parse_length("14 1/2", units::inch), inches("14.5"));
    EXPECT_EQ(parse_length("35.56 cm", units::inch), inches("14"));  // a written unit wins
    EXPECT_THROW(parse_length("14"), InputError);
}

TEST(ParseArea, ReadsItsUnits) {
    EXPECT_EQ(parse_area("1 acre"), Area::of("43560", units::square_foot));
    EXPECT_EQ(parse_area("600 sq ft"), Area::of("600", units::square_foot));
    EXPECT_EQ(parse_area("600 sq. ft."), Area::of("600", units::square_foot));
    EXPECT_EQ(parse_area("600 ft2"), Area::of("600", units::square_foot));
    EXPECT_EQ(parse_area("600 ft²"), Area::of("600", units::square_foot));
    EXPECT_EQ(parse_area("1/4 acre"), Area::of("0.25", units::acre));
    EXPECT_EQ(parse_area("1 ha"), Area::of("10000", units::square_metre));
    EXPECT_EQ(parse_area("144 in2"), Area::of("1", units::square_foot));
}

TEST(ParseVolume, ReadsItsUnits) {
    EXPECT_EQ(parse_volume("16 fl oz"), Volume::of("1", units::us_pint));
    EXPECT_EQ(parse_volume("16 Fl.  Oz."), Volume::of("1", units::us_pint));
    EXPECT_EQ(parse_volume("16 US fluid ounces"), Volume::of("1", units::us_pint));
    EXPECT_EQ(parse_volume("1 imp fl oz"), Volume::of("1", units::imperial_fluid_ounce));
    EXPECT_EQ(parse_volume("250 mL"), Volume::of("0.25", units::litre));
    EXPECT_EQ(parse_volume("250ml"), Volume::of("0.25", units::litre));
    EXPECT_EQ(parse_volume("2 quarts"), Volume::of("0.5", units::us_gallon));
    EXPECT_EQ(parse_volume("2 1/2 gal"), Volume::of("2.5", units::us_gallon));
}

TEST(ParseMass, ReadsItsUnits) {
    EXPECT_EQ(parse_mass("1.6 oz (weight)"), Mass::of("1.6", units::avoirdupois_ounce));
    EXPECT_EQ(parse_mass("1.6 oz av"), Mass::of("1.6", units::avoirdupois_ounce));
    EXPECT_EQ(parse_mass("1.6 oz. av."), Mass::of("1.6", units::avoirdupois_ounce));
    EXPECT_EQ(parse_mass("0.4 lb"), Mass::of("6.4", units::avoirdupois_ounce));
    EXPECT_EQ(parse_mass("2 lbs"), Mass::of("2", units::pound));
    EXPECT_EQ(parse_mass("284 g"), Mass::of("0.284", units::kilogram));
    EXPECT_EQ(parse_mass("300 mg"), Mass::of("0.3", units::gram));
}

TEST(ParsePercent, ReadsThePercentSignAndTheWord) {
    EXPECT_EQ(parse_percent("30%"), Percent::of("30", units::percent));
    EXPECT_EQ(parse_percent("30 percent"), Percent::of("30", units::percent));
    EXPECT_EQ(parse_percent("21.4 %"), Percent::of("21.4", units::percent));
    EXPECT_EQ(parse_percent("120 %"), Percent::of("120", units::percent));
    EXPECT_EQ(parse_percent("30", units::percent), Percent::of("30", units::percent));
    EXPECT_THROW(parse_percent("30"), InputError);
}

TEST(ParseTemperature, ReadsBothScalesAndBelowZero) {
    EXPECT_EQ(parse_temperature("50 F"), Temperature::of("10", units::celsius));
    EXPECT_EQ(parse_temperature("50°F"), Temperature::of("10", units::celsius));
    EXPECT_EQ(parse_temperature("-5 C"), Temperature::of("-5", units::celsius));
    EXPECT_EQ(parse_temperature("-5.5 degrees Celsius"), Temperature::of("-5.5", units::celsius));
    EXPECT_THROW(parse_temperature("-500 F"), InputError);
    EXPECT_THROW(parse_temperature("50"), InputError);
    EXPECT_THROW(parse_temperature("-3 1/2 C"), InputError);  // -3.5 or -2.5?
}

// 1 mile = 1609.344 m exactly (NIST SP 811, Appendix B).
TEST(ParseSpeed, ReadsTheUnitsOfWindExactly) {
    EXPECT_EQ(parse_speed("10 mph").ticks(), std::int64_t{16'093'440});
    EXPECT_EQ(parse_speed("1.609344 km/h"), parse_speed("1 mile per hour"));
    EXPECT_EQ(parse_speed("0.44704 m/s"), parse_speed("1 mph"));
    EXPECT_THROW(parse_speed("10"), InputError);
    EXPECT_THROW(parse_speed("10 miles"), InputError);
}

TEST(ParseMoney, ReadsTheSignBeforeAndTheWordAfter) {
    EXPECT_EQ(parse_money("$12.50"), Money::of("12.5", units::dollar));
    EXPECT_EQ(parse_money("$ 12.50"), Money::of("12.5", units::dollar));
    EXPECT_EQ(parse_money("12.50 dollars"), Money::of("12.5", units::dollar));
    EXPECT_EQ(parse_money("0.0375 USD"), Money::from_ticks(375));
    EXPECT_EQ(parse_money("12.50", units::dollar), Money::of("12.5", units::dollar));
    EXPECT_THROW(parse_money("12.50"), InputError);
    EXPECT_THROW(parse_money("-$5"), InputError);
    EXPECT_THROW(parse_money("$-5"), InputError);
    EXPECT_THROW(parse_money("$1,250"), InputError);
    EXPECT_THROW(parse_money("$"), InputError);
    EXPECT_THROW(parse_money("$5 lb"), InputError);
}

TEST(FindUnit, KnowsEverySpellingOfItsDimensionOnly) {
    EXPECT_EQ(find_unit<LengthDimension>("in"), &units::inch);
    EXPECT_EQ(find_unit<LengthDimension>("Feet"), &units::foot);
    EXPECT_EQ(find_unit<VolumeDimension>("fl. oz."), &units::us_fluid_ounce);
    EXPECT_EQ(find_unit<PercentDimension>("percent"), &units::percent);
    EXPECT_EQ(find_unit<LengthDimension>("lb"), nullptr);
    EXPECT_EQ(find_unit<LengthDimension>(""), nullptr);
    EXPECT_EQ(find_unit<VolumeDimension>("oz"), nullptr);
    EXPECT_EQ(find_unit<MassDimension>("oz"), nullptr);
}

template <class Dimension, class Parse>
void expect_written_amounts_to_be_read_back(const Unit<Dimension>& unit, Parse parse) {
    for (const char* number : {"0", "0.01", "1", "14.37", "999.99"}) {
        const auto quantity = Quantity<Dimension>::of(number, unit);
        EXPECT_EQ(parse(quantity.with_unit(unit, 2)), quantity) << unit.name;
        for (const std::string_view symbol : unit.symbols) {
            if (symbol.empty()) continue;
            const std::string written = std::string(number) + " " + std::string(symbol);
            EXPECT_EQ(parse(written), quantity) << written;
        }
    }
}

TEST(Parse, ReadsBackWhatThisProgramWrites) {
    const auto length = [](std::string_view text) { return parse_length(text); };
    for (const LengthUnit& unit : {units::inch, units::foot, units::mile, units::millimetre,
                                   units::centimetre, units::metre, units::kilometre}) {
        expect_written_amounts_to_be_read_back(unit, length);
    }
    const auto area = [](std::string_view text) { return parse_area(text); };
    for (const AreaUnit& unit : {units::square_inch, units::square_foot, units::acre,
                                 units::square_metre, units::hectare}) {
        expect_written_amounts_to_be_read_back(unit, area);
    }
    const auto volume = [](std::string_view text) { return parse_volume(text); };
    for (const VolumeUnit& unit :
         {units::us_fluid_ounce, units::us_pint, units::us_quart, units::us_gallon,
          units::imperial_fluid_ounce, units::millilitre, units::litre}) {
        expect_written_amounts_to_be_read_back(unit, volume);
    }
    const auto mass = [](std::string_view text) { return parse_mass(text); };
    for (const MassUnit& unit :
         {units::milligram, units::gram, units::kilogram, units::avoirdupois_ounce, units::pound}) {
        expect_written_amounts_to_be_read_back(unit, mass);
    }
    expect_written_amounts_to_be_read_back(
        units::percent, [](std::string_view text) { return parse_percent(text); });
    const auto temperature = [](std::string_view text) { return parse_temperature(text); };
    expect_written_amounts_to_be_read_back(units::celsius, temperature);
    expect_written_amounts_to_be_read_back(units::fahrenheit, temperature);
    expect_written_amounts_to_be_read_back(units::dollar,
                                           [](std::string_view text) { return parse_money(text); });
}

}  // namespace
}  // namespace ashtriage::measure
