#include "weather/weather_check.hpp"

#include <fmt/format.h>

#include <map>
#include <utility>

#include "measure/units.hpp"

namespace ashtriage::weather {

namespace units = measure::units;

namespace {

constexpr double coldest_celsius = -89.2;
constexpr double hottest_celsius = 56.7;
constexpr double wettest_millimetres = 1825.0;
constexpr double windiest_metres_per_second = 113.2;

double to_celsius(double fahrenheit) {
    return (fahrenheit - 32.0) / 1.8;
}

bool on_earth(double celsius) {
    return celsius >= coldest_celsius && celsius <= hottest_celsius;
}

// The unit in which a temperature too hot for its own would be an ordinary one, in words.
std::string other_unit_hint(double written, const ElementUnit& unit) {
    const bool celsius = unit.temperature == &units::celsius && unit.parts == 1.0;
    if (celsius && written > 0.0 && on_earth(to_celsius(written))) {
        return "in F it would be an ordinary temperature: is the unit right?";
    }
    if (on_earth(written / 10.0)) {
        return "in tenths of a degree C it would be an ordinary temperature: is the unit right?";
    }
    return "if nothing was measured that day, leave the field empty";
}

bool outside(const Reading& reading, std::string& range) {
    const double value = reading.value / reading.unit->parts;
    if (reading.unit->temperature != nullptr) {
        const bool fahrenheit = reading.unit->temperature == &units::fahrenheit;
        range = fahrenheit ? "-128.6 to 134.1 F" : "-89.2 to 56.7 C";
        return !on_earth(fahrenheit ? to_celsius(value) : value);
    }
    if (reading.unit->length != nullptr) {
        range = "0 to 1,825 mm of rain in a day";
        const double most = wettest_millimetres * static_cast<double>(units::millimetre.ticks) /
                            static_cast<double>(reading.unit->length->ticks);
        return value < 0.0 || value > most;
    }
    range = "0 to 113.2 m/s of wind";
    const double most = windiest_metres_per_second *
                        static_cast<double>(units::metre_per_second.ticks) /
                        static_cast<double>(reading.unit->speed->ticks);
    return value < 0.0 || value > most;
}

struct MonthMean {
    double sum = 0.0;
    int days = 0;

