#include "plan/crew.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::plan {

bool Crew::works_on(const measure::Date& day) const {
    if (day < first_day || last_day < day) return false;
    if (weekday_off[std::chrono::weekday(std::chrono::sys_days(day)).c_encoding()]) return false;
    return std::ranges::find(dates_off, day) == dates_off.end();
}

int CrewSettings::minutes_for(std::string_view method,
                              const std::optional<measure::Length>& dbh) const {
    const auto classes = minutes_per_tree.find(method);
    if (classes == minutes_per_tree.end() || classes->second.empty()) {
        throw measure::InputError(
            fmt::format("The crew file does not say how long a tree takes by '{}'", method), {},
            fmt::format("Add '{}' to 'minutes_per_tree' of the crew file.", method));
    }
    for (const MinutesByDbh& each : classes->second) {
        if (!each.up_to || (dbh && *dbh <= *each.up_to)) return each.minutes;
    }
    return classes->second.back().minutes;
}

double great_circle_km(const season::Location& from, const season::Location& to) {
    constexpr double mean_radius_km = 6371.0088;
    constexpr double degree = std::numbers::pi / 180.0;
    // The haversine formula (Sinnott 1984), which keeps its digits for places close together.
    const double across = std::sin((to.latitude - from.latitude) * degree / 2.0);
    const double along = std::sin((to.longitude - from.longitude) * degree / 2.0);
    const double h = across * across + std::cos(from.latitude * degree) *
                                           std::cos(to.latitude * degree) * along * along;
    return 2.0 * mean_radius_km * std::asin(std::min(1.0, std::sqrt(h)));
}

int travel_minutes(const season::Location& from, const season::Location& to,
                   const CrewSettings& settings) {
    const double metres = great_circle_km(from, to) * 1000.0 * settings.travel_factor;
    const double metres_a_minute =
        static_cast<double>(settings.travel_speed.ticks()) / 3'600'000.0 * 60.0;
    // What rounding in the sine adds to a whole minute must not make it another one.
    constexpr double noise = 1e-6;
    return std::max(0, static_cast<int>(std::ceil(metres / metres_a_minute - noise)));
}

}  // namespace ashtriage::plan
