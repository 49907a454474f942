#include "weather/weather_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"

namespace ashtriage::weather {

using measure::InputError;
using packs::normalised;
namespace units = measure::units;

namespace {

const std::vector<ElementUnit>& units_of(Element element) {
    static const std::vector<ElementUnit> temperatures{
        {"F", {"f"}, 1.0, &units::fahrenheit, nullptr, nullptr},
        {"C", {"c"}, 1.0, &units::celsius, nullptr, nullptr},
        {"tenths C", {"tenths c"}, 10.0, &units::celsius, nullptr, nullptr}};
    static const std::vector<ElementUnit> depths{
        {"in", {"in"}, 1.0, nullptr, &units::inch, nullptr},
        {"mm", {"mm"}, 1.0, nullptr, &units::millimetre, nullptr},
        {"cm", {"cm"}, 1.0, nullptr, &units::centimetre, nullptr},
        {"tenths mm", {"tenths mm"}, 10.0, nullptr, &units::millimetre, nullptr}};
    static const std::vector<ElementUnit> speeds{
        {"mph", {"mph"}, 1.0, nullptr, nullptr, &units::mile_per_hour},
        {"kmh", {"kmh", "km/h", "km h"}, 1.0, nullptr, nullptr, &units::kilometre_per_hour},
        {"ms", {"ms", "m/s", "m s"}, 1.0, nullptr, nullptr, &units::metre_per_second},
        {"tenths ms",
         {"tenths ms", "tenths m/s", "tenths m s"},
         10.0,
         nullptr,
         nullptr,
         &units::metre_per_second}};
    if (element == Element::rain) return depths;
    return element == Element::wind ? speeds : temperatures;
}

struct NamedElement {
    std::string_view name;
    Element element;
};

constexpr std::array<NamedElement, 9> elements{{{"date", Element::date},
                                                {"station", Element::station},
                                                {"latitude", Element::latitude},
                                                {"longitude", Element::longitude},
                                                {"elevation", Element::elevation},
                                                {"tmin", Element::minimum},
                                                {"tmax", Element::maximum},
                                                {"rain", Element::rain},
                                                {"wind", Element::wind}}};

constexpr std::string_view columns_remedy =
    "name the columns like date, tmin_f, tmax_f, rain_in, wind_mph (or _c, _mm, _kmh), or say "
    "which they are: --columns \"date=DAY, tmin=LOW:F, tmax=HIGH:F\"";

const NamedElement* find_element(std::string_view name) {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [&](const NamedElement& each) { return each.name == name; });
    return found == elements.end() ? nullptr : &*found;
}

std::vector<std::string> known_names() {
    std::vector<std::string> names{"date", "station", "latitude", "longitude", "note"};
    for (const char* name : {"tmin_f", "tmin_c", "tmax_f", "tmax_c", "rain_in", "rain_mm",
                             "wind_mph", "wind_kmh", "wind_ms"}) {
        names.emplace_back(name);
    }
    return names;
}

[[noreturn]] void refuse_without_unit(std::string_view column, Element element,
                                      const std::string& where) {
    throw InputError(fmt::format("the column '{}' has no unit; it can be {}", column,
                                 element_units_words(element)),
                     where, std::string(columns_remedy));
}

// What the name of a column in our own layout means; nothing for a note.
std::optional<WeatherColumn> column_by_name(const std::string& column, const std::string& file) {
    const std::string name = normalised(column);
    if (name == "note") return std::nullopt;
    const std::size_t blank = name.find(' ');
    const NamedElement* named = find_element(std::string_view(name).substr(0, blank));
    if (named != nullptr) {
        if (!is_measured(named->element) && blank == std::string::npos &&
            named->element != Element::elevation) {
            return WeatherColumn{named->element, column, nullptr};
        }
        if (is_measured(named->element)) {
            if (blank == std::string::npos) refuse_without_unit(column, named->element, file);
            if (const auto* unit = find_element_unit(named->element, name.substr(blank + 1))) {
                return WeatherColumn{named->element, column, unit};
            }
        }
    }
    const std::string near = packs::nearest(column, known_names());
    throw InputError(
        fmt::format("the column '{}' is not one that is expected", column), file,
        near.empty() ? std::string(columns_remedy) : fmt::format("did you mean '{}'?", near));
}

void refuse_twice(const std::vector<WeatherColumn>& columns, const std::string& where) {
    for (auto each = columns.begin(); each != columns.end(); ++each) {
        const auto other = std::find_if(columns.begin(), each, [&](const WeatherColumn& before) {
            return before.element == each->element;
        });
        if (other == each) continue;
        throw InputError(
            fmt::format("'{}' and '{}' are said to hold the same", other->name, each->name), where,
            "use one of them");
    }
}

WeatherColumn parse_column(std::string_view part) {
    const auto refuse = [&](const std::string& why) {
        throw InputError(fmt::format("'{}' {}", part, why), {},
                         "write it like date=DAY, tmin=LOW:F, tmax=HIGH:F, rain=WET:mm");
    };
    const std::size_t equals = part.find('=');
    if (equals == std::string_view::npos) refuse("does not say which column holds what");
    const NamedElement* named = find_element(normalised(part.substr(0, equals)));
    if (named == nullptr || named->element == Element::elevation) {
        refuse("does not begin with date, tmin, tmax, rain, wind, station, latitude or longitude");
    }
    std::string_view column = packs::trimmed(part.substr(equals + 1));
    const ElementUnit* unit = nullptr;
    if (is_measured(named->element)) {
        const std::size_t colon = column.rfind(':');
        if (colon == std::string_view::npos) refuse_without_unit(column, named->element, {});
        unit = find_element_unit(named->element, column.substr(colon + 1));
        if (unit == nullptr) {
            refuse(
                fmt::format("ends in no unit; it can be {}", element_units_words(named->element)));
        }
        column = packs::trimmed(column.substr(0, colon));
    }
    if (column.empty()) refuse("names no column");
    return {named->element, std::string(column), unit};
}

}  // namespace

