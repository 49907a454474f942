#include "season/seasons.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"

namespace ashtriage::season {

TimeOfYear time_of_year(const measure::Date& date) {
    const unsigned month = static_cast<unsigned>(date.month());
    if (month >= 3 && month <= 5) return TimeOfYear::spring;
    if (month >= 6 && month <= 8) return TimeOfYear::summer;
    if (month >= 9 && month <= 11) return TimeOfYear::autumn;
    return TimeOfYear::winter;
}

std::string_view words(TimeOfYear time) {
    switch (time) {
        case TimeOfYear::spring:
            return "spring";
        case TimeOfYear::summer:
            return "summer";
        case TimeOfYear::autumn:
            return "autumn";
        case TimeOfYear::winter:
            return "winter";
    }
    throw measure::InputError("This time of the year has no name");
}

const MethodSeason& Seasons::method(std::string_view name) const {
    const auto found = std::find_if(methods.begin(), methods.end(),
                                    [&](const MethodSeason& each) { return each.method == name; });
    if (found != methods.end()) return *found;
    std::vector<std::string> names;
    for (const MethodSeason& each : methods) names.push_back(each.method);
    throw measure::InputError(fmt::format("there is no season for the method '{}'", name), {},
                              packs::nearest_hint(name, names));
}

}  // namespace ashtriage::season
