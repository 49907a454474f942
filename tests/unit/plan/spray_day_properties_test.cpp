// What may never happen, whatever is known of a day.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>

#include "good_day.hpp"

namespace ashtriage::plan {
namespace {

using measure::Percent;
using treat::SoilState;
using namespace test;  // the day and what it is held against
namespace units = measure::units;

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
