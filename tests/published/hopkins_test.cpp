// Hopkins' law against its own statement and against published dates of one spring event, the first
// adult beetles of emerald ash borer.
//
// Coordinates and elevations of the places are from memory, good to a few tenths of a degree and
// some hundred feet, which is a day or two.
#include "season/hopkins.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "measure/date.hpp"
#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "season/read_seasons.hpp"

namespace ashtriage::season {
namespace {

using measure::Date;
namespace units = measure::units;

const Seasons& shipped() {
    static const Seasons seasons = [] {
        const auto files = packs::built_in_rule_files();
        packs::Problems problems;
        const auto sources = packs::read_sources(files, problems);
        problems.throw_if_any();
        return read_seasons(files, sources);
    }();
    return seasons;
}

Location place(double latitude, double longitude, double feet) {
    return {latitude, longitude, measure::Length::of(feet, units::foot)};
}

// Hopkins 1918, as quoted in the Leopold papers: four days later for each degree north, each 400
// feet up and each five degrees east.
TEST(HopkinsLaw, IsFourDaysPerDegreeNorthPer400FeetUpAndPer5DegreesEast) {
    Anchor anchor;
    anchor.latitude = 40.0;
    anchor.longitude = -90.0;
    anchor.elevation = measure::Length::of("500", units::foot);
    EXPECT_NEAR(hopkins_days(anchor, place(41.0, -90.0, 500)), 4.0, 1e-9);
    EXPECT_NEAR(hopkins_days(anchor, place(40.0, -90.0, 900)), 4.0, 1e-9);
    EXPECT_NEAR(hopkins_days(anchor, place(40.0, -85.0, 500)), 4.0, 1e-9);
    EXPECT_NEAR(hopkins_days(anchor, place(39.0, -95.0, 100)), -12.0, 1e-9);
    EXPECT_NEAR(hopkins_days(anchor, place(40.0, -90.0, 500)), 0.0, 1e-9);
}

// How many days the law is off when it moves a date from northern Illinois: positive, too late.
int error_days(const Location& at, Date observed, Date observed_at_anchor) {
    const auto moved = static_cast<int>(std::lround(hopkins_days(shipped().anchor, at)));
    return measure::days_between(observed, measure::add_days(observed_at_anchor, moved));
}

Date day(int year, unsigned month, unsigned in_month) {
    return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(in_month)};
}

// University of Illinois Extension, Home, Yard & Garden Pest Newsletter no. 3, 11 May 2015: about
// 11 May in the south, about 18 May in the centre, early June (taken as 3 June) in the north.
TEST(HopkinsLaw, AgreesWithinTheStatedErrorAlongIllinoisIn2015) {
    const int allowed = shipped().give_or_take_days;
    EXPECT_LE(std::abs(error_days(place(37.7, -89.2, 400), day(2015, 5, 11), day(2015, 6, 3))),
              allowed);
    EXPECT_LE(std::abs(error_days(place(40.1, -88.2, 730), day(2015, 5, 18), day(2015, 6, 3))),
              allowed);
}

// Illinois rule of thumb, Memorial Day (about 27 May; University of Illinois Extension 2014, 2016),
// against Minnesota, end of May or early June (Minnesota Department of Agriculture 2020; taken as
// 1 June).
TEST(HopkinsLaw, AgreesWithinTheStatedErrorForMinnesota) {
    EXPECT_LE(std::abs(error_days(place(45.0, -93.2, 850), day(2020, 6, 1), day(2020, 5, 27))),
              shipped().give_or_take_days);
}

// Rochester, New York, beside Lake Ontario: about 30 May 2013 (Democrat and Chronicle, 30 May
// 2013), against the Illinois rule of thumb. The law is known to fail there, and the reader is
// told.
TEST(HopkinsLaw, FailsInTheFarEastAndSaysSo) {
    const Location rochester = place(43.2, -77.6, 500);
    EXPECT_NE(error_days(rochester, day(2013, 5, 30), day(2013, 5, 27)), 0);
    const auto cautions = cautions_about(shipped().anchor, rochester);
    EXPECT_TRUE(std::any_of(cautions.begin(), cautions.end(), [](const std::string& caution) {
        return caution.find("unreliable") != std::string::npos;
    }));
}

}  // namespace
}  // namespace ashtriage::season
