// What is said to have been seen and cannot have been.
#include "season/seen_check.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::parse_date;
using test::whole_year;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const Seasons& seasons() {
    static const Seasons read = test::seasons_of(test::known_methods);
    return read;
}

KnownYear leaf_out(const char* date) {
    KnownYear known;
    known.leaf_out = parse_date(date);
    return known;
}

KnownYear blossom(const char* date) {
    KnownYear known;
    known.cues = {{"blossom", parse_date(date)}};
    return known;
}

std::vector<std::string> reasons(const KnownYear& known, const std::vector<Location>& places = {}) {
    std::vector<std::string> found;
    for (const SeenDoubt& doubt : doubts_of_seen(seasons(), places, known)) {
        found.push_back(doubt.of + ": " + doubt.why);
    }
    return found;
}

// The leaves stand for 15 May, for 29 May (three days before 1 June) and for 21 May (thirty before
// 20 June): 40 days before the first of them is 5 April, 40 after the last 8 July.
TEST(DoubtsOfSeen, RefuseALeafOutFarFromTheCalendar) {
    EXPECT_THAT(reasons(leaf_out("2026-04-05")), IsEmpty());
    EXPECT_THAT(
        reasons(leaf_out("2026-04-04")),
        ElementsAre("leaf_out: Full leaf-out on 4 April 2026 cannot be: in a usual year it is "
                    "between 15 May 2026 and 29 May 2026"));
    EXPECT_THAT(reasons(leaf_out("2026-07-08")), IsEmpty());
    EXPECT_THAT(reasons(leaf_out("2026-07-09")), ElementsAre(HasSubstr("9 July 2026")));
}

// The plant stands for 25 May and for 24 May (seven days before 31 May).
TEST(DoubtsOfSeen, RefuseABloomFarFromTheCalendar) {
    EXPECT_THAT(reasons(blossom("2026-02-28")),
                ElementsAre(HasSubstr("Blossom on 28 February 2026 cannot be")));
    EXPECT_THAT(reasons(blossom("2026-04-14")), IsEmpty());
    EXPECT_THAT(reasons(blossom("2026-04-13")), ElementsAre(HasSubstr("13 April")));
    EXPECT_THAT(reasons(blossom("2026-07-04")), IsEmpty());
    EXPECT_THAT(reasons(blossom("2026-07-05")), ElementsAre(HasSubstr("5 July")));
}

TEST(DoubtsOfSeen, MoveTheCalendarToThePlacesAndBelieveWhatOneOfThemAllows) {
    // Five degrees further south: twenty days earlier.
    const Location south{35.0, -90.0, {}};
    const Location north{45.0, -90.0, {}};
    EXPECT_THAT(reasons(blossom("2026-03-25"), {south}), IsEmpty());
    EXPECT_THAT(reasons(blossom("2026-03-25"), {north}), ElementsAre(HasSubstr("13 June 2026")));
    EXPECT_THAT(reasons(blossom("2026-03-25"), {north, south}), IsEmpty());
}

// Ten degree days a day: the blossom is published for 470 to 550, so from 235, day 24, to 1,100,
// day 110, 20 April.
TEST(DoubtsOfSeen, BelieveTheDegreeDaysBeforeTheCalendar) {
    const auto warm = [](const char* date) {
        KnownYear known = blossom(date);
        known.heat = whole_year(2026, 10.0);
        return known;
    };
    EXPECT_THAT(reasons(warm("2026-02-28")), IsEmpty());
    EXPECT_THAT(reasons(warm("2026-01-24")), IsEmpty());
    EXPECT_THAT(reasons(warm("2026-01-23")),
                ElementsAre(HasSubstr("230.0 degree days F had come by then, and it is seen at 470 "
                                      "to 550")));
    EXPECT_THAT(reasons(warm("2026-04-20")), IsEmpty());
    EXPECT_THAT(reasons(warm("2026-04-21")), ElementsAre(HasSubstr("1110.0 degree days")));
}

TEST(DoubtsOfSeen, RefuseALeafOutBeforeAnyWarmthButNotALateOne) {
    const auto of = [](const char* date, double each_day) {
        KnownYear known = leaf_out(date);
        known.heat = whole_year(2026, each_day);
        return known;
    };
    // 30 April is day 120.
    EXPECT_THAT(reasons(of("2026-04-30", 100.0 / 120.0)), IsEmpty());
    EXPECT_THAT(reasons(of("2026-04-30", 0.8)), ElementsAre(HasSubstr("only 96.0 degree days F")));
    EXPECT_THAT(reasons(of("2026-07-08", 10.0)), IsEmpty());
    EXPECT_THAT(reasons(of("2026-07-09", 10.0)), ElementsAre(HasSubstr("usual year")));
}

TEST(DoubtsOfSeen, GoByTheCalendarWhereTheWeatherDoesNotReach) {
    KnownYear known = blossom("2026-05-25");
    known.heat = test::steady_heat(2026, 0.1, 100);
    EXPECT_THAT(reasons(known), IsEmpty());
}

}  // namespace
}  // namespace ashtriage::season
