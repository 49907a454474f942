// Reading weather from text in tests.
#pragma once

#include <string>
#include <vector>

#include "packs/bad_file.hpp"
#include "weather/read_weather.hpp"
#include "weather_values.hpp"

namespace ashtriage::weather::test {

inline WeatherReading reading() {
    WeatherReading how;
    how.today = date("2026-06-30");
    return how;
}

inline WeatherFile read(const std::string& text, const WeatherReading& how = reading()) {
    return read_weather(text, "weather.csv", how);
}

// "id:line" of each problem for which the text is refused, in the order in which they were found.
inline std::vector<std::string> problems_of(const std::string& text,
                                            const WeatherReading& how = reading()) {
    std::vector<std::string> found;
    try {
        read(text, how);
    } catch (const packs::BadFile& bad) {
        for (const packs::Problem& problem : bad.problems().list()) {
            found.push_back(problem.id + ":" + std::to_string(problem.place.line));
        }
    }
    return found;
}

// Our own layout, a row for each day from `first` on, all alike.
inline std::string table(const std::string& unit, const char* first, int days,
                         const std::string& low, const std::string& high) {
    std::string text = "date,tmin_" + unit + ",tmax_" + unit + "\n";
    for (int i = 0; i < days; ++i) {
        text += measure::text(measure::add_days(date(first), i)) + "," + low + "," + high + "\n";
    }
    return text;
}

}  // namespace ashtriage::weather::test
