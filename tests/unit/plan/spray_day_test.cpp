// Each condition of a day at its limit.
#include "plan/spray_day.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "good_day.hpp"

namespace ashtriage::plan {
namespace {

using measure::Percent;
using testing::HasSubstr;
using treat::SoilState;
using namespace test;  // the day and what it is held against
namespace units = measure::units;

TEST(SprayDay, AGoodDayIsAGoAndNeverCalledMore) {
    for (const std::string& method : {basal, injection}) {
        const SprayDay day = screened(method, good_day());
        EXPECT_EQ(day.answer(), DayAnswer::go) << method;
        for (const DayCheck& check : day.checks) {
            EXPECT_THAT(check.known + check.limit, testing::Not(HasSubstr("safe")));
        }
    }
}

TEST(SprayDay, AnExampleCardIsNeverMoreThanACheck) {
    treat::LabelCard card = own_card();
    card.example = true;
    card.from_label.reset();
    const SprayDay day = screened(basal, good_day(), card);
    EXPECT_EQ(day.answer(), DayAnswer::check);
    EXPECT_THAT(check_of(day, DayTopic::label).known, HasSubstr("EXAMPLE"));
}

TEST(SprayDay, WithoutACardItIsNeverMoreThanACheck) {
    EXPECT_EQ(
        screen_day(day_rules_for(rules(), basal), nullptr, season_on(basal), good_day()).answer(),
        DayAnswer::check);
}

TEST(SprayDay, ALabelThatDoesNotNameTheUseIsANoGo) {
    treat::LabelCard card = own_card();
    card.from_label->pests_cover_borer = false;
    EXPECT_EQ(screened(basal, good_day(), card).answer(), DayAnswer::no_go);
}

TEST(SprayDay, ARestrictedProductWaitsForACertifiedApplicator) {
    treat::LabelCard card = own_card();
    card.from_label->restricted_use = true;
    DayFacts day = good_day();
    EXPECT_EQ(answer_of(DayTopic::label, basal, day, card), DayAnswer::go);
    day.certified.reset();
    EXPECT_EQ(answer_of(DayTopic::label, basal, day, card), DayAnswer::check);
}

// The published limit of 2 to 10 mph, both ends in it.
TEST(SprayDay, WindAtTheLimitIsWithinIt) {
    DayFacts day = good_day();
    for (const auto& [wind, expected] :
         {std::pair{"1.99", DayAnswer::check}, std::pair{"2", DayAnswer::go},
          std::pair{"10", DayAnswer::go}, std::pair{"10.01", DayAnswer::no_go}}) {
        day.wind = mph(wind);
        EXPECT_EQ(answer_of(DayTopic::wind, cover, day), expected) << wind;
    }
}

TEST(SprayDay, TheCardsWindLimitGoesBeforeTheRules) {
    treat::LabelCard card = own_card();
    card.conditions.wind_to = mph("15");
    DayFacts day = good_day();
    day.wind = mph("15");
    EXPECT_EQ(answer_of(DayTopic::wind, cover, day, card), DayAnswer::go);
    EXPECT_EQ(check_of(screened(cover, day, card), DayTopic::wind).from, LimitFrom::card);
    day.wind = mph("15.01");
    EXPECT_EQ(answer_of(DayTopic::wind, cover, day, card), DayAnswer::no_go);
}

TEST(SprayDay, TheWorstHourOfTheWorkCounts) {
    DayFacts day = good_day();
    day.work = {at(9), at(12)};
    day.forecast.periods[11].wind = mph("11");
    EXPECT_EQ(answer_of(DayTopic::wind, cover, day), DayAnswer::no_go);
    day.work.to = at(11);  // the windy hour begins when the work is over
    EXPECT_EQ(answer_of(DayTopic::wind, cover, day), DayAnswer::go);
}

TEST(SprayDay, AMeasuredCalmDoesNotUndoAWindThatIsForecast) {
    DayFacts day = good_day();
    day.forecast.periods[9].wind = mph("20");
    day.wind = mph("6");
    EXPECT_EQ(answer_of(DayTopic::wind, cover, day), DayAnswer::no_go);
}

TEST(SprayDay, OneWindForAWholeDayLeavesTheHourOpen) {
    DayFacts day = good_day();
    weather::ForecastPeriod whole = hour_from(at(0));
    whole.time.to = at(0, 0, "2026-05-20");
    whole.daily = true;
    day.wind.reset();
    for (const char* wind : {"3", "30"}) {
        whole.wind = mph(wind);
        day.forecast.periods = {whole};
        EXPECT_EQ(answer_of(DayTopic::wind, cover, day), DayAnswer::check) << wind;
    }
}

// From 40 to 90 F in general (from memory), best below 80 F (read).
TEST(SprayDay, TemperaturesAtTheLimitsAreWithinThem) {
    DayFacts day = good_day();
    for (const auto& [temperature, expected] :
         {std::pair{"39.9", DayAnswer::no_go}, std::pair{"40", DayAnswer::go},
          std::pair{"80", DayAnswer::go}, std::pair{"80.1", DayAnswer::check},
          std::pair{"90", DayAnswer::check}, std::pair{"90.1", DayAnswer::no_go}}) {
        day.temperature = fahrenheit(temperature);
        EXPECT_EQ(answer_of(DayTopic::temperature, injection, day), expected) << temperature;
    }
}

TEST(SprayDay, ADaysExtremesDecideOnlyWhereTheyLeaveNoDoubt) {
    DayFacts day = good_day();
    weather::ForecastPeriod whole = hour_from(at(0));
    whole.time.to = at(0, 0, "2026-05-20");
    whole.daily = true;
    const auto answer = [&](const char* low, const char* high) {
        whole.coolest = fahrenheit(low);
        whole.warmest = fahrenheit(high);
        day.forecast.periods = {whole};
        return answer_of(DayTopic::temperature, injection, day);
    };
    EXPECT_EQ(answer("50", "75"), DayAnswer::go);
    EXPECT_EQ(answer("35", "75"), DayAnswer::check);
    EXPECT_EQ(answer("20", "39"), DayAnswer::no_go);
    EXPECT_EQ(answer("50", "95"), DayAnswer::check);
}

TEST(SprayDay, TheCardsTemperaturesGoBeforeTheRules) {
    treat::LabelCard card = own_card();
    card.conditions.temperature_to = fahrenheit("85");
    DayFacts day = good_day();
    day.temperature = fahrenheit("85");
    EXPECT_EQ(answer_of(DayTopic::temperature, injection, day, card), DayAnswer::go);
    day.temperature = fahrenheit("85.1");
    EXPECT_EQ(answer_of(DayTopic::temperature, injection, day, card), DayAnswer::no_go);
}

// 24 hours after work that ends at ten: the hour from nine is the last that counts.
TEST(SprayDay, RainInTheLastHourIsANoGoAndInTheNextIsNot) {
    DayFacts day = good_day();
    day.forecast.periods[24 + 9].rain = measure::Length::of("0.1", units::inch);
    day.forecast.periods[24 + 9].rain_chance.reset();
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day), DayAnswer::no_go);
    day = good_day();
    day.forecast.periods[24 + 10].rain = measure::Length::of("0.1", units::inch);
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day), DayAnswer::go);
}

