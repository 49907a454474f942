#include "weather/daily_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/input_error.hpp"

namespace ashtriage::weather {

using measure::add_days;
using measure::Date;
using measure::Temperature;

namespace {

Temperature between(const Temperature& before, const Temperature& after, int step, int steps) {
    const double share = static_cast<double>(step) / steps;
    const auto apart = static_cast<double>(after.ticks() - before.ticks());
    return Temperature::from_ticks(before.ticks() + std::llround(share * apart));
}

std::vector<WeatherDay>::const_iterator at_or_after(const WeatherSeries& series, const Date& date) {
    return std::lower_bound(
        series.days.begin(), series.days.end(), date,
        [](const WeatherDay& day, const Date& wanted) { return day.date < wanted; });
}

// Fills one gap; a day that is there already keeps its rain and wind.
void fill(WeatherSeries& series, const Gap& gap) {
    const WeatherDay before = *series.find(add_days(gap.first, -1));
    const WeatherDay after = *series.find(add_days(gap.last, 1));
    const int steps = gap.days() + 1;
    for (int step = 1; step < steps; ++step) {
        const Date date = add_days(before.date, step);
        const auto place = at_or_after(series, date);
        const auto index = static_cast<std::size_t>(place - series.days.begin());
        if (place == series.days.end() || place->date != date) {
            series.days.insert(place, WeatherDay{date, {}, {}, {}, {}, false});
        }
        WeatherDay& day = series.days[index];
        day.minimum = between(*before.minimum, *after.minimum, step, steps);
        day.maximum = between(*before.maximum, *after.maximum, step, steps);
        day.filled = true;
    }
}

}  // namespace

const WeatherDay* WeatherSeries::find(const Date& date) const {
    const auto found = at_or_after(*this, date);
    return found == days.end() || found->date != date ? nullptr : &*found;
}

std::vector<Gap> gaps(const WeatherSeries& series) {
    std::vector<Gap> found;
    std::optional<Date> last_good;
    for (const WeatherDay& day : series.days) {
        if (!day.has_temperatures()) continue;
        if (last_good && measure::days_between(*last_good, day.date) > 1) {
            found.push_back({add_days(*last_good, 1), add_days(day.date, -1)});
        }
        last_good = day.date;
    }
    return found;
}

WeatherSeries fill_short_gaps(const WeatherSeries& series, int most_days) {
    if (most_days < 1) {
        throw measure::InputError(fmt::format("gaps of up to {} days cannot be filled", most_days),
                                  {}, "give the longest gap to be filled in days, such as 3");
    }
    WeatherSeries filled = series;
    for (const Gap& gap : gaps(series)) {
        if (gap.days() <= most_days) fill(filled, gap);
    }
    return filled;
}

int days_not_measured(const WeatherSeries& series, const Date& first, const Date& last) {
    int missing = measure::days_between(first, last) + 1;
    for (auto day = at_or_after(series, first); day != series.days.end() && day->date <= last;
         ++day) {
        if (day->has_temperatures() && !day->filled) --missing;
    }
    return std::max(missing, 0);
}

}  // namespace ashtriage::weather
