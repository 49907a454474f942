// What a column of a forecast holds, and in which unit: from its name, or as the user declares it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "weather/weather_columns.hpp"

namespace ashtriage::weather {

enum class ForecastElement {
    time,
    date,
    hours,
    temperature,
    minimum,
    maximum,
    wind,
    rain,
    rain_chance
};

struct ForecastColumn {
    ForecastElement element = ForecastElement::time;
    std::string name;                   // as in the table
    const ElementUnit* unit = nullptr;  // for what is measured
};

// Which element of daily weather has the same units and the same limits; only for what is measured.
Element measured_as(ForecastElement element);

// By the names of the header, or by `declared` unless that is empty. Throws measure::InputError for
// a name that is not expected, a column without its unit, one that holds what another does, and a
// table without a time or without anything to know.
std::vector<ForecastColumn> forecast_columns(const std::vector<std::string>& header,
                                             std::string_view declared, const std::string& file);

}  // namespace ashtriage::weather
