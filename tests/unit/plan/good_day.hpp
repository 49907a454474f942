// A day that is as it has to be, and cards and methods to hold it against.
#pragma once

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "built_in_methods.hpp"
#include "measure/units.hpp"
#include "plan/read_day_rules.hpp"
#include "plan/spray_day.hpp"

namespace ashtriage::plan::test {

using measure::Percent;
using measure::Speed;
using measure::Temperature;
using std::chrono::minutes;
using treat::SoilState;
namespace units = measure::units;

inline const std::vector<DayRules>& rules() {
    static const auto read = [] {
        std::vector<std::string> methods;
        for (const MethodFacts& method : built_in().methods) methods.push_back(method.method);
        return read_day_rules(packs::built_in_rule_files(), built_in().rules.sources, methods);
    }();
    return read;
}

inline const std::string cover = "cover_spray";
inline const std::string basal = "basal_spray_dinotefuran";
inline const std::string drench = "soil_drench_imidacloprid";
inline const std::string injection = "trunk_injection_emamectin";

inline weather::Moment at(int hour, int minute = 0, const char* date = "2026-05-18") {
    return weather::moment(measure::parse_date(date), minutes(hour * 60 + minute));
}

inline Speed mph(std::string_view number) {
    return Speed::of(number, units::mile_per_hour);
}

inline Temperature fahrenheit(std::string_view number) {
    return Temperature::of(number, units::fahrenheit);
}

// A card copied from a label that was checked on the day and sets no limit of its own.
inline treat::LabelCard own_card() {
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

inline std::optional<SeasonOfDay> season_on(const std::string& method) {
    const auto& seasons = built_in().seasons;
    const auto found = std::ranges::find(seasons.methods, method, &season::MethodSeason::method);
    if (found == seasons.methods.end()) return std::nullopt;
    return SeasonOfDay{&*found, season::window_for(seasons, method, std::nullopt, 2026)};
}

inline weather::ForecastPeriod hour_from(weather::Moment from) {
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
inline DayFacts good_day() {
    DayFacts day;
    day.work = {at(9), at(10)};
    for (int hour = 0; hour < 48; ++hour) day.forecast.periods.push_back(hour_from(at(hour)));
    day.wind = mph("6");
    day.soil = SoilState::moist;
    day.bark_dry = true;
    day.leaves_out = true;
    day.in_bloom = false;
    day.bees = false;
    day.inversion = false;
    day.certified = true;
    return day;
}

inline SprayDay screened(const std::string& method, const DayFacts& day,
                         const treat::LabelCard& card = own_card()) {
    return screen_day(day_rules_for(rules(), method), &card, season_on(method), day);
}

inline const DayCheck& check_of(const SprayDay& day, DayTopic topic) {
    const auto found = std::ranges::find(day.checks, topic, &DayCheck::topic);
    if (found == day.checks.end()) throw std::invalid_argument("not checked");
    return *found;
}

inline DayAnswer answer_of(DayTopic topic, const std::string& method, const DayFacts& day,
                           const treat::LabelCard& card = own_card()) {
    return check_of(screened(method, day, card), topic).answer;
}

}  // namespace ashtriage::plan::test
