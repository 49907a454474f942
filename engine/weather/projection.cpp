#include "weather/projection.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "measure/input_error.hpp"

namespace ashtriage::weather {

using measure::add_days;
using measure::Date;
using measure::InputError;

namespace {

// Sums of many days carry rounding errors, all far below this.
constexpr double rounding = 1e-9;

double mean_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// Of a sample: divided by one less than their number.
double standard_deviation_of(const std::vector<double>& values) {
    const double mean = mean_of(values);
    double squares = 0.0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

class Projection {
 public:
    Projection(const HeatTotals& so_far, const std::vector<HeatTotals>& past)
        : so_far_(so_far), past_(past) {
        if (so_far.stopped) {
            throw InputError(fmt::format("there is no projection beyond a gap: on {}, {}",
                                         measure::text(so_far.stopped->first_missing),
                                         so_far.stopped->why));
        }
        if (past.size() < fewest_past_seasons) {
            throw InputError(
                fmt::format("a projection needs {} complete past seasons of the same place, and "
                            "there {} {}",
                            fewest_past_seasons, past.size() == 1 ? "is" : "are", past.size()),
                {}, "give files of past years with --past");
        }
    }

    Date last_known() const {
        return so_far_.days.empty() ? add_days(so_far_.first, -1) : so_far_.days.back().date;
    }
    double known() const { return so_far_.days.empty() ? 0.0 : so_far_.days.back().total; }
    int days_left() const { return measure::days_between(last_known(), season_end(so_far_.first)); }

    // What each past season added in so many days after the same day of its year.
    std::vector<double> added(int days) const {
        std::vector<double> result;
        for (const HeatTotals& season : past_) {
            const int years =
                static_cast<int>(so_far_.first.year()) - static_cast<int>(season.first.year());
            const Date same_day =
                measure::add_years(last_known(), -years, measure::LeapDay::february_28);
            // A season can be a day shorter than this one.
            const Date then = std::min(add_days(same_day, days), season.days.back().date);
            result.push_back(season.total_on(then).value_or(0.0) -
                             season.total_on(same_day).value_or(0.0));
        }
        return result;
    }

 private:
    const HeatTotals& so_far_;
    const std::vector<HeatTotals>& past_;
};

}  // namespace

std::vector<HeatTotals> complete_seasons(const WeatherSeries& series, const HeatRule& rule,
                                         const Date& before) {
    std::vector<HeatTotals> seasons;
    if (series.days.empty()) return seasons;
    Date first = season_start(rule.start, series.days.front().date);
    while (season_end(first) < before && first <= series.days.back().date) {
        HeatTotals season = add_up(series, rule, first);
        if (season.complete()) seasons.push_back(std::move(season));
        first = add_days(season_end(first), 1);
    }
    return seasons;
}

DateProjection project_date(const HeatTotals& so_far, double total,
                            const std::vector<HeatTotals>& past) {
    const Projection projection(so_far, past);
    const double missing = total - projection.known() - rounding;
    if (missing <= 0.0) {
        throw InputError(fmt::format("a total of {:.1f} is reached already", total));
    }
    std::vector<std::optional<double>> days_to(past.size());
    DateProjection result;
    result.seasons = past.size();
    for (int days = 1; days <= projection.days_left(); ++days) {
        const Date date = add_days(projection.last_known(), days);
        const std::vector<double> added = projection.added(days);
        if (!result.mean && mean_of(added) >= missing) result.mean = date;
        for (std::size_t i = 0; i < added.size(); ++i) {
            if (days_to[i] || added[i] < missing) continue;
            days_to[i] = days;
            ++result.reached_in;
            if (!result.earliest) result.earliest = date;
            if (result.reached_in == past.size()) result.latest = date;
        }
    }
    if (result.latest) {
        std::vector<double> days;
        for (const auto& each : days_to) days.push_back(*each);
        result.standard_deviation_days = standard_deviation_of(days);
    }
    return result;
}

TotalProjection project_total(const HeatTotals& so_far, const Date& date,
                              const std::vector<HeatTotals>& past) {
    const Projection projection(so_far, past);
    const int days = measure::days_between(projection.last_known(), date);
    if (days < 1 || days > projection.days_left()) {
        throw InputError(fmt::format(
            "{} is not among the days of the season that are still to come", measure::text(date)));
    }
    const std::vector<double> added = projection.added(days);
    const auto [least, most] = std::minmax_element(added.begin(), added.end());
    return {past.size(), projection.known() + *least, projection.known() + mean_of(added),
            projection.known() + *most, standard_deviation_of(added)};
}

}  // namespace ashtriage::weather
