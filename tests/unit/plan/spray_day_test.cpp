// Each condition of a day at its limit, and what may never happen whatever is known.
#include "plan/spray_day.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>

#include "built_in_methods.hpp"
#include "measure/units.hpp"
#include "plan/read_day_rules.hpp"

namespace ashtriage::plan {
namespace {

using measure::Percent;
using measure::Speed;
using measure::Temperature;
using std::chrono::minutes;
using test::built_in;
using testing::HasSubstr;
using treat::SoilState;
namespace units = measure::units;

const std::vector<DayRules>& rules() {
    static const auto read = [] {
        std::vector<std::string> methods;
        for (const MethodFacts& method : built_in().methods) methods.push_back(method.method);
        return read_day_rules(packs::built_in_rule_files(), built_in().rules.sources, methods);
    }();
    return read;
}

const std::string cover = "cover_spray";
const std::string basal = "basal_spray_dinotefuran";
const std::string drench = "soil_drench_imidacloprid";
const std::string injection = "trunk_injection_emamectin";

weather::Moment at(int hour, int minute = 0, const char* date = "2026-05-18") {
    return weather::moment(measure::parse_date(date), minutes(hour * 60 + minute));
}

Speed mph(std::string_view number) {
    return Speed::of(number, units::mile_per_hour);
}

Temperature fahrenheit(std::string_view number) {
    return Temperature::of(number, units::fahrenheit);
}

// A card copied from a label that was checked on the day and sets no limit of its own.
treat::LabelCard own_card() {
    treat::LabelCard card;
    card.key = "own";
    card.example = false;
    treat::FromLabel label;
    label.sites_cover_ash = true;
    label.pests_cover_borer = true;
    label.checked_on = measure::parse_date("2026-05-01");
    card.from_label = label;
    return card;
}

std::optional<SeasonOfDay> season_on(const std::string& method) {
    const auto& seasons = built_in().seasons;
    const auto found = std::ranges::find(seasons.methods, method, &season::MethodSeason::method);
    if (found == seasons.methods.end()) return std::nullopt;
    return SeasonOfDay{&*found, season::window_for(seasons, method, std::nullopt, 2026)};
}

weather::ForecastPeriod hour_from(weather::Moment from) {
    weather::ForecastPeriod period;
    period.time = {from, from + std::chrono::hours(1)};
    period.wind = mph("6");
    period.coolest = fahrenheit("65");
    period.warmest = period.coolest;
    period.rain = measure::Length();
    period.rain_chance = Percent();
    return period;
}

// Everything as it should be, from nine to ten, with dry hours forecast for two days.
DayFacts good_day() {
    DayFacts day;
    day.work = {at(9), at(10)};
    for (int hour = 0; hour < 48; ++hour) day.forecast.periods.push_back(hour_from(at(hour)));
    day.soil = SoilState::moist;
    day.bark_dry = true;
    day.leaves_out = true;
    day.in_bloom = false;
    day.bees = false;
    day.inversion = false;
    day.certified = true;
    return day;
}

SprayDay screened(const std::string& method, const DayFacts& day,
                  const treat::LabelCard& card = own_card()) {
    return screen_day(day_rules_for(rules(), method), &card, season_on(method), day);
}

const DayCheck& check_of(const SprayDay& day, DayTopic topic) {
    const auto found = std::ranges::find(day.checks, topic, &DayCheck::topic);
    if (found == day.checks.end()) throw std::invalid_argument("not checked");
    return *found;
}

DayAnswer answer_of(DayTopic topic, const std::string& method, const DayFacts& day,
                    const treat::LabelCard& card = own_card()) {
    return check_of(screened(method, day, card), topic).answer;
}

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
TEST(SprayDay, DaysNearTheWindowAreAQuestionAndFartherOnesANoGo) {
    DayFacts day = good_day();
    const auto on = [&](const char* date) {
        day.work = {at(9, 0, date), at(10, 0, date)};
        return answer_of(DayTopic::season, basal, day);
    };
    const auto window = *season_on(basal)->window;
    const auto moved = [](const measure::Date& date, int days) {
        return measure::text(measure::add_days(date, days));
    };
    EXPECT_EQ(on(moved(window.opens, 0).c_str()), DayAnswer::go);
    EXPECT_EQ(on(moved(window.closes, 0).c_str()), DayAnswer::go);
    EXPECT_EQ(on(moved(window.closes, 1).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, window.give_or_take_days).c_str()), DayAnswer::check);
    EXPECT_EQ(on(moved(window.closes, window.give_or_take_days + 1).c_str()), DayAnswer::no_go);
    EXPECT_EQ(on(moved(window.opens, -window.give_or_take_days - 1).c_str()), DayAnswer::no_go);
    EXPECT_EQ(on("2026-10-01"), DayAnswer::no_go);
}

// --- whatever is known -----------------------------------------------------------------------

class AnyDay : public testing::TestWithParam<unsigned> {
 protected:
    template <class Value>
    Value one_of(std::initializer_list<Value> values) {
        return *(values.begin() +
                 std::uniform_int_distribution<std::ptrdiff_t>(0, std::ssize(values) - 1)(random_));
    }
    bool coin() { return one_of({true, false}); }

