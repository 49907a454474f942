// Weather of another place than that of the trees.
#include "season/station_place.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/units.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::Length;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Length feet(const char* number) {
    return Length::of(number, measure::units::foot);
}

weather::HeatTotals heat_at(double latitude, double longitude, std::optional<Length> elevation) {
    weather::HeatTotals heat = test::steady_heat(2026, 10.0, 10);
    heat.place = weather::StationPlace{latitude, longitude, elevation};
    return heat;
}

TEST(CautionAboutAStation, GivesTheDistanceAndTheDaysOfHopkinsLaw) {
    // 5 degrees north is 20 days later, 5 west 4 earlier, 400 feet up 4 later.
    EXPECT_THAT(caution_about_station(heat_at(42.0, -87.0, feet("700")),
                                      Location{47.0, -92.0, feet("1100")}),
                AllOf(HasSubstr("Anchor Town lies 5.0 degrees of latitude south, 5.0 degrees of "
                                "longitude east and 400 feet lower"),
                      HasSubstr("about 20 days later at the trees")));
    EXPECT_THAT(caution_about_station(heat_at(47.0, -92.0, {}), Location{42.0, -92.0, {}}),
                HasSubstr("about 20 days earlier"));
}

TEST(CautionAboutAStation, BeginsBeyondHalfADegreeOrThreeHundredFeet) {
    const auto caution = [](double latitude, double longitude, const char* elevation) {
        return caution_about_station(heat_at(latitude, longitude, feet(elevation)),
                                     Location{42.0, -88.0, feet("700")});
    };
    EXPECT_THAT(caution(42.5, -88.5, "1000"), IsEmpty());
    EXPECT_THAT(caution(42.51, -88.0, "700"), Not(IsEmpty()));
    EXPECT_THAT(caution(42.0, -87.49, "700"), Not(IsEmpty()));
    EXPECT_THAT(caution(42.0, -88.0, "399"), HasSubstr("301 feet lower"));
}

TEST(CautionAboutAStation, LeavesOutHeightsOfWhichOneIsNotKnown) {
    EXPECT_THAT(
        caution_about_station(heat_at(42.0, -88.0, {}), Location{43.0, -88.0, feet("5000")}),
        AllOf(HasSubstr("about 4 days later"), Not(HasSubstr("feet"))));
    EXPECT_THAT(
        caution_about_station(heat_at(42.0, -88.0, feet("5000")), Location{42.0, -88.0, {}}),
        IsEmpty());
}

TEST(CautionAboutAStation, SaysNothingWhereTheFileDoesNotSayWhereItIs) {
    const auto heat = test::steady_heat(2026, 10.0, 10);
    EXPECT_THAT(caution_about_station(heat, Location{47.0, -92.0, {}}), IsEmpty());
    EXPECT_FALSE(location_of_station(heat));
}

}  // namespace
}  // namespace ashtriage::season
