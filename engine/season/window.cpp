#include "season/window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/input_error.hpp"

namespace ashtriage::season {

using measure::Date;

namespace {

struct Stretch {
    Date first;
    Date last;
};

bool is_never(const MethodSeason& season, TimeOfYear time) {
    return std::find(season.never_in.begin(), season.never_in.end(), time) != season.never_in.end();
}

// The times of the year from that of the opening day on, as far as the method may be used without a
// break. Winter ends it at the latest: it is the turn of the year.
Stretch allowed_stretch(const MethodSeason& season, int year) {
    using std::chrono::day;
    using std::chrono::month;
    const std::chrono::year in_year(year);
    const Stretch spring{{in_year, month(3), day(1)}, {in_year, month(5), day(31)}};
    const Stretch summer{{in_year, month(6), day(1)}, {in_year, month(8), day(31)}};
    const Stretch autumn{{in_year, month(9), day(1)}, {in_year, month(11), day(30)}};
    const Stretch parts[] = {spring, summer, autumn};
    const auto at = static_cast<std::size_t>(
        time_of_year(Date(in_year, season.opens.day.month(), season.opens.day.day())));
    if (at >= std::size(parts)) {
        throw measure::InputError(fmt::format("the window of '{}' opens in winter", season.method),
                                  {}, "a window lies between 1 March and 30 November");
    }
    std::size_t first = at;
    while (first > 0 && !is_never(season, static_cast<TimeOfYear>(first - 1))) --first;
    std::size_t last = at;
    while (last + 1 < std::size(parts) && !is_never(season, static_cast<TimeOfYear>(last + 1))) {
        ++last;
    }
    return {parts[first].first, parts[last].last};
}

Date placed(const AnchoredDay& anchored, int year, int days) {
    const Date date(std::chrono::year(year), anchored.day.month(), anchored.day.day());
    return anchored.moves ? measure::add_days(date, days) : date;
}

}  // namespace

std::optional<Window> window_for(const Seasons& seasons, std::string_view method,
                                 const std::optional<Location>& location, int year) {
    const MethodSeason& season = seasons.method(method);
    Window window;
    window.give_or_take_days = seasons.give_or_take_days;
    window.moved_days =
        location ? static_cast<int>(std::lround(hopkins_days(seasons.anchor, *location))) : 0;
    window.cautions = cautions_about(seasons.anchor, location);

    const Stretch allowed = allowed_stretch(season, year);
    const Date opens = placed(season.opens, year, window.moved_days);
    const Date closes = placed(season.closes, year, window.moved_days);
    window.opens = std::max(opens, allowed.first);
    window.closes = std::min(closes, allowed.last);
    if (window.opens > window.closes) return std::nullopt;
    window.best_until =
        std::clamp(placed(season.best_until, year, window.moved_days), window.opens, window.closes);
    if (window.opens != opens || window.closes != closes) {
        window.cautions.push_back(fmt::format(
            "The dates for this place would go beyond {} to {}, the part of the year the "
            "method is for: they were cut off there.",
            measure::long_text(allowed.first), measure::long_text(allowed.last)));
    }
    return window;
}

NextWindow next_window(const Seasons& seasons, std::string_view method,
                       const std::optional<Location>& location, const Date& as_of) {
    NextWindow next;
    const int year = static_cast<int>(as_of.year());
    next.window = window_for(seasons, method, location, year);
    if (!next.window) return next;
    if (as_of > next.window->closes) {
        next.state = WindowState::passed_so_next_year;
        next.window = window_for(seasons, method, location, year + 1);
        if (!next.window) return {};
    } else if (as_of < next.window->opens) {
        next.state = WindowState::opens_later_this_year;
    } else {
        next.state = WindowState::open_now;
        next.days_left = measure::days_between(as_of, next.window->closes);
        next.past_best = as_of > next.window->best_until;
        return next;
    }
    next.days_until_open = measure::days_between(as_of, next.window->opens);
    return next;
}

}  // namespace ashtriage::season
