// Days and temperatures for tests, shortly written.
#pragma once

#include <string>

#include "measure/date.hpp"
#include "measure/units.hpp"
#include "weather/daily_weather.hpp"

namespace ashtriage::weather::test {

inline measure::Temperature fahrenheit(double degrees) {
    return measure::Temperature::of(degrees, measure::units::fahrenheit);
}

inline measure::Temperature celsius(double degrees) {
    return measure::Temperature::of(degrees, measure::units::celsius);
}

inline measure::Date date(const char* text) {
    return measure::parse_date(text);
}

inline WeatherDay day_of(const measure::Date& date, double low, double high) {
    return {date, fahrenheit(low), fahrenheit(high), {}, {}, false};
}

// Days that follow each other, all alike.
inline WeatherSeries alike(const char* first, int days, double low, double high) {
    WeatherSeries series;
    series.station = "Test Field";
    for (int i = 0; i < days; ++i) {
        series.days.push_back(day_of(measure::add_days(date(first), i), low, high));
    }
    return series;
}

inline void take_out(WeatherSeries& series, const char* first, int days) {
    for (int i = 0; i < days; ++i) {
        const measure::Date gone = measure::add_days(date(first), i);
        std::erase_if(series.days, [&](const WeatherDay& day) { return day.date == gone; });
    }
}

}  // namespace ashtriage::weather::test
