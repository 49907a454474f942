#include "weather/forecast_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"

namespace ashtriage::weather {

using measure::InputError;
using packs::normalised;

namespace {

struct NamedForecastElement {
    std::string_view name;  // normalised
    ForecastElement element;
};

// The longer name before the one it begins with.
constexpr std::array<NamedForecastElement, 9> forecast_elements{
    {{"time", ForecastElement::time},
     {"date", ForecastElement::date},
     {"hours", ForecastElement::hours},
     {"temp", ForecastElement::temperature},
     {"tmin", ForecastElement::minimum},
     {"tmax", ForecastElement::maximum},
     {"wind", ForecastElement::wind},
     {"rain chance", ForecastElement::rain_chance},
     {"rain", ForecastElement::rain}}};

constexpr std::string_view remedy =
    "name the columns like time, temp_f, wind_mph, rain_in, rain_chance_percent (or _c, _kmh, "
    "_mm), or say which they are: --columns \"time=WHEN, temp=T:C, wind=W:kmh, rain=R:mm\"";
constexpr std::string_view percent_name = "percent";

bool has_unit(ForecastElement element) {
    return element != ForecastElement::time && element != ForecastElement::date &&
           element != ForecastElement::hours;
}

bool is_percent(std::string_view unit) {
    return normalised(unit) == percent_name || unit == "%";
}

std::string units_of(ForecastElement element) {
    return element == ForecastElement::rain_chance ? std::string(percent_name)
                                                   : element_units_words(measured_as(element));
}

[[noreturn]] void refuse_unit(std::string_view column, std::string_view unit,
                              ForecastElement element, const std::string& where) {
    throw InputError(
        unit.empty()
            ? fmt::format("the column '{}' has no unit; it can be {}", column, units_of(element))
            : fmt::format("'{}' is not a unit for the column '{}'; it can be {}", unit, column,
                          units_of(element)),
        where, std::string(remedy));
}

ForecastColumn column_of(ForecastElement element, std::string_view name, std::string_view unit,
                         const std::string& where) {
    ForecastColumn column{element, std::string(name), nullptr};
    if (!has_unit(element)) return column;
    if (element == ForecastElement::rain_chance) {
        if (!is_percent(unit)) refuse_unit(name, unit, element, where);
        return column;
    }
    column.unit = find_element_unit(measured_as(element), unit);
    if (column.unit == nullptr) refuse_unit(name, unit, element, where);
    return column;
}

// What the name of a column in our own layout means; nothing for a note.
std::optional<ForecastColumn> forecast_column_by_name(const std::string& column,
                                                      const std::string& file) {
    const std::string name = normalised(column);
    if (name == "note") return std::nullopt;
    for (const NamedForecastElement& each : forecast_elements) {
        if (!name.starts_with(each.name)) continue;
        const std::string_view rest = std::string_view(name).substr(each.name.size());
        if (rest.empty()) return column_of(each.element, column, {}, file);
        if (rest.front() == ' ' && has_unit(each.element)) {
            return column_of(each.element, column, rest.substr(1), file);
        }
    }
    const std::string near = packs::nearest(
        column, {"time", "date", "hours", "note", "temp_f", "temp_c", "tmin_f", "tmax_f",
                 "wind_mph", "wind_kmh", "wind_ms", "rain_in", "rain_mm", "rain_chance_percent"});
    throw InputError(fmt::format("the column '{}' is not one that is expected", column), file,
                     near.empty() ? std::string(remedy) : fmt::format("did you mean '{}'?", near));
}

ForecastColumn declared_column(std::string_view part) {
    const auto refuse = [&](std::string_view why) {
        throw InputError(fmt::format("'{}' {}", part, why), "--columns", std::string(remedy));
    };
    const std::size_t equals = part.find('=');
    if (equals == std::string_view::npos) refuse("does not say which column holds what");
    const std::string meaning = normalised(part.substr(0, equals));
    const auto named = std::ranges::find(forecast_elements, meaning, &NamedForecastElement::name);
    if (named == forecast_elements.end()) {
        refuse(
            "does not begin with time, date, hours, temp, tmin, tmax, wind, rain or "
            "rain_chance");
    }
    std::string_view column = packs::trimmed(part.substr(equals + 1));
    std::string_view unit;
    // The name of a column without a unit may hold a colon.
    if (has_unit(named->element)) {
        const std::size_t colon = column.rfind(':');
        if (colon != std::string_view::npos) {
            unit = packs::trimmed(column.substr(colon + 1));
            column = packs::trimmed(column.substr(0, colon));
        }
    }
    if (column.empty()) refuse("names no column");
    return column_of(named->element, column, unit, "--columns");
}

std::vector<ForecastColumn> declared_columns(std::string_view text) {
    std::vector<ForecastColumn> columns;
    while (true) {
        const std::size_t comma = text.find(',');
        columns.push_back(declared_column(packs::trimmed(text.substr(0, comma))));
        if (comma == std::string_view::npos) return columns;
        text.remove_prefix(comma + 1);
    }
}

void refuse_twice(const std::vector<ForecastColumn>& columns, const std::string& where) {
    for (auto each = columns.begin(); each != columns.end(); ++each) {
        const auto other = std::find_if(columns.begin(), each, [&](const ForecastColumn& before) {
            return before.element == each->element;
        });
        if (other == each) continue;
        throw InputError(
            fmt::format("'{}' and '{}' are said to hold the same", other->name, each->name), where,
            "use one of them");
    }
}

}  // namespace

Element measured_as(ForecastElement element) {
    if (element == ForecastElement::wind) return Element::wind;
    if (element == ForecastElement::rain) return Element::rain;
    return element == ForecastElement::maximum ? Element::maximum : Element::minimum;
}

std::vector<ForecastColumn> forecast_columns(const std::vector<std::string>& header,
                                             std::string_view declared, const std::string& file) {
    std::vector<ForecastColumn> columns;
    if (declared.empty()) {
        for (const std::string& name : header) {
            if (auto column = forecast_column_by_name(name, file))
                columns.push_back(std::move(*column));
        }
    } else {
        columns = declared_columns(declared);
    }
    refuse_twice(columns, declared.empty() ? file : std::string("--columns"));
    const auto count = [&](auto... wanted) {
        return std::ranges::count_if(columns, [&](const ForecastColumn& column) {
            return ((column.element == wanted) || ...);
        });
    };
    if (count(ForecastElement::time, ForecastElement::date) != 1) {
        throw InputError("a forecast has one column that says when: time for hours, date for days",
                         file, std::string(remedy));
    }
    if (count(ForecastElement::date) == 1 &&
        count(ForecastElement::temperature, ForecastElement::hours) > 0) {
        throw InputError("a row for a whole day has no hours and no single temperature", file,
                         "give tmin and tmax, or a column time with the hour");
    }
    if (std::ranges::none_of(columns, [](const auto& each) { return has_unit(each.element); })) {
        throw InputError("the forecast says nothing of temperature, wind or rain", file,
                         std::string(remedy));
    }
    return columns;
}

}  // namespace ashtriage::weather