const ElementUnit* find_element_unit(Element element, std::string_view written) {
    const std::string wanted = normalised(written);
    for (const ElementUnit& unit : units_of(element)) {
        if (std::find(unit.written.begin(), unit.written.end(), wanted) != unit.written.end()) {
            return &unit;
        }
    }
    return nullptr;
}

std::string element_units_words(Element element) {
    std::vector<std::string> names;
    for (const ElementUnit& unit : units_of(element)) names.emplace_back(unit.name);
    return packs::joined(names);
}

bool is_measured(Element element) {
    return element == Element::minimum || element == Element::maximum || element == Element::rain ||
           element == Element::wind;
}

std::vector<WeatherColumn> columns_by_name(const std::vector<std::string>& header,
                                           const std::string& file) {
    std::vector<WeatherColumn> columns;
    for (const std::string& name : header) {
        if (auto column = column_by_name(name, file)) columns.push_back(std::move(*column));
    }
    refuse_twice(columns, file);
    return columns;
}

std::vector<WeatherColumn> parse_columns(std::string_view text) {
    std::vector<WeatherColumn> columns;
    while (true) {
        const std::size_t comma = text.find(',');
        columns.push_back(parse_column(packs::trimmed(text.substr(0, comma))));
        if (comma == std::string_view::npos) break;
        text.remove_prefix(comma + 1);
    }
    refuse_twice(columns, {});
    return columns;
}

std::vector<WeatherColumn> public_columns(const std::vector<std::string>& header,
                                          std::string_view temperature_unit,
                                          const std::string& file) {
    const ElementUnit* unit = find_element_unit(Element::minimum, temperature_unit);
    if (unit == nullptr) {
        throw InputError(
            temperature_unit.empty()
                ? std::string("the temperatures have no unit")
                : fmt::format("'{}' is not a unit of temperature", temperature_unit),
            file,
            "these station files come in tenths of a degree C, in C or in F, and do not say which: "
            "give --temperature-unit \"tenths C\", C or F");
    }
    const bool fahrenheit = unit->temperature == &units::fahrenheit;
    const bool tenths = unit->parts > 1.0;
    const std::string_view rain = fahrenheit ? "in" : tenths ? "tenths mm" : "mm";
    const std::string_view wind = fahrenheit ? "mph" : tenths ? "tenths ms" : "ms";
    std::vector<WeatherColumn> columns;
    for (const std::string& name : header) {
        const std::string plain = normalised(name);
        if (plain == "station") columns.push_back({Element::station, name, nullptr});
        if (plain == "date") columns.push_back({Element::date, name, nullptr});
        if (plain == "latitude") columns.push_back({Element::latitude, name, nullptr});
        if (plain == "longitude") columns.push_back({Element::longitude, name, nullptr});
        if (plain == "elevation") columns.push_back({Element::elevation, name, nullptr});
        if (plain == "tmin") columns.push_back({Element::minimum, name, unit});
        if (plain == "tmax") columns.push_back({Element::maximum, name, unit});
        if (plain == "prcp") {
            columns.push_back({Element::rain, name, find_element_unit(Element::rain, rain)});
        }
        if (plain == "awnd") {
            columns.push_back({Element::wind, name, find_element_unit(Element::wind, wind)});
        }
    }
    return columns;
}

}  // namespace ashtriage::weather
