#include "weather/past_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "weather/projection.hpp"

namespace ashtriage::weather {

using measure::Date;

namespace {

constexpr double far_below = 1.0 / 3.0;
constexpr double far_above = 3.0;
constexpr double enough_for_low = 60.0;    // degree days F
constexpr double enough_for_high = 100.0;  // degree days F

double in_fahrenheit(double degree_days, DegreeUnit unit) {
    constexpr double fahrenheit_per_celsius = 1.8;
    return unit == DegreeUnit::celsius ? degree_days * fahrenheit_per_celsius : degree_days;
}

}  // namespace

std::string past_speaks_against(const HeatTotals& so_far, const std::vector<HeatTotals>& past) {
    if (so_far.days.empty() || past.size() < fewest_past_seasons) return {};
    const Date last = so_far.days.back().date;
    const double total = so_far.days.back().total;
    std::vector<double> totals;
    for (const HeatTotals& season : past) {
        const int years =
            static_cast<int>(so_far.first.year()) - static_cast<int>(season.first.year());
        const Date same_day = measure::add_years(last, -years, measure::LeapDay::february_28);
        if (const auto then = season.total_on(same_day)) totals.push_back(*then);
    }
    if (totals.empty()) return {};
    const auto [lowest, highest] = std::ranges::minmax(totals);
    const DegreeUnit unit = so_far.rule.unit;
    const bool too_low =
        in_fahrenheit(lowest, unit) >= enough_for_low && total < far_below * lowest;
    const bool too_high =
        in_fahrenheit(highest, unit) >= enough_for_high && total > far_above * highest;
    if (!too_low && !too_high) return {};
    return fmt::format(
        "{:.1f} {} by {} fit no past season at hand: the {} had {:.1f} to {:.1f} by "
        "then",
        total, unit_words(unit), measure::long_text(last), totals.size(), lowest, highest);
}

}  // namespace ashtriage::weather
