// Degree days from daily minima and maxima.
//
// Formulas: the standard ones as tabulated by Zalom and others (1983) and McMaster and Wilhelm
// (1997), read in a restatement; the single sine is Baskerville and Emin's (1969), the half-day
// sine Allen's (1976). With D(x) the degree days above x, a horizontal cutoff at U is D(L) - D(U),
// an intermediate one D(L) - 2 D(U), and a vertical one D(L) - D(U) less (U - L) for the share of
// the day above U. No day counts below zero.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "weather/daily_weather.hpp"
#include "weather/heat_rule.hpp"

namespace ashtriage::weather {

// The degree days of one day, in the unit of the rule. `next_minimum`, that of the next day, is
// only looked at by the double methods; without it they take the day's own. The rule must have
// passed check(); the minimum must not be above the maximum.
double degree_days_of(const HeatRule& rule, const measure::Temperature& minimum,
                      const measure::Temperature& maximum,
                      const std::optional<measure::Temperature>& next_minimum = std::nullopt);

struct HeatDay {
    measure::Date date{};
    double of_day = 0.0;
    double total = 0.0;   // from the first day to the end of this one
    bool filled = false;  // reckoned from interpolated temperatures
};

// Why a total goes no further although the series does.
struct Stop {
    measure::Date first_missing{};
    std::string why;
};

// The degree days of one season, or of the part of it that is known: day by day without a break
// from the first day on, at most for a year.
struct HeatTotals {
    HeatRule rule;
    std::string station;
    measure::Date first{};  // the first day of the season
    std::vector<HeatDay> days;
    std::optional<Stop> stopped;  // nothing: the series ends here, or the season does
    int filled_days = 0;
    std::optional<StationPlace> place = std::nullopt;  // of the station, where its file says

    bool complete() const;  // to the last day of the season

    // The total at the end of that day; nothing for a day outside what is known.
    std::optional<double> total_on(const measure::Date& date) const;
    // The first day at the end of which the total is at least that; nothing when it never is.
    std::optional<measure::Date> date_of(double total) const;
};

// The totals of the season that begins on `first`. They stop before a day without temperatures, and
// before the first such or filled day of a month in which too_many_missing_in_month days or more
// were not measured. Throws InputError for a rule that does not pass check() or a first day that is
// not the rule's start.
HeatTotals add_up(const WeatherSeries& series, const HeatRule& rule, const measure::Date& first);

}  // namespace ashtriage::weather