    double mean() const { return sum / days; }
};

constexpr int enough_days = 20;

// By year and month.
using MonthMeans = std::map<std::pair<int, unsigned>, MonthMean>;

MonthMeans month_means(const WeatherSeries& series) {
    MonthMeans months;
    for (const WeatherDay& day : series.days) {
        if (!day.has_temperatures()) continue;
        MonthMean& month =
            months[{static_cast<int>(day.date.year()), static_cast<unsigned>(day.date.month())}];
        month.sum += (day.minimum->in(units::celsius) + day.maximum->in(units::celsius)) / 2.0;
        ++month.days;
    }
    return months;
}

constexpr unsigned march = 3;
constexpr unsigned april = 4;
constexpr unsigned may = 5;
constexpr unsigned june = 6;
constexpr unsigned july = 7;
constexpr unsigned september = 9;
constexpr unsigned november = 11;

bool in_northern_summer(unsigned month) {
    return month >= may && month <= september;
}

bool in_southern_summer(unsigned month) {
    return month >= november || month <= march;
}

bool is_southern(const WeatherSeries& series, const MonthMeans& months) {
    if (series.place) return series.place->latitude < 0.0;
    MonthMean northern_summer;
    MonthMean southern_summer;
    for (const auto& [when, month] : months) {
        MonthMean* half = in_northern_summer(when.second)   ? &northern_summer
                          : in_southern_summer(when.second) ? &southern_summer
                                                            : nullptr;
        if (half == nullptr) continue;
        half->sum += month.sum;
        half->days += month.days;
    }
    // Where the halves hardly differ, the equator is near, and nothing is to be told from them.
    constexpr double differs = 1.0;
    return northern_summer.days >= enough_days && southern_summer.days >= enough_days &&
           southern_summer.mean() > northern_summer.mean() + differs;
}

// The month of the north in which the year stands where it does in the south.
unsigned six_months_on(unsigned month) {
    return (month + 5) % 12 + 1;
}

// Why a month with that mean is unlikely where trees grow; empty when it is not.
std::string month_doubt(unsigned month_of_year, double mean, bool southern) {
    constexpr double coldest_april = -8.0;
    constexpr double frozen_summer = 0.0;
    constexpr double coldest_june = 8.0;
    constexpr double tree_line = 10.0;
    constexpr double hot_winter = 30.0;
    const unsigned month = southern ? six_months_on(month_of_year) : month_of_year;
    if (month == july && mean < tree_line) {
        return "trees do not grow where midsummer is colder than 10 C (50 F)";
    }
    if (month == june && mean < coldest_june) {
        return "where trees are treated the first month of summer is warmer than 8 C (46 F)";
    }
    if (in_northern_summer(month) && mean < frozen_summer) {
        return "that is frost in the middle of the growing season";
    }
    if (month == april && mean < coldest_april) {
        return "where trees are treated the second month of spring is warmer than -8 C (18 F)";
    }
    if (in_southern_summer(month) && mean > hot_winter) {
        return "that is the heat of a desert in winter";
    }
    return {};
}

// The first month that is in doubt.
std::string doubt_of_months(const WeatherSeries& series) {
    const MonthMeans months = month_means(series);
    const bool southern = is_southern(series, months);
    for (const auto& [when, month] : months) {
        if (month.days < enough_days) continue;
        const std::string doubt = month_doubt(when.second, month.mean(), southern);
        if (doubt.empty()) continue;
        return fmt::format("the mean temperature of {}-{:02} would be {:.1f} C ({:.1f} F): {}",
                           when.first, when.second, month.mean(), month.mean() * 1.8 + 32.0, doubt);
    }
    return {};
}

std::string doubt_of_swing(const WeatherSeries& series) {
    const double swing = mean_swing_celsius(series);
    if (swing == 0.0 || swing >= smallest_swing_celsius) return {};
    return fmt::format("from night to day it would warm by only {:.1f} C ({:.1f} F) on average",
                       swing, swing * 1.8);
}

}  // namespace

std::optional<packs::Problem> beyond_records(const Reading& reading, const std::string& file) {
    std::string range;
    if (!outside(reading, range)) return std::nullopt;
    std::string hint = "if nothing was measured that day, leave the field empty";
    if (reading.unit->temperature != nullptr) hint = other_unit_hint(reading.value, *reading.unit);
    return packs::Problem{
        "impossible-value",
        file,
        {reading.line, 0},
        fmt::format("{} ({}) on {} lies outside anything measured on earth, {}", reading.value,
                    reading.unit->name, measure::text(reading.date), range),
        std::move(hint),
        {}};
}

void check_unit(const WeatherSeries& series, const std::string& file, packs::Problems& problems) {
    std::string doubt = doubt_of_months(series);
    if (doubt.empty()) doubt = doubt_of_swing(series);
    if (doubt.empty()) return;
    problems.add({"unit-doubtful",
                  file,
                  {},
                  std::move(doubt),
                  "C read as F, or F as C or as tenths of a degree? If the unit is right, say so "
                  "with --unit-checked",
                  {}});
}

bool is_southern(const WeatherSeries& series) {
    return is_southern(series, month_means(series));
}

double mean_swing_celsius(const WeatherSeries& series) {
    constexpr int enough = 60;
    double sum = 0.0;
    int days = 0;
    for (const WeatherDay& day : series.days) {
        if (!day.has_temperatures()) continue;
        sum += day.maximum->in(units::celsius)-day.minimum->in(units::celsius);
        ++days;
    }
    return days < enough ? 0.0 : sum / days;
}

}  // namespace ashtriage::weather