    weather::ForecastPeriod any_hour(int hour) {
        weather::ForecastPeriod period = hour_from(at(hour));
        if (coin()) period.wind = mph(one_of({"0", "6", "6", "6", "12"}));
        if (coin()) period.coolest = period.warmest = fahrenheit(one_of({"65", "85", "95"}));
        if (one_of({1, 2, 3, 4, 5, 6, 7, 8, 9}) == 1) {
            period.rain_chance = Percent::of(one_of({"5", "60"}), units::percent);
        }
        return period;
    }

    DayFacts everything_known() {
        DayFacts day = good_day();
        day.forecast.periods.clear();
        for (int hour = 0; hour < 48; ++hour) day.forecast.periods.push_back(any_hour(hour));
        day.wind = mph(one_of({"1", "6", "6", "11"}));
        day.temperature = fahrenheit(one_of({"30", "65", "65", "85"}));
        day.soil = one_of({SoilState::dry, SoilState::moist, SoilState::moist, SoilState::saturated,
                           SoilState::frozen});
        day.bark_dry = one_of({true, true, false});
        day.leaves_out = one_of({true, true, false});
        day.in_bloom = one_of({true, false, false});
        day.bees = one_of({true, false, false});
        day.inversion = one_of({true, false, false});
        return day;
    }

    // The same day with less known of it.
    DayFacts forgetting(DayFacts day) {
        if (coin()) day.wind.reset();
        if (coin()) day.temperature.reset();
        if (coin()) day.soil.reset();
        if (coin()) day.bark_dry.reset();
        if (coin()) day.leaves_out.reset();
        if (coin()) day.in_bloom.reset();
        if (coin()) day.bees.reset();
        if (coin()) day.inversion.reset();
        if (coin()) day.certified.reset();
        for (weather::ForecastPeriod& period : day.forecast.periods) {
            if (coin()) period.wind.reset();
            if (coin()) period.coolest.reset();
        }
        std::erase_if(day.forecast.periods, [&](const auto&) {
            return one_of({1, 2, 3, 4, 5, 6}) == 1;
        });
        if (coin()) day.forecast.periods.clear();
        return day;
    }

    std::mt19937 random_{GetParam()};
};

TEST_P(AnyDay, KnowingMoreNeverTurnsANoGoIntoAnythingElse) {
    int no_gos = 0;
    for (int i = 0; i < 200; ++i) {
        const DayFacts more = everything_known();
        const DayFacts less = forgetting(more);
        for (const std::string& method : {cover, basal, drench, injection}) {
            if (screened(method, less).answer() != DayAnswer::no_go) continue;
            ++no_gos;
            EXPECT_EQ(screened(method, more).answer(), DayAnswer::no_go) << method;
        }
    }
    EXPECT_GT(no_gos, 50);
}

TEST_P(AnyDay, WhatIsNotKnownIsNeverAGo) {
    // All that a method looks at; without any one of them the day is no go.
    const std::vector<std::pair<DayTopic, std::function<void(DayFacts&)>>> forget{
        {DayTopic::leaves, [](DayFacts& day) { day.leaves_out.reset(); }},
        {DayTopic::soil, [](DayFacts& day) { day.soil.reset(); }},
        {DayTopic::bark, [](DayFacts& day) { day.bark_dry.reset(); }},
        {DayTopic::bloom, [](DayFacts& day) { day.in_bloom.reset(); }},
        {DayTopic::bees, [](DayFacts& day) { day.bees.reset(); }},
        {DayTopic::inversion, [](DayFacts& day) { day.inversion.reset(); }},
        {DayTopic::rain, [](DayFacts& day) { day.forecast.periods.clear(); }},
        {DayTopic::wind,
         [](DayFacts& day) {
             day.wind.reset();
             for (auto& period : day.forecast.periods) period.wind.reset();
         }},
        {DayTopic::temperature,
         [](DayFacts& day) {
             day.temperature.reset();
             for (auto& period : day.forecast.periods) period.coolest.reset();
         }},
    };
    for (int i = 0; i < 50; ++i) {
        const DayFacts known = everything_known();
        for (const std::string& method : {cover, basal, drench, injection}) {
            for (const auto& [topic, remove] : forget) {
                DayFacts day = known;
                remove(day);
                const SprayDay result = screened(method, day);
                const bool limited =
                    std::ranges::find(result.no_limit, topic) == result.no_limit.end();
                if (!limited) continue;
                EXPECT_NE(check_of(result, topic).answer, DayAnswer::go)
                    << method << ", " << words(topic);
            }
        }
    }
}

TEST_P(AnyDay, TheWholeIsTheWorstOfItsChecks) {
    for (int i = 0; i < 50; ++i) {
        const SprayDay day = screened(cover, forgetting(everything_known()));
        const bool no_go = std::ranges::any_of(
            day.checks, [](const DayCheck& check) { return check.answer == DayAnswer::no_go; });
        EXPECT_EQ(day.answer() == DayAnswer::no_go, no_go);
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, AnyDay, testing::Range(1U, 6U));

}  // namespace
}  // namespace ashtriage::plan
