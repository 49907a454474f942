// The seasons that come with the program.
#include <gtest/gtest.h>

#include <algorithm>

#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "season/read_seasons.hpp"
#include "season/window.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::Date;

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

bool in_spring_or_summer(const Date& date) {
    const TimeOfYear time = time_of_year(date);
    return time == TimeOfYear::spring || time == TimeOfYear::summer;
}

// From Florida to northern Canada and from coast to coast, low and high, and no place at all.
std::vector<std::optional<Location>> places() {
    std::vector<std::optional<Location>> all{std::nullopt};
    for (const double latitude : {26.0, 34.0, 39.0, 41.8, 45.0, 50.0, 60.0}) {
        for (const double longitude : {-125.0, -105.0, -88.0, -78.0, -65.0}) {
            for (const double feet : {0.0, 700.0, 6000.0}) {
                all.push_back(
                    Location{latitude, longitude, measure::Length::of(feet, measure::units::foot)});
            }
        }
    }
    return all;
}

TEST(ShippedSeasons, LeaveOutAutumnAndWinterForEveryMethod) {
    ASSERT_EQ(shipped().methods.size(), 7U);
    for (const MethodSeason& season : shipped().methods) {
        for (const TimeOfYear time : {TimeOfYear::autumn, TimeOfYear::winter}) {
            EXPECT_NE(std::find(season.never_in.begin(), season.never_in.end(), time),
                      season.never_in.end())
                << season.method;
        }
    }
}

// Every day of three years, one of them a leap year, at every place and for every method.
TEST(ShippedSeasons, NeverPutATreatmentInAutumnOrWinter) {
    const Date first = measure::parse_date("2026-01-01");
    const Date last = measure::parse_date("2028-12-31");
    std::size_t seen = 0;
    for (const auto& place : places()) {
        for (const MethodSeason& season : shipped().methods) {
            for (Date day = first; day <= last; day = measure::add_days(day, 1)) {
                const NextWindow next = next_window(shipped(), season.method, place, day);
                if (!next.window) continue;
                ++seen;
                const Window& window = *next.window;
                ASSERT_TRUE(in_spring_or_summer(window.opens)) << measure::text(window.opens);
                ASSERT_TRUE(in_spring_or_summer(window.closes)) << measure::text(window.closes);
                ASSERT_EQ(window.opens.year(), window.closes.year());
                ASSERT_LE(window.opens, window.best_until);
                ASSERT_LE(window.best_until, window.closes);
                ASSERT_GE(window.closes, day) << "a window that has passed was offered";
                ASSERT_EQ(next.state == WindowState::open_now, window.contains(day));
                ASSERT_EQ(next.state == WindowState::passed_so_next_year,
                          window.opens.year() > day.year());
            }
        }
    }
    EXPECT_GT(seen, 0U);
}

// Imidacloprid goes before beetles feed, the leaf-bound methods after leaf-out (Herms et al. 2009).
TEST(ShippedSeasons, DrenchImidaclopridBeforeTheLeafBoundMethods) {
    const auto opens = [](std::string_view method) {
        return window_for(shipped(), method, std::nullopt, 2026)->opens;
    };
    EXPECT_LT(opens("soil_drench_imidacloprid"), opens("basal_spray_dinotefuran"));
    EXPECT_LT(opens("soil_drench_imidacloprid"), opens("trunk_injection_emamectin"));
}

// Sources disagree on autumn imidacloprid, so it is explained and not computed.
TEST(ShippedSeasons, ExplainWhyAutumnImidaclopridIsNotOffered) {
    ASSERT_EQ(shipped().not_offered.size(), 1U);
    EXPECT_NE(shipped().not_offered[0].title.find("imidacloprid"), std::string::npos);
    EXPECT_GE(shipped().not_offered[0].sources.size(), 2U);
    EXPECT_TRUE(shipped().not_offered[0].on_request);
}

// From years without a spring to years that are all summer, with leaves out in March or never
// before autumn.
TEST(ShippedSeasons, NeverPutATreatmentInAutumnOrWinterHoweverWarmTheYear) {
    std::size_t none = 0;
    for (double each_day = 0.5; each_day < 40.0; each_day += 0.5) {
        for (const char* leaf_out : {"2026-03-20", "2026-05-12", "2026-07-01", "2026-09-20"}) {
            const KnownYear known{test::whole_year(2026, each_day),
                                  {},
                                  measure::parse_date(leaf_out),
                                  {{"black_locust_full_bloom", measure::parse_date("2026-05-20")}}};
            for (const MethodSeason& season : shipped().methods) {
                const WindowOfYear found = window_for(shipped(), season, std::nullopt, 2026, known);
                if (!found.window) {
                    ++none;
                    EXPECT_FALSE(found.why_none.empty());
                    continue;
                }
                EXPECT_TRUE(in_spring_or_summer(found.window->opens)) << season.method;
                EXPECT_TRUE(in_spring_or_summer(found.window->closes)) << season.method;
                EXPECT_LE(found.window->opens, found.window->best_until);
                EXPECT_LE(found.window->best_until, found.window->closes);
                EXPECT_FALSE(found.window->opens_by.words.empty());
                EXPECT_FALSE(found.window->closes_by.words.empty());
            }
        }
    }
    EXPECT_GT(none, 0U);
}

}  // namespace
}  // namespace ashtriage::season
