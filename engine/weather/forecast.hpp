// A weather forecast for the hours or days to come, as somebody else made it.
//
// Times are those a clock on the spot shows, without a time zone; a night on which the clocks are
// changed is not treated apart.
#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::weather {

using Moment = std::chrono::local_time<std::chrono::minutes>;

Moment moment(const measure::Date& date, std::chrono::minutes after_midnight);
measure::Date date_of(Moment moment);
// "18 May 2026, 09:00".
std::string words(Moment moment);

// From one moment up to another that does not belong to it any more.
struct Stretch {
    Moment from;
    Moment to;

    friend bool operator==(const Stretch&, const Stretch&) = default;
};

// What is forecast for a stretch of time; what is not there is not known.
struct ForecastPeriod {
    Stretch time;
    std::optional<measure::Temperature> coolest;  // of any moment of it
    std::optional<measure::Temperature> warmest;
    std::optional<measure::Speed> wind;
    // The wind is one figure for a whole day and says little of an hour of it.
    bool daily = false;
    std::optional<measure::Length> rain;  // that falls in it
    std::optional<measure::Percent> rain_chance;
    std::size_t line = 0;  // in its file; 0: said by the user
};

struct Forecast {
    std::vector<ForecastPeriod> periods;
};

// The periods that have a part in the stretch, in their order.
std::vector<ForecastPeriod> periods_within(const Forecast& forecast, const Stretch& stretch);

// What of the stretch no period covers, in order.
std::vector<Stretch> not_covered(const Forecast& forecast, const Stretch& stretch);

// Reads a CSV table with a row for each hour (a column `time`, "2026-05-18 09:00") or each day (a
// column `date`) and the columns temp_f, or for days tmin_f and tmax_f, wind_mph, rain_in,
// rain_chance_percent, hours, note, in any of their units (_c, _kmh, _ms, _mm, _cm). Or with names
// of its own, declared: "time=WHEN, temp=T:C, wind=W:kmh, rain=R:mm, rain_chance=POP:percent".
//
// A row holds from its time for as many hours as `hours` says, else for the shortest time between
// two rows: what lies beyond is not known. Throws packs::BadFile with everything that makes the
// table unusable: times out of order, twice or overlapping, values beyond the world's records,
// chances over 100 percent. Throws measure::InputError for a table that cannot be read at all, or a
// column without its unit.
Forecast read_forecast(std::string_view text, const std::string& file, std::string_view columns);

}  // namespace ashtriage::weather
