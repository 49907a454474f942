#include "measure/number.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <string_view>

#include "refusal.hpp"

namespace ashtriage::measure {
namespace {

using ::testing::HasSubstr;

TEST(ParseNumber, ReadsPlainlyWrittenNumbers) {
    EXPECT_EQ(parse_number("0"), 0.0);
    EXPECT_EQ(parse_number("14"), 14.0);
    EXPECT_EQ(parse_number("14.50"), 14.5);
    EXPECT_EQ(parse_number("-3.25"), -3.25);
    EXPECT_EQ(parse_number("0.10"), 0.1);
    EXPECT_EQ(parse_number(".5"), 0.5);
    EXPECT_EQ(parse_number("-.5"), -0.5);
    EXPECT_EQ(parse_number("100"), 100.0);
}

TEST(ParseNumber, GivesNoMinusZero) {
    ASSERT_TRUE(parse_number("-0"));
    EXPECT_FALSE(std::signbit(*parse_number("-0")));
}

class NotANumber : public testing::TestWithParam<std::string_view> {};

TEST_P(NotANumber, IsRefused) {
    EXPECT_FALSE(parse_number(GetParam()));
    EXPECT_THROW(require_number(GetParam()), InputError);
    EXPECT_THROW(require_decimal(GetParam()), InputError);
}

constexpr std::array not_numbers = std::to_array<std::string_view>(
    {"",      " ",    "-",     ".",    "-.",   "1.",    "1..2",  "1.2.3", "--1", "+1",
     "010",   "-010", "00",    "00.5", "0x10", "0X1F",  "0b11",  "1e3",   "1E3", "1e-3",
     "1,000", "1,5",  "1_000", "1 0",  " 1",   "1 ",    "1\n",   "nan",   "NaN", "-nan",
     "inf",   "-inf", "INF",   "∞",    "1f",   "12abc", "abc",   "½",     "1/2", "１",
     "1'000", "0x",   ".e1",   "1-",   "#N/A", "NULL",  "-0x1p4"});
INSTANTIATE_TEST_SUITE_P(Spellings, NotANumber, testing::ValuesIn(not_numbers));

TEST(ParseNumber, RefusesAZeroByteInside) {
    EXPECT_FALSE(
        parse_number(std::string_view("1\0"
                                      "2",
                                      3)));
}

TEST(ParseNumber, RefusesANumberTooLargeForADouble) {
    EXPECT_FALSE(parse_number(std::string(400, '9')));
}

TEST(RequireNumber, SaysWhatToDoAboutTheUsualMistakes) {
    const auto commas = refusal_of([] { require_number("1,000"); });
    ASSERT_TRUE(commas);
    EXPECT_THAT(commas->what, HasSubstr("'1,000'"));
    EXPECT_THAT(commas->hint, HasSubstr("without commas"));
    const auto octal = refusal_of([] { require_number("-010"); });
    ASSERT_TRUE(octal);
    EXPECT_THAT(octal->hint, HasSubstr("leading zero"));
    const auto nothing = refusal_of([] { require_number(""); });
    ASSERT_TRUE(nothing);
    EXPECT_THAT(nothing->what, HasSubstr("missing"));
}

TEST(RequireDecimal, KeepsTheNumberAsWritten) {
    const Decimal plain = require_decimal("453.59237");
    EXPECT_EQ(plain.digits, 45'359'237);
    EXPECT_EQ(plain.places, 5);
    const Decimal small = require_decimal("-0.05");
    EXPECT_EQ(small.digits, -5);
    EXPECT_EQ(small.places, 2);
    const Decimal zero = require_decimal("0");
    EXPECT_EQ(zero.digits, 0);
    EXPECT_EQ(zero.places, 0);
}

TEST(RequireDecimal, HoldsEighteenDigitsAndRefusesNineteen) {
    EXPECT_EQ(require_decimal("999999999999999999").digits, 999'999'999'999'999'999);
    EXPECT_THROW(require_decimal("1000000000000000000"), InputError);
    EXPECT_EQ(require_decimal("0.000000000000000001").digits, 1);
    EXPECT_THROW(require_decimal("0.0000000000000000001"), InputError);
}

}  // namespace
}  // namespace ashtriage::measure
