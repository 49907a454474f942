// What a column of a weather table holds, and in which unit: from its name, or as the user declares
// it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"

namespace ashtriage::weather {

enum class Element { date, station, latitude, longitude, elevation, minimum, maximum, rain, wind };

// A unit in which an element is written: so many of it (1 or 10) make one of a unit of `measure`.
struct ElementUnit {
    std::string_view name;                                  // "F", "tenths of a degree C"
    std::vector<std::string_view> written;                  // normalised: "f", "tenths c"
    double parts = 1.0;                                     // 10 for tenths
    const measure::TemperatureUnit* temperature = nullptr;  // one of the three is there
    const measure::LengthUnit* length = nullptr;
    const measure::SpeedUnit* speed = nullptr;
};

// The unit that is written so for that element, or null. `element` is one that is measured:
// minimum, maximum, rain or wind.
const ElementUnit* find_element_unit(Element element, std::string_view written);
// "F, C or tenths C": what can be written.
std::string element_units_words(Element element);

bool is_measured(Element element);

// One column in use.
struct WeatherColumn {
    Element element = Element::date;
    std::string name;                   // as in the table
    const ElementUnit* unit = nullptr;  // for what is measured
};

// From the names of our own layout: date, tmin_f, tmax_c, rain_in, wind_mph, station, latitude,
// longitude, note. Throws measure::InputError for a name that is none of these, with the nearest,
// and for one without its unit.
std::vector<WeatherColumn> columns_by_name(const std::vector<std::string>& header,
                                           const std::string& file);

// "date=DAY, tmin=LOW:F, tmax=HIGH:F, rain=WET:mm, station=PLACE". Throws measure::InputError for
// what is not so written, a column without its unit, or one that is declared twice.
std::vector<WeatherColumn> parse_columns(std::string_view text);

// The columns of the wide public layout of daily station files (STATION, DATE, TMAX, TMIN, PRCP,
// AWND), in the units that go with that temperature unit: "tenths C", "C" or "F". Throws
// measure::InputError for no unit or another.
std::vector<WeatherColumn> public_columns(const std::vector<std::string>& header,
                                          std::string_view temperature_unit,
                                          const std::string& file);

}  // namespace ashtriage::weather
