#include "plan/day_rain.hpp"

#include <fmt/format.h>

#include <optional>
#include <vector>

#include "measure/units.hpp"

namespace ashtriage::plan {

using weather::ForecastPeriod;
using weather::Stretch;

namespace {

enum class Rain { none, not_known, perhaps, due };

constexpr double more_likely_than_not = 50.0;  // percent

Rain rain_in(const ForecastPeriod& period, const Stretch& dry, measure::Percent chance_taken) {
    const bool amount = period.rain && *period.rain > measure::Length();
    Rain rain = Rain::none;
    if (period.rain_chance) {
        if (period.rain_chance->in(measure::units::percent) >= more_likely_than_not) {
            rain = Rain::due;
        } else if (amount || *period.rain_chance > chance_taken) {
            rain = Rain::perhaps;
        }
    } else if (amount) {
        rain = Rain::due;
    } else if (!period.rain) {
        rain = Rain::not_known;
    }
    const bool all_of_it = dry.from <= period.time.from && period.time.to <= dry.to;
    return rain == Rain::due && !all_of_it ? Rain::perhaps : rain;
}

std::string missing_words(const std::vector<Stretch>& missing, const Stretch& dry) {
    if (missing.front() == dry) {
        return fmt::format("Not known whether it will rain up to {}.", weather::words(dry.to));
    }
    std::vector<std::string> parts;
    for (const Stretch& each : missing) {
        parts.push_back(
            fmt::format("from {} to {}", weather::words(each.from), weather::words(each.to)));
    }
    return fmt::format("The forecast {}: nothing is known {}.",
                       missing.back().to == dry.to ? "ends too early" : "has a gap",
                       fmt::join(parts, ", "));
}

std::string rain_words(Rain rain, weather::Moment first) {
    if (rain == Rain::due) return fmt::format("Rain is due from {} on.", weather::words(first));
    if (rain == Rain::perhaps) return fmt::format("It may rain from {} on.", weather::words(first));
    return fmt::format("The forecast for {} says nothing of rain.", weather::words(first));
}

}  // namespace

RainOutlook rain_outlook(const weather::Forecast& forecast, const Stretch& dry,
                         measure::Percent chance_taken) {
    Rain worst = Rain::none;
    std::optional<weather::Moment> first;
    for (const ForecastPeriod& period : weather::periods_within(forecast, dry)) {
        const Rain rain = rain_in(period, dry, chance_taken);
        if (rain > worst || (rain == worst && first && period.time.from < *first)) {
            worst = rain;
            first = period.time.from;
        }
    }
    if (worst == Rain::due) return {RainAhead::due, rain_words(worst, *first)};
    const auto missing = weather::not_covered(forecast, dry);
    if (worst == Rain::none && missing.empty()) {
        return {RainAhead::none,
                fmt::format("No rain is forecast up to {}.", weather::words(dry.to))};
    }
    std::string words = first ? rain_words(worst, *first) : std::string();
    if (!missing.empty()) {
        if (!words.empty()) words += " ";
        words += missing_words(missing, dry);
    }
    return {RainAhead::not_known, std::move(words)};
}

}  // namespace ashtriage::plan