TEST(SprayDay, RainDuringTheWorkCounts) {
    DayFacts day = good_day();
    day.forecast.periods[9].rain_chance = Percent::of("100", units::percent);
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day), DayAnswer::no_go);
}

TEST(SprayDay, RainInAnHourThatLiesOnlyPartlyInTheHoursIsPossible) {
    DayFacts day = good_day();
    day.work = {at(9, 30), at(9, 30)};
    day.forecast.periods[24 + 9].rain_chance = Percent::of("100", units::percent);
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day), DayAnswer::check);
}

TEST(SprayDay, AForecastMustReachToTheEndOfTheHours) {
    DayFacts day = good_day();
    day.forecast.periods.resize(24 + 10);  // up to ten of the next day, to the minute
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day), DayAnswer::go);
    day.forecast.periods.pop_back();
    const DayCheck check = check_of(screened(basal, day), DayTopic::rain);
    EXPECT_EQ(check.answer, DayAnswer::check);
    EXPECT_THAT(check.known, HasSubstr("ends too early: nothing is known from 19 May 2026, 09:00"));
}

TEST(SprayDay, AGapInTheForecastIsNamed) {
    DayFacts day = good_day();
    day.forecast.periods.erase(day.forecast.periods.begin() + 15);
    const DayCheck check = check_of(screened(basal, day), DayTopic::rain);
    EXPECT_EQ(check.answer, DayAnswer::check);
    EXPECT_THAT(check.known, HasSubstr("a gap: nothing is known from 18 May 2026, 15:00"));
}

TEST(SprayDay, ChancesOfRainAreReadAsSaid) {
    DayFacts day = good_day();
    const auto with_chance = [&](const char* percent) {
        day.forecast.periods[12].rain.reset();
        day.forecast.periods[12].rain_chance = Percent::of(percent, units::percent);
        return answer_of(DayTopic::rain, basal, day);
    };
    EXPECT_EQ(with_chance("0"), DayAnswer::go);
    EXPECT_EQ(with_chance("1"), DayAnswer::check);
    EXPECT_EQ(with_chance("49"), DayAnswer::check);
    EXPECT_EQ(with_chance("50"), DayAnswer::no_go);
    day.chance_taken = Percent::of("10", units::percent);
    EXPECT_EQ(with_chance("10"), DayAnswer::go);
    EXPECT_EQ(with_chance("11"), DayAnswer::check);
}

TEST(SprayDay, TheCardsHoursGoBeforeTheRules) {
    treat::LabelCard card = own_card();
    card.conditions.rain_free_hours = 6;
    DayFacts day = good_day();
    day.forecast.periods[16].rain_chance = Percent::of("100", units::percent);
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day, card), DayAnswer::go);
    day.forecast.periods[15].rain_chance = Percent::of("100", units::percent);
    EXPECT_EQ(answer_of(DayTopic::rain, basal, day, card), DayAnswer::no_go);
}

