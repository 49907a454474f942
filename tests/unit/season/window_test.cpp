#include "season/window.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::Date;
using measure::parse_date;
using testing::Contains;
using testing::HasSubstr;

const Seasons& seasons() {
    static const Seasons read = test::seasons_of(test::two_methods);
    return read;
}

Location north(double degrees) {
    return {40.0 + degrees, -90.0, measure::Length::of("500", measure::units::foot)};
}

Window window(std::string_view method, const std::optional<Location>& location) {
    const auto found = window_for(seasons(), method, location, 2026);
    EXPECT_TRUE(found);
    return found.value_or(Window());
}

TEST(Window, IsTheAnchorsOwnWithoutALocation) {
    const Window found = window("spring_drench", std::nullopt);
    EXPECT_EQ(found.opens, parse_date("2026-04-10"));
    EXPECT_EQ(found.best_until, parse_date("2026-04-20"));
    EXPECT_EQ(found.closes, parse_date("2026-05-10"));
    EXPECT_EQ(found.moved_days, 0);
    EXPECT_EQ(found.give_or_take_days, 10);
    EXPECT_FALSE(found.cautions.empty());
}

TEST(Window, BothEndsBelongToIt) {
    const Window found = window("spring_drench", std::nullopt);
    EXPECT_FALSE(found.contains(parse_date("2026-04-09")));
    EXPECT_TRUE(found.contains(parse_date("2026-04-10")));
    EXPECT_TRUE(found.contains(parse_date("2026-05-10")));
    EXPECT_FALSE(found.contains(parse_date("2026-05-11")));
}

TEST(Window, MovesFourDaysForADegreeNorth) {
    const Window found = window("spring_drench", north(1.0));
    EXPECT_EQ(found.moved_days, 4);
    EXPECT_EQ(found.opens, parse_date("2026-04-14"));
    EXPECT_EQ(found.closes, parse_date("2026-05-14"));
}

// Half a day is 0.125 degrees north.
TEST(Window, RoundsHalfADayAwayFromNothing) {
    EXPECT_EQ(window("spring_drench", north(0.125)).moved_days, 1);
    EXPECT_EQ(window("spring_drench", north(-0.125)).moved_days, -1);
    EXPECT_EQ(window("spring_drench", north(0.12)).moved_days, 0);
}

TEST(Window, KeepsTheEndOfSummerWhereItIs) {
    EXPECT_EQ(window("summer_injection", north(5.0)).closes, parse_date("2026-08-31"));
    EXPECT_EQ(window("summer_injection", north(-5.0)).closes, parse_date("2026-08-31"));
}

TEST(Window, IsCutOffAtTheFirstOfMarchAndSaysSo) {
    const Window found = window("spring_drench", north(-12.0));  // 48 days: opens on 21 February
    EXPECT_EQ(found.opens, parse_date("2026-03-01"));
    EXPECT_EQ(found.closes, parse_date("2026-03-23"));
    EXPECT_THAT(found.cautions, Contains(HasSubstr("cut off")));
}

TEST(Window, IsNoneWhenNoDayIsLeft) {
    EXPECT_FALSE(window_for(seasons(), "summer_injection", north(30.0), 2026));
    EXPECT_EQ(
        next_window(seasons(), "summer_injection", north(30.0), parse_date("2026-06-01")).state,
        WindowState::none_here);
}

TEST(NextWindow, IsOpenOnItsFirstAndLastDay) {
    const auto state = [](std::string_view date) {
        return next_window(seasons(), "spring_drench", std::nullopt, parse_date(date));
    };
    EXPECT_EQ(state("2026-04-09").state, WindowState::opens_later_this_year);
    EXPECT_EQ(state("2026-04-09").days_until_open, 1);
    EXPECT_EQ(state("2026-04-10").state, WindowState::open_now);
    EXPECT_EQ(state("2026-04-10").days_left, 30);
    EXPECT_FALSE(state("2026-04-20").past_best);
    EXPECT_TRUE(state("2026-04-21").past_best);
    EXPECT_EQ(state("2026-05-10").state, WindowState::open_now);
    EXPECT_EQ(state("2026-05-10").days_left, 0);
    EXPECT_EQ(state("2026-05-11").state, WindowState::passed_so_next_year);
    EXPECT_EQ(state("2026-05-11").window->opens, parse_date("2027-04-10"));
}

TEST(NextWindow, CountsTheDaysToNextYearsOpening) {
    const NextWindow next =
        next_window(seasons(), "spring_drench", std::nullopt, parse_date("2026-12-31"));
    EXPECT_EQ(next.state, WindowState::passed_so_next_year);
    EXPECT_EQ(next.days_until_open, 100);  // 31 + 28 + 31 + 10
}

TEST(NextWindow, RefusesAnUnknownMethod) {
    EXPECT_THROW(next_window(seasons(), "moon_phase", std::nullopt, parse_date("2026-05-01")),
                 measure::InputError);
}

}  // namespace
}  // namespace ashtriage::season
