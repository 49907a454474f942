// Basal area against the printed table.
//
// Source: Service Forester's Handbook, Southern Regional Extension Forestry, table of basal area by
// DBH: all 27 rows, to the decimals printed. The other columns (girth and DBH in cm to a tenth,
// basal area to 0.0001) were computed apart from this program.
#include <gtest/gtest.h>

#include <array>
#include <string>

#include "measure/stems.hpp"
#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

struct Row {
    const char* dbh_inches;
    const char* girth_inches;
    const char* dbh_centimetres;
    const char* handbook_square_feet;
    const char* square_feet;
    const char* square_metres;
};

constexpr std::array rows = std::to_array<Row>({
    {"4", "12.6", "10.2", "0.087", "0.0873", "0.0081"},
    {"5", "15.7", "12.7", "0.136", "0.1364", "0.0127"},
    {"6", "18.8", "15.2", "0.196", "0.1963", "0.0182"},
    {"7", "22.0", "17.8", "0.267", "0.2673", "0.0248"},
    {"8", "25.1", "20.3", "0.349", "0.3491", "0.0324"},
    {"9", "28.3", "22.9", "0.442", "0.4418", "0.0410"},
    {"10", "31.4", "25.4", "0.545", "0.5454", "0.0507"},
    {"11", "34.6", "27.9", "0.660", "0.6600", "0.0613"},
    {"12", "37.7", "30.5", "0.785", "0.7854", "0.0730"},
    {"13", "40.8", "33.0", "0.922", "0.9218", "0.0856"},
    {"14", "44.0", "35.6", "1.069", "1.0690", "0.0993"},
    {"15", "47.1", "38.1", "1.227", "1.2272", "0.1140"},
    {"16", "50.3", "40.6", "1.396", "1.3963", "0.1297"},
    {"17", "53.4", "43.2", "1.576", "1.5763", "0.1464"},
    {"18", "56.5", "45.7", "1.767", "1.7671", "0.1642"},
    {"19", "59.7", "48.3", "1.969", "1.9689", "0.1829"},
    {"20", "62.8", "50.8", "2.182", "2.1817", "0.2027"},
    {"22", "69.1", "55.9", "2.640", "2.6398", "0.2452"},
    {"24", "75.4", "61.0", "3.142", "3.1416", "0.2919"},
    {"26", "81.7", "66.0", "3.69", "3.6870", "0.3425"},
    {"28", "88.0", "71.1", "4.28", "4.2761", "0.3973"},
    {"30", "94.2", "76.2", "4.91", "4.9087", "0.4560"},
    {"32", "100.5", "81.3", "5.59", "5.5851", "0.5189"},
    {"34", "106.8", "86.4", "6.31", "6.3050", "0.5858"},
    {"36", "113.1", "91.4", "7.07", "7.0686", "0.6567"},
    {"38", "119.4", "96.5", "7.88", "7.8758", "0.7317"},
    {"40", "125.7", "101.6", "8.73", "8.7266", "0.8107"},
});
static_assert(rows.size() == 27);

int places_of(const std::string& number) {
    return static_cast<int>(number.size() - number.find('.') - 1);
}

class BasalAreaTable : public testing::TestWithParam<Row> {};

TEST_P(BasalAreaTable, AgreesInEveryColumn) {
    const Row& row = GetParam();
    const Length dbh = Length::of(row.dbh_inches, units::inch);
    const Area area = basal_area(dbh);
    EXPECT_EQ(area.text(units::square_foot, places_of(row.handbook_square_feet)),
              row.handbook_square_feet);
    EXPECT_EQ(area.text(units::square_foot, 4), row.square_feet);
    EXPECT_EQ(area.text(units::square_metre, 4), row.square_metres);
    EXPECT_EQ(dbh.text(units::centimetre, 1), row.dbh_centimetres);
    EXPECT_EQ(girth_from_diameter(dbh).text(units::inch, 1), row.girth_inches);
}

INSTANTIATE_TEST_SUITE_P(ServiceForestersHandbook, BasalAreaTable, testing::ValuesIn(rows),
                         [](const auto& row) {
                             return "Dbh" + std::string(row.param.dbh_inches) + "Inches";
                         });

// The foresters' constants: 0.005454 for inches and square feet, 0.00007854 for centimetres and
// square metres, each rounded to its printed digits.
TEST(BasalArea, HasTheForestersConstants) {
    const Area per_inch = basal_area(Length::of("1", units::inch));
    EXPECT_NEAR(per_inch.in(units::square_foot), 0.005454, 0.5e-6);
    const Area per_hundred_centimetres = basal_area(Length::of("100", units::centimetre));
    EXPECT_NEAR(per_hundred_centimetres.in(units::square_metre) / 1e4, 0.00007854, 0.5e-8);
}

// The root of the sum of squares is the stem with the same total basal area.
TEST(BasalArea, OfTheRootOfSquaresIsThatOfAllStemsTogether) {
    const std::array stems = {Length::of("12.2", units::inch), Length::of("13.2", units::inch),
                              Length::of("3.8", units::inch), Length::of("22.1", units::inch)};
    Area together;
    for (const Length& stem : stems) together += basal_area(stem);
    const Area one = basal_area(combined_diameter(stems, StemRule::root_of_sum_of_squares));
    EXPECT_NEAR(one / together, 1.0, 1e-7);
}

}  // namespace
}  // namespace ashtriage::measure