// Moist, neither saturated nor very dry, never frozen (the 2009 bulletin; Minnesota 2011).
TEST(SprayDay, SoilThatIsNotMoistIsANoGoForADrench) {
    DayFacts day = good_day();
    for (const SoilState state : {SoilState::dry, SoilState::saturated, SoilState::frozen}) {
        day.soil = state;
        EXPECT_EQ(answer_of(DayTopic::soil, drench, day), DayAnswer::no_go);
    }
    day.soil = SoilState::moist;
    EXPECT_EQ(answer_of(DayTopic::soil, drench, day), DayAnswer::go);
}

TEST(SprayDay, TheCardsSoilStatesGoBeforeTheRules) {
    treat::LabelCard card = own_card();
    card.conditions.soil = {SoilState::dry, SoilState::moist};
    DayFacts day = good_day();
    day.soil = SoilState::dry;
    EXPECT_EQ(answer_of(DayTopic::soil, drench, day, card), DayAnswer::go);
    day.soil = SoilState::frozen;
    EXPECT_EQ(answer_of(DayTopic::soil, drench, day, card), DayAnswer::no_go);
}

TEST(SprayDay, BareTreesWetBarkBloomAndBeesStopWhatTheyMust) {
    DayFacts day = good_day();
    day.leaves_out = false;
    EXPECT_EQ(answer_of(DayTopic::leaves, injection, day), DayAnswer::no_go);
    EXPECT_EQ(answer_of(DayTopic::leaves, basal, day), DayAnswer::no_go);
    day.bark_dry = false;
    EXPECT_EQ(answer_of(DayTopic::bark, basal, day), DayAnswer::no_go);
    day.in_bloom = true;
    EXPECT_EQ(answer_of(DayTopic::bloom, drench, day), DayAnswer::no_go);
    EXPECT_EQ(answer_of(DayTopic::bloom, cover, day), DayAnswer::no_go);
    day.bees = true;
    EXPECT_EQ(answer_of(DayTopic::bees, cover, day), DayAnswer::no_go);
    day.inversion = true;
    EXPECT_EQ(answer_of(DayTopic::inversion, cover, day), DayAnswer::no_go);
}

TEST(SprayDay, ALimitThatNobodySetsIsNamed) {
    EXPECT_THAT(screened(drench, good_day()).no_limit, testing::Contains(DayTopic::wind));
}

// The window of basal sprays at the anchor: 15 May to 15 June, give or take 10 days.
TEST(SprayDay, DaysNearAnEndOfTheWindowAreAQuestionAndFartherOnesANoGo) {
    DayFacts day = good_day();
    day.leaves_out.reset();
    const auto on = [&](const char* date) {
        day.work = {at(9, 0, date), at(10, 0, date)};
        return answer_of(DayTopic::season, basal, day);
    };
    const auto window = *season_on(basal)->window;
    const auto moved = [](const measure::Date& date, int days) {
        return measure::text(measure::add_days(date, days));
    };
    EXPECT_EQ(on(moved(window.opens, window.give_or_take_days).c_str()), DayAnswer::go);
    EXPECT_EQ(on(moved(window.closes, -window.give_or_take_days).c_str()), DayAnswer::go);
    EXPECT_EQ(on(moved(window.opens, window.give_or_take_days - 1).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, 1 - window.give_or_take_days).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.opens, 0).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, 0).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, 1).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, window.give_or_take_days).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, window.give_or_take_days + 1).c_str()), DayAnswer::no_go);
    EXPECT_EQ(on(moved(window.opens, -window.give_or_take_days - 1).c_str()), DayAnswer::no_go);
    EXPECT_EQ(on("2026-10-01"), DayAnswer::no_go);
    // Basal sprays wait for the leaves, and those can be seen.
    day.leaves_out = true;
    EXPECT_EQ(on(moved(window.opens, 0).c_str()), DayAnswer::go);
    EXPECT_EQ(on(moved(window.closes, 0).c_str()), DayAnswer::check);
}

TEST(SprayDay, TheDatesOfAnotherPlaceAreNeverMoreThanACheck) {
    auto season = season_on(basal);
    season->place_known = false;
    const treat::LabelCard card = own_card();
    EXPECT_EQ(screen_day(day_rules_for(rules(), basal), &card, season, good_day()).answer(),
              DayAnswer::check);
}

// The published limits are of wind measured on the spot.
TEST(SprayDay, AForecastOfWindIsNoMeasurement) {
    DayFacts day = good_day();
    EXPECT_EQ(answer_of(DayTopic::wind, basal, day), DayAnswer::go);
    day.wind.reset();
    EXPECT_EQ(answer_of(DayTopic::wind, basal, day), DayAnswer::check);
}

}  // namespace
}  // namespace ashtriage::plan
