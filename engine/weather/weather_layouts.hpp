// The layouts in which daily weather is written, each turned into the same single readings.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "packs/problem.hpp"
#include "weather/daily_weather.hpp"
#include "weather/read_weather.hpp"
#include "weather/weather_columns.hpp"

namespace ashtriage::weather {

// One figure of one day, before anything was asked of it.
struct Reading {
    std::size_t line = 0;
    std::string station;
    measure::Date date{};
    Element element = Element::minimum;
    double value = 0.0;
    const ElementUnit* unit = nullptr;
    bool flagged = false;  // it failed the station's own quality checks
};

// A row that stands for one day, in the order of the file.
struct DayRow {
    std::size_t line = 0;
    std::string station;
    measure::Date date{};
};

struct RawWeather {
    std::vector<Reading> readings;
    std::vector<DayRow> rows;  // none where a line holds one figure or a month of them
    std::optional<StationPlace> place;
    std::string day_ends;  // hour and minute, when the file gives another than midnight: "0700"
};

// Reads whichever of the layouts the text is in. What is wrong with single rows goes to `problems`;
// throws measure::InputError for what nothing can be read after.
RawWeather read_layout(std::string_view text, const std::string& file, const WeatherReading& how,
                       packs::Problems& problems);

}  // namespace ashtriage::weather
