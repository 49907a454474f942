#include "weather/degree_days.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ashtriage::weather {

using measure::add_days;
using measure::Date;
using measure::Temperature;
using std::numbers::pi;

namespace {

// The two temperatures between which a day, or twice a half of one, swings.
struct Swing {
    double low = 0.0;
    double high = 0.0;

    double mean() const { return (low + high) / 2.0; }
    double half() const { return (high - low) / 2.0; }
};

enum class Course { triangle, sine };

// Where on the wave the temperature is x, as an angle from -pi/2 at the low to pi/2 at the high.
double angle_of(const Swing& swing, double x) {
    return std::asin(std::clamp((x - swing.mean()) / swing.half(), -1.0, 1.0));
}

// D(x) for a course of the day.
double above(Course course, const Swing& swing, double x) {
    if (swing.high <= x) return 0.0;
    if (swing.low >= x) return swing.mean() - x;
    // From here on the low is below x and the high above it, so they differ.
    if (course == Course::triangle) {
        const double over = swing.high - x;
        return over * over / (2.0 * (swing.high - swing.low));
    }
    const double angle = angle_of(swing, x);
    return ((swing.mean() - x) * (pi / 2.0 - angle) + swing.half() * std::cos(angle)) / pi;
}

// The share of the day that is warmer than x.
double share_above(Course course, const Swing& swing, double x) {
    if (swing.high <= x) return 0.0;
    if (swing.low >= x) return 1.0;
    if (course == Course::triangle) return (swing.high - x) / (swing.high - swing.low);
    return 0.5 - angle_of(swing, x) / pi;
}

struct Thresholds {
    double base = 0.0;
    double upper = 0.0;  // only with a cutoff
    Cutoff cutoff = Cutoff::none;
};

double along(Course course, const Swing& swing, const Thresholds& thresholds) {
    const auto& [base, upper, cutoff] = thresholds;
    const double whole = above(course, swing, base);
    switch (cutoff) {
        case Cutoff::none:
            return whole;
        case Cutoff::horizontal:
            return whole - above(course, swing, upper);
        case Cutoff::intermediate:
            return std::max(0.0, whole - 2.0 * above(course, swing, upper));
        case Cutoff::vertical:
            break;
    }
    const double stopped = (upper - base) * share_above(course, swing, upper);
    return std::max(0.0, whole - above(course, swing, upper) - stopped);
}

// A half-day runs from the maximum to the minimum of the next day, which can be the higher of the
// two: the course between them is the same.
double half_days(Course course, const Swing& day, double next_low, const Thresholds& thresholds) {
    const Swing next{std::min(next_low, day.high), std::max(next_low, day.high)};
    return (along(course, day, thresholds) + along(course, next, thresholds)) / 2.0;
}

double average(HeatMethod method, Swing day, const Thresholds& thresholds) {
    const auto& [base, upper, cutoff] = thresholds;
    const bool cut = cutoff == Cutoff::horizontal;
    if (method == HeatMethod::simple_average) {
        const double mean = cut ? std::min(day.mean(), upper) : day.mean();
        return std::max(0.0, mean - base);
    }
    day.low = std::max(day.low, base);
    if (method == HeatMethod::clamp_both) day.high = std::max(day.high, base);
    if (cut) day = {std::min(day.low, upper), std::min(day.high, upper)};
    return std::max(0.0, day.mean() - base);
}

}  // namespace

double degree_days_of(const HeatRule& rule, const Temperature& minimum, const Temperature& maximum,
                      const std::optional<Temperature>& next_minimum) {
    const Swing day{degrees(minimum, rule.unit), degrees(maximum, rule.unit)};
    const Thresholds thresholds{degrees(rule.base, rule.unit),
                                rule.upper ? degrees(*rule.upper, rule.unit) : 0.0, rule.cutoff};
    const double next_low = next_minimum ? degrees(*next_minimum, rule.unit) : day.low;
    switch (rule.method) {
        case HeatMethod::single_triangle:
            return along(Course::triangle, day, thresholds);
        case HeatMethod::single_sine:
            return along(Course::sine, day, thresholds);
        case HeatMethod::double_triangle:
            return half_days(Course::triangle, day, next_low, thresholds);
        case HeatMethod::double_sine:
            return half_days(Course::sine, day, next_low, thresholds);
        case HeatMethod::simple_average:
        case HeatMethod::clamp_both:
        case HeatMethod::clamp_minimum:
            break;
    }
    return average(rule.method, day, thresholds);
}

bool HeatTotals::complete() const {
    return !days.empty() && days.back().date == season_end(first);
}

std::optional<double> HeatTotals::total_on(const Date& date) const {
    const int index = measure::days_between(first, date);
    if (index < 0 || static_cast<std::size_t>(index) >= days.size()) return std::nullopt;
    return days[static_cast<std::size_t>(index)].total;
}

std::optional<Date> HeatTotals::date_of(double total) const {
    // Sums of many days carry rounding errors, all far below this.
    constexpr double rounding = 1e-9;
    const auto found =
        std::lower_bound(days.begin(), days.end(), total - rounding,
                         [](const HeatDay& day, double wanted) { return day.total < wanted; });
    if (found == days.end()) return std::nullopt;
    return found->date;
}

namespace {

// The last day of the season that the series has temperatures of, or goes beyond; before the first
// day when there is none.
Date last_known(const WeatherSeries& series, const Date& first) {
    const auto last = std::find_if(series.days.rbegin(), series.days.rend(),
                                   [](const WeatherDay& day) { return day.has_temperatures(); });
    return last == series.days.rend() ? add_days(first, -1)
                                      : std::min(season_end(first), last->date);
}

// Why the total may not go on to the date, or nothing. The month counts as far as it lies in the
// stretch from `first` to `last`.
std::optional<Stop> stop_at(const WeatherSeries& series, const Date& first, const Date& last,
                            const Date& date) {
    const WeatherDay* day = series.find(date);
    const bool has = day != nullptr && day->has_temperatures();
    if (has && !day->filled) return std::nullopt;
    const Date month_begins{date.year(), date.month(), std::chrono::day{1}};
    const Date month_ends = date.year() / date.month() / std::chrono::last;
    const int missing =
        days_not_measured(series, std::max(month_begins, first), std::min(month_ends, last));
    if (missing >= too_many_missing_in_month) {
        return Stop{date,
                    fmt::format("{} days of that month were not measured, and a month with {} "
                                "or more such days is not used",
                                missing, too_many_missing_in_month)};
    }
    if (has) return std::nullopt;
    return Stop{date, "that day has no temperatures"};
}

}  // namespace

HeatTotals add_up(const WeatherSeries& series, const HeatRule& rule, const Date& first) {
    check_start(rule, first);
    HeatTotals totals{rule, series.station, first, {}, {}, 0, series.place};
    const Date last = last_known(series, first);
    double total = 0.0;
    for (Date date = first; date <= last; date = add_days(date, 1)) {
        totals.stopped = stop_at(series, first, last, date);
        if (totals.stopped) break;
        const WeatherDay& day = *series.find(date);
        const WeatherDay* next = series.find(add_days(date, 1));
        const double of_day = degree_days_of(rule, *day.minimum, *day.maximum,
                                             next == nullptr ? std::nullopt : next->minimum);
        total += of_day;
        totals.days.push_back({date, of_day, total, day.filled});
        totals.filled_days += day.filled ? 1 : 0;
    }
    return totals;
}

}  // namespace ashtriage::weather
