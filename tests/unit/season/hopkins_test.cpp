#include "season/hopkins.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::InputError;
using measure::Length;
using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
namespace units = measure::units;

Anchor anchor() {
    return test::seasons_of(test::two_methods).anchor;
}

TEST(HopkinsDays, TakesAnUnknownElevationAsTheAnchors) {
    EXPECT_EQ(hopkins_days(anchor(), {42.0, -90.0, std::nullopt}),
              hopkins_days(anchor(), {42.0, -90.0, Length::of("500", units::foot)}));
    EXPECT_THAT(cautions_about(anchor(), Location{42.0, -90.0, std::nullopt}),
                Contains(HasSubstr("elevation")));
}

TEST(HopkinsDays, RefusesPlacesTheDatesAreNotFor) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const Location& wrong :
         {Location{-0.1, -90.0, {}}, Location{40.0, 0.1, {}}, Location{90.1, -90.0, {}},
          Location{40.0, -180.1, {}}, Location{nan, -90.0, {}}, Location{40.0, nan, {}},
          Location{40.0, -90.0, Length::of("9001", units::metre)}}) {
        EXPECT_THROW(hopkins_days(anchor(), wrong), InputError)
            << wrong.latitude << ' ' << wrong.longitude;
    }
}

TEST(HopkinsDays, RemindsThatWestIsNegative) {
    try {
        hopkins_days(anchor(), {40.0, 90.0, {}});
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.hint(), HasSubstr("west is negative"));
    }
}

TEST(CautionsAboutAPlace, WarnFromTenDegreesOfLongitudeOn) {
    const Length elevation = Length::of("500", units::foot);
    const auto unreliable = HasSubstr("unreliable");
    EXPECT_THAT(cautions_about(anchor(), Location{40.0, -80.01, elevation}),
                Not(Contains(unreliable)));
    EXPECT_THAT(cautions_about(anchor(), Location{40.0, -80.0, elevation}), Contains(unreliable));
    EXPECT_THAT(cautions_about(anchor(), Location{40.0, -100.0, elevation}), Contains(unreliable));
}

TEST(CautionsAboutAPlace, GoByWhatTheUserSaysOfTheShore) {
    Location place{40.0, -90.0, Length::of("500", units::foot)};
    EXPECT_THAT(cautions_about(anchor(), place), Contains(HasSubstr("can be weeks later")));
    place.by_shore = true;
    EXPECT_THAT(cautions_about(anchor(), place),
                Contains(HasSubstr("24 days too early at the shore of Lake Superior")));
    place.by_shore = false;
    EXPECT_THAT(cautions_about(anchor(), place), Not(Contains(HasSubstr("lake"))));
}

TEST(CautionsAboutAPlace, SayHowFarTheLawWasOffInland) {
    const auto inland = HasSubstr("within 3 days at five inland stations");
    Location place{40.0, -90.0, Length::of("500", units::foot)};
    EXPECT_THAT(cautions_about(anchor(), place),
                AllOf(Contains(inland), Contains(HasSubstr("24 days too early"))));
    place.by_shore = false;
    EXPECT_THAT(cautions_about(anchor(), place), Contains(inland));
    place.by_shore = true;
    EXPECT_THAT(cautions_about(anchor(), place), Not(Contains(inland)));
}

TEST(CautionsAboutAPlace, SayWhereThereIsHardlyAnyAsh) {
    const auto no_ash = HasSubstr("hardly any ash");
    EXPECT_THAT(cautions_about(anchor(), Location{54.0, -97.0, {}}), Not(Contains(no_ash)));
    EXPECT_THAT(cautions_about(anchor(), Location{54.1, -97.0, {}}), Contains(no_ash));
    EXPECT_THAT(cautions_about(anchor(), Location{47.5, -52.7, {}}), Not(Contains(no_ash)));
    EXPECT_THAT(cautions_about(anchor(), Location{51.5, -0.1, {}}), Contains(no_ash));
}

TEST(CautionsAboutAPlace, SayWhoseDatesAreShownWhenThereIsNoPlace) {
    EXPECT_THAT(cautions_about(anchor(), std::nullopt), Contains(HasSubstr("Anchor Town")));
}

}  // namespace
}  // namespace ashtriage::season
