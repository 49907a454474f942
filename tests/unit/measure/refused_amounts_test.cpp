// What the readers of amounts refuse, and in which words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <string>
#include <string_view>

#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "refusal.hpp"

namespace ashtriage::measure {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

void expect_both_ounces_named(const std::optional<Refusal>& refusal) {
    ASSERT_TRUE(refusal);
    EXPECT_THAT(refusal->what, AllOf(HasSubstr("fluid ounces"), HasSubstr("ounces of weight")));
    EXPECT_THAT(refusal->hint, AllOf(HasSubstr("'fl oz'"), HasSubstr("'oz (weight)'")));
}

TEST(ParseVolume, RefusesABareOunceWithBothReadings) {
    expect_both_ounces_named(refusal_of([] { parse_volume("5 oz"); }));
    expect_both_ounces_named(refusal_of([] { parse_volume("5oz."); }));
    expect_both_ounces_named(refusal_of([] { parse_volume("5 Ounces", units::millilitre); }));
}

TEST(ParseMass, RefusesABareOunceWithBothReadings) {
    expect_both_ounces_named(refusal_of([] { parse_mass("5 oz"); }));
    expect_both_ounces_named(refusal_of([] { parse_mass("1 1/2 OZ"); }));
}

TEST(ParseLength, RefusesABareOunceWithBothReadings) {
    expect_both_ounces_named(refusal_of([] { parse_length("5 oz"); }));
}

TEST(ParseAmount, SaysWhatAUnitOfAnotherDimensionMeasures) {
    const auto weight = refusal_of([] { parse_length("14 lb"); });
    ASSERT_TRUE(weight);
    EXPECT_EQ(weight->what, "'14 lb' is a weight; a length was expected");
    EXPECT_THAT(weight->hint, HasSubstr("in, ft, mi, mm, cm, m, km"));
    const auto volume = refusal_of([] { parse_mass("14 fl oz"); });
    ASSERT_TRUE(volume);
    EXPECT_EQ(volume->what, "'14 fl oz' is a volume; a weight was expected");
    const auto area = refusal_of([] { parse_length("14 ft2"); });
    ASSERT_TRUE(area);
    EXPECT_EQ(area->what, "'14 ft2' is an area; a length was expected");
    const auto length = refusal_of([] { parse_area("14 ft"); });
    ASSERT_TRUE(length);
    EXPECT_EQ(length->what, "'14 ft' is a length; an area was expected");
    const auto percent = refusal_of([] { parse_volume("14 %"); });
    ASSERT_TRUE(percent);
    EXPECT_EQ(percent->what, "'14 %' is a percentage; a volume was expected");
    const auto temperature = refusal_of([] { parse_percent("14 C"); });
    ASSERT_TRUE(temperature);
    EXPECT_EQ(temperature->what, "'14 C' is a temperature; a percentage was expected");
    const auto money = refusal_of([] { parse_temperature("14 dollars"); });
    ASSERT_TRUE(money);
    EXPECT_EQ(money->what, "'14 dollars' is an amount of money; a temperature was expected");
}

TEST(ParseAmount, SuggestsTheNearestUnit) {
    const auto inches = refusal_of([] { parse_length("14 inhces"); });
    ASSERT_TRUE(inches);
    EXPECT_THAT(inches->what, HasSubstr("'inhces' in '14 inhces'"));
    EXPECT_THAT(inches->hint, HasSubstr("Did you mean 'inches'?"));
    const auto litres = refusal_of([] { parse_volume("3 litrs"); });
    ASSERT_TRUE(litres);
    EXPECT_THAT(litres->hint, HasSubstr("Did you mean 'litre"));
    const auto furlongs = refusal_of([] { parse_length("3 furlongs"); });
    ASSERT_TRUE(furlongs);
    EXPECT_THAT(furlongs->hint, HasSubstr("Known units: in, ft, mi, mm, cm, m, km."));
    EXPECT_THAT(furlongs->hint, testing::Not(HasSubstr("Did you mean")));
}

TEST(ParseAmount, AsksForAMissingUnit) {
    const auto missing = refusal_of([] { parse_mass("14"); });
    ASSERT_TRUE(missing);
    EXPECT_EQ(missing->what, "'14' has no unit");
    EXPECT_THAT(missing->hint, HasSubstr("g, kg"));
}

TEST(ParseAmount, RefusesLessThanZeroWhereItMakesNoSense) {
    const auto length = refusal_of([] { parse_length("-5 in"); });
    ASSERT_TRUE(length);
    EXPECT_EQ(length->what, "'-5 in' is less than zero, which a length cannot be");
    EXPECT_THROW(parse_length("-1/2 in"), InputError);
    EXPECT_THROW(parse_length("-5'6\""), InputError);
    EXPECT_THROW(parse_area("-5 acres"), InputError);
    EXPECT_THROW(parse_volume("-5 mL"), InputError);
    EXPECT_THROW(parse_mass("-5 g"), InputError);
    EXPECT_THROW(parse_percent("-5 %"), InputError);
    EXPECT_THROW(parse_money("-5 dollars"), InputError);
}

TEST(ParseAmount, NamesAnAmountTooLargeToHold) {
    const auto refusal = refusal_of([] { parse_volume("99999999999 gal"); });
    ASSERT_TRUE(refusal);
    EXPECT_THAT(refusal->what, AllOf(HasSubstr("'99999999999'"), HasSubstr("too large")));
    EXPECT_THROW(parse_length("999999999999999999999 in"), InputError);
}

TEST(ParseAmount, TellsHowToWriteALargeNumber) {
    const auto refusal = refusal_of([] { parse_length("1,000 ft"); });
    ASSERT_TRUE(refusal);
    EXPECT_THAT(refusal->what, HasSubstr("'1,000'"));
    EXPECT_THAT(refusal->hint, HasSubstr("without commas"));
}

class UnreadableLength : public testing::TestWithParam<std::string_view> {};

TEST_P(UnreadableLength, IsRefusedWithARemedy) {
    const auto refusal = refusal_of([] { parse_length(GetParam()); });
    ASSERT_TRUE(refusal);
    EXPECT_FALSE(refusal->what.empty());
    EXPECT_FALSE(refusal->hint.empty());
}

constexpr std::array unreadable = std::to_array<std::string_view>({"",
                                                                   " ",
                                                                   "in",
                                                                   "nan in",
                                                                   "NaN",
                                                                   "inf in",
                                                                   "-inf in",
                                                                   "infinity",
                                                                   "010 in",
                                                                   "-010 in",
                                                                   "00 in",
                                                                   "0x10 in",
                                                                   "0x10",
                                                                   "1e3 in",
                                                                   "1,000 in",
                                                                   "1,5 in",
                                                                   "1.000,5 in",
                                                                   "1. in",
                                                                   ". in",
                                                                   "- in",
                                                                   "+5 in",
                                                                   "--5 in",
                                                                   "5 5 in",
                                                                   "5 in in",
                                                                   "in 5",
                                                                   "14 1/0 in",
                                                                   "1/0 in",
                                                                   "0/0 in",
                                                                   "14 3/2 in",
                                                                   "14 2/2 in",
                                                                   "14.5 1/2 in",
                                                                   "1//2 in",
                                                                   "1/ in",
                                                                   "/2 in",
                                                                   "14 1/ in",
                                                                   "14 1/2/3 in",
                                                                   "1/2 1/2 in",
                                                                   "1.5/2 in",
                                                                   "1/2.5 in",
                                                                   "14-1/2 in",
                                                                   "1/9999999 in",
                                                                   "14 ½ in",
                                                                   "14 in,",
                                                                   "about 14 in",
                                                                   "14 in DBH",
                                                                   "１４ in",
                                                                   "14 in\n",
                                                                   "14 \"in",
                                                                   "ten inches",
                                                                   "14 x"});
INSTANTIATE_TEST_SUITE_P(Spellings, UnreadableLength, testing::ValuesIn(unreadable));

}  // namespace
}  // namespace ashtriage::measure
