#include "measure/stems.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

std::vector<Length> inches(std::initializer_list<const char*> numbers) {
    std::vector<Length> stems;
    for (const char* number : numbers) stems.push_back(Length::of(number, units::inch));
    return stems;
}

std::string combined(const std::vector<Length>& stems, StemRule rule, int places = 1) {
    return combined_diameter(stems, rule).text(units::inch, places);
}

std::string diameter_of(const char* girth) {
    return diameter_from_girth(Length::of(girth, units::inch)).text(units::inch, 1);
}

// Girth over pi, worked with a pocket calculator.
TEST(DiameterFromGirth, DividesByPi) {
    EXPECT_EQ(diameter_of("20"), "6.4");
    EXPECT_EQ(diameter_of("31.4"), "10.0");
    EXPECT_EQ(diameter_of("40"), "12.7");
    EXPECT_EQ(diameter_of("50"), "15.9");
    EXPECT_EQ(diameter_of("63"), "20.1");
    EXPECT_EQ(diameter_of("75"), "23.9");
    EXPECT_EQ(diameter_of("100"), "31.8");
}

// Pairs printed as equal by agencies and newspapers, and what the girth really comes to: dividing
// by 3 makes the stem too thick.
TEST(DiameterFromGirth, DoesNotDivideByThree) {
    EXPECT_EQ(diameter_of("36"), "11.5");  // printed as 12
    EXPECT_EQ(diameter_of("45"), "14.3");  // printed as 15
    EXPECT_EQ(diameter_of("47"), "15.0");  // printed as 15
    EXPECT_EQ(diameter_of("48"), "15.3");  // printed as 15
    EXPECT_EQ(diameter_of("60"), "19.1");  // printed as 20
}

// UC IPM Pest Notes 74111: a girth of 32 in is a diameter of 10 in (factor 0.32).
TEST(DiameterFromGirth, AgreesWithTheRuleOfThumb) {
    EXPECT_EQ(diameter_from_girth(Length::of("32", units::inch)).text(units::inch, 0), "10");
}

// Pi from memory: 3.141592653589793.
TEST(GirthFromDiameter, MultipliesByPi) {
    EXPECT_EQ(girth_from_diameter(Length::of("1", units::metre)).ticks(), 3'141'592'654);
    EXPECT_EQ(diameter_from_girth(Length::of("3.141592654", units::metre)),
              Length::of("1", units::metre));
}

TEST(Girth, ComesBackFromTheDiameterWithinItsRounding) {
    std::mt19937_64 random(314);  // fixed, so that a failure can be repeated
    std::uniform_int_distribution<std::int64_t> nanometres(0, 10'000'000'000);
    for (int i = 0; i < 5'000; ++i) {
        const Length diameter = Length::from_ticks(nanometres(random));
        // The girth is off by at most half a tick, and the way back divides that by pi.
        ASSERT_EQ(diameter_from_girth(girth_from_diameter(diameter)), diameter);
    }
}

TEST(Girth, RefusesLessThanZero) {
    EXPECT_THROW(diameter_from_girth(Length::from_ticks(-1)), InputError);
    EXPECT_THROW(girth_from_diameter(Length::from_ticks(-1)), InputError);
    EXPECT_EQ(diameter_from_girth(Length{}), Length{});
    EXPECT_THROW(girth_from_diameter(Length::from_ticks(std::numeric_limits<std::int64_t>::max())),
                 InputError);
}

// Plain sums, and roots worked by hand: sqrt(200), sqrt(208), sqrt(144), sqrt(302).
TEST(CombinedDiameter, GivesThreeDifferentAnswers) {
    struct Row {
        std::vector<Length> stems;
        const char* sum;
        const char* root;
        const char* largest;
    };
    const std::vector<Row> rows = {{inches({"10", "10"}), "20.0", "14.1", "10.0"},
                                   {inches({"12", "8"}), "20.0", "14.4", "12.0"},
                                   {inches({"6", "6", "6", "6"}), "24.0", "12.0", "6.0"},
                                   {inches({"14", "9", "5"}), "28.0", "17.4", "14.0"}};
    for (const Row& row : rows) {
        EXPECT_EQ(combined(row.stems, StemRule::sum), row.sum);
        EXPECT_EQ(combined(row.stems, StemRule::root_of_sum_of_squares), row.root);
        EXPECT_EQ(combined(row.stems, StemRule::largest), row.largest);
    }
}

// The example of the FIA national core field guide, section 5.9 (from memory; the arithmetic is
// 148.84 + 174.24 + 14.44 + 488.41 = 825.93, whose root is 28.739).
TEST(CombinedDiameter, ReproducesTheRootCollarExample) {
    const std::vector<Length> stems = inches({"12.2", "13.2", "3.8", "22.1"});
    EXPECT_EQ(combined(stems, StemRule::root_of_sum_of_squares, 3), "28.739");
    EXPECT_EQ(combined(stems, StemRule::root_of_sum_of_squares), "28.7");
    EXPECT_EQ(combined(stems, StemRule::sum), "51.3");
}

TEST(CombinedDiameter, IsTheStemItselfWhenThereIsOne) {
    const std::vector<Length> one = inches({"14.37"});
    for (const StemRule rule :
         {StemRule::sum, StemRule::root_of_sum_of_squares, StemRule::largest}) {
        EXPECT_EQ(combined_diameter(one, rule), one.front());
    }
}

TEST(CombinedDiameter, TakesTheNearestRootToTheTick) {
    const auto root = [](std::initializer_list<std::int64_t> ticks) {
        std::vector<Length> stems;
        for (const std::int64_t count : ticks) stems.push_back(Length::from_ticks(count));
        return combined_diameter(stems, StemRule::root_of_sum_of_squares).ticks();
    };
    EXPECT_EQ(root({3, 4}), 5);
    EXPECT_EQ(root({1, 1}), 1);     // 1.41
    EXPECT_EQ(root({1, 1, 1}), 2);  // 1.73
    EXPECT_EQ(root({2, 2, 2}), 3);  // 3.46
    EXPECT_EQ(root({3'000'000'000, 4'000'000'000}), 5'000'000'000);
    EXPECT_EQ(root({3'000'000'000'000'000'000, 4'000'000'000'000'000'000}),
              5'000'000'000'000'000'000);
}

// Largest <= root of squares <= sum, whatever the stems.
TEST(CombinedDiameter, KeepsItsRulesInOrder) {
    std::mt19937_64 random(54);  // fixed, so that a failure can be repeated
    std::uniform_int_distribution<std::int64_t> nanometres(1, 2'000'000'000);
    std::uniform_int_distribution<std::size_t> count(1, 8);
    for (int i = 0; i < 2'000; ++i) {
        std::vector<Length> stems(count(random));
        for (Length& stem : stems) stem = Length::from_ticks(nanometres(random));
        const Length root = combined_diameter(stems, StemRule::root_of_sum_of_squares);
        ASSERT_LE(combined_diameter(stems, StemRule::largest), root);
        ASSERT_LE(root, combined_diameter(stems, StemRule::sum));
    }
}

TEST(CombinedDiameter, RefusesMissingAndImpossibleStems) {
    EXPECT_THROW(combined_diameter({}, StemRule::sum), InputError);
    EXPECT_THROW(combined_diameter(inches({"10", "0"}), StemRule::sum), InputError);
    EXPECT_THROW(combined_diameter(inches({"10", "-1"}), StemRule::largest), InputError);
    const Length huge = Length::from_ticks(std::numeric_limits<std::int64_t>::max());
    const std::vector<Length> three = {huge, huge, huge};
    EXPECT_THROW(combined_diameter(three, StemRule::sum), InputError);
    EXPECT_THROW(combined_diameter(three, StemRule::root_of_sum_of_squares), InputError);
}

TEST(BasalArea, RefusesWhatNoStemMeasures) {
    EXPECT_EQ(basal_area(Length{}), Area{});
    EXPECT_THROW(basal_area(Length::from_ticks(-1)), InputError);
    EXPECT_THROW(basal_area(Length::from_ticks(std::numeric_limits<std::int64_t>::max())),
                 InputError);
}

}  // namespace
}  // namespace ashtriage::measure
