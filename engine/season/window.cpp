#include "season/window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <initializer_list>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

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

// Which end of the window is looked for.
enum class Side { first_day, last_day };

struct End {
    std::optional<Date> date;  // nothing: what opens the window never comes in this year
    EndBasis by;
    std::string fallback;  // why the calendar stands in for what the rules would rather go by
};

std::string offset_words(int days) {
    if (days == 0) return {};
    const int count = std::abs(days);
    return fmt::format("{} day{} {} ", count, count == 1 ? "" : "s", days < 0 ? "before" : "after");
}

// The last day, or the first, that a mark on that date leaves in the window.
Date marked(const Date& date, const Mark& mark, Side side) {
    const int beyond = mark.included ? 0 : side == Side::first_day ? 1 : -1;
    return measure::add_days(date, mark.days + beyond);
}

std::optional<Date> marked(const std::optional<Date>& date, const Mark& mark, Side side) {
    return date ? std::optional(marked(*date, mark, side)) : std::nullopt;
}

class YearAtPlace {
 public:
    YearAtPlace(const Seasons& seasons, const std::optional<Location>& location, int year,
                const KnownYear& known)
        : seasons_(seasons),
          year_(year),
          known_(known),
          moved_days_(location
                          ? static_cast<int>(std::lround(hopkins_days(seasons.anchor, *location)))
                          : 0) {
        check(seasons.calendar, known);
    }

    int moved_days() const { return moved_days_; }

    End end_of(const AnchoredDay& anchored, Side side) const {
        End reckoned = by_cue_or_heat(anchored, side);
        if (reckoned.by.basis != Basis::calendar && !reckoned.date) return reckoned;
        End leaves = by_leaf_out(anchored, side);
        if (!leaves.date) return reckoned.date ? reckoned : by_calendar(anchored, reckoned);
        if (!reckoned.date) return leaves;
        const bool leaves_decide = side == Side::first_day ? *leaves.date >= *reckoned.date
                                                           : *leaves.date <= *reckoned.date;
        return leaves_decide ? leaves : reckoned;
    }

    // No date where the heat does not say.
    End by_heat(const HeatMark& mark, Side side) const {
        const HeatDate found = date_of_heat(known_, year_, mark.degree_days);
        End end;
        if (found.knowledge == HeatKnowledge::unknown) {
            end.fallback = found.why;
            return end;
        }
        if (found.knowledge == HeatKnowledge::never) {
            end.fallback = found.why;
            // A window whose opening never comes is none; one whose closing never comes stays.
            if (side == Side::first_day) end.by.basis = Basis::heat_projected;
            return end;
        }
        const bool measured = found.knowledge == HeatKnowledge::measured;
        end.date = marked(*found.date, mark, side);
        end.by.basis = measured ? Basis::heat_measured : Basis::heat_projected;
        end.by.words = fmt::format("{}{:g} degree days{}", offset_words(mark.days),
                                   mark.degree_days, measured ? "" : ", projected");
        end.by.give_or_take_days = seasons_.calendar.give_or_take_days;
        end.by.earliest = marked(found.earliest, mark, side);
        end.by.latest = marked(found.latest, mark, side);
        end.by.sources = mark.sources;
        return end;
    }

 private:
    End by_cue_or_heat(const AnchoredDay& anchored, Side side) const {
        if (anchored.cue) {
            if (const auto seen = known_.seen_in(anchored.cue->cue, year_)) {
                End end;
                end.date = marked(*seen, *anchored.cue, side);
                end.by = {Basis::cue,
                          offset_words(anchored.cue->days) +
                              seasons_.calendar.event(anchored.cue->cue).title,
                          seasons_.calendar.give_or_take_days,
                          {},
                          {},
                          anchored.cue->sources};
                return end;
            }
        }
        return anchored.heat ? by_heat(*anchored.heat, side) : End{};
    }

    End by_leaf_out(const AnchoredDay& anchored, Side side) const {
        End end;
        const auto leaf_out = known_.leaf_out_in(year_);
        if (!anchored.leaf_out || !leaf_out) return end;
        end.date = marked(*leaf_out, *anchored.leaf_out, side);
        end.by = {Basis::leaf_out,
                  offset_words(anchored.leaf_out->days) + "full leaf-out",
                  0,
                  {},
                  {},
                  anchored.leaf_out->sources};
        return end;
    }

    End by_calendar(const AnchoredDay& anchored, End end) const {
        const Date date(std::chrono::year(year_), anchored.day.month(), anchored.day.day());
        end.date = anchored.moves ? measure::add_days(date, moved_days_) : date;
        end.by = {Basis::calendar,
                  anchored.moves && moved_days_ != 0 ? "the calendar, moved to the place"
                                                     : "the calendar",
                  seasons_.give_or_take_days,
                  {},
                  {},
                  anchored.sources};
        return end;
    }

    const Seasons& seasons_;
    int year_;
    const KnownYear& known_;
    int moved_days_;
};

std::string end_words(const End& end) {
    return fmt::format("{} (by {})", measure::long_text(*end.date), end.by.words);
}

std::string stretch_words(const Stretch& allowed) {
    return fmt::format("{} to {}", measure::long_text(allowed.first),
                       measure::long_text(allowed.last));
}

// Moves an end to where the method may be used.
void cut(End& end, const Date& to) {
    if (*end.date == to) return;
    end.date = to;
    end.by = {Basis::time_of_year, "the time of the year that the method is for", 0, {}, {}, {}};
}

// The better part lies within the window.
void keep_within(Window& window, End& best, std::vector<std::string>& cautions) {
    if (*best.date < window.opens && best.by.basis != Basis::calendar) {
        cautions.push_back(
            fmt::format("The better part would end on {}, before the window opens: the first days "
                        "are the best there are.",
                        end_words(best)));
    }
    window.best_until = std::clamp(*best.date, window.opens, window.closes);
    window.best_by = window.best_until == *best.date     ? best.by
                     : window.best_until == window.opens ? window.opens_by
                                                         : window.closes_by;
}

void add_larger_stems(Window& window, const LargerStems& larger, const YearAtPlace& year) {
    const End best = year.by_heat(larger.best_until, Side::last_day);
    if (!best.date) return;
    LargerBest found{larger.over, std::min(*best.date, window.best_until), best.by};
    if (found.best_until < window.opens) {
        found.best_until = window.opens;
        found.by = window.opens_by;
        window.cautions.push_back(fmt::format(
            "For stems over {} the better part would end on {}, before the window opens: the first "
            "day is the best there is.",
            larger.over.with_unit(measure::units::inch, 0), end_words(best)));
    }
    window.larger_stems = std::move(found);
}

void add_second_time(Window& window, const Repeat& again) {
    const Date date = measure::add_days(window.opens, again.days);
    if (date <= window.closes) {
        window.again = date;
        return;
    }
    window.cautions.push_back(fmt::format(
        "A second time, {} days after the first, would fall after the window closes.", again.days));
}

void add_fallbacks(std::vector<std::string>& cautions, std::initializer_list<const End*> ends) {
    for (const End* end : ends) {
        if (end->fallback.empty()) continue;
        std::string text = fmt::format("By the calendar, since {}.", end->fallback);
        if (std::ranges::find(cautions, text) == cautions.end())
            cautions.push_back(std::move(text));
    }
}

}  // namespace

WindowOfYear window_for(const Seasons& seasons, const MethodSeason& season,
                        const std::optional<Location>& location, int year, const KnownYear& known) {
    const YearAtPlace at(seasons, location, year, known);
    End opens = at.end_of(season.opens, Side::first_day);
    End best = at.end_of(season.best_until, Side::last_day);
    End closes = at.end_of(season.closes, Side::last_day);
    if (!opens.date) {
        return {std::nullopt, fmt::format("It does not open: {}.", opens.fallback)};
    }
    if (*opens.date > *closes.date) {
        return {std::nullopt, fmt::format("It would close on {}, before it opens on {}.",
                                          end_words(closes), end_words(opens))};
    }
    const Stretch allowed = allowed_stretch(season, year);
    if (*opens.date > allowed.last || *closes.date < allowed.first) {
        return {std::nullopt,
                fmt::format("From {} to {} it would lie wholly beyond {}, the part of the year "
                            "the method is for.",
                            end_words(opens), end_words(closes), stretch_words(allowed))};
    }

    Window window;
    window.give_or_take_days = seasons.give_or_take_days;
    window.moved_days = at.moved_days();
    if (opens.by.basis == Basis::calendar || best.by.basis == Basis::calendar ||
        closes.by.basis == Basis::calendar) {
        std::optional<Location> place = location;
        if (place && !place->by_shore) place->by_shore = known.by_shore;
        window.cautions = cautions_about(seasons.anchor, place);
    }
    add_fallbacks(window.cautions, {&opens, &best, &closes});
    if (*opens.date < allowed.first || *closes.date > allowed.last) {
        window.cautions.push_back(fmt::format(
            "The dates for this place would go beyond {}, the part of the year the method is for: "
            "they were cut off there.",
            stretch_words(allowed)));
    }
    cut(opens, std::max(*opens.date, allowed.first));
    cut(closes, std::min(*closes.date, allowed.last));
    window.opens = *opens.date;
    window.opens_by = opens.by;
    window.closes = *closes.date;
    window.closes_by = closes.by;
    keep_within(window, best, window.cautions);
    if (season.larger_stems) add_larger_stems(window, *season.larger_stems, at);
    if (season.again) add_second_time(window, *season.again);
    return {window, {}};
}

std::optional<Window> window_for(const Seasons& seasons, std::string_view method,
                                 const std::optional<Location>& location, int year,
                                 const KnownYear& known) {
    return window_for(seasons, seasons.method(method), location, year, known).window;
}

NextWindow next_window(const Seasons& seasons, const MethodSeason& season,
                       const std::optional<Location>& location, const Date& as_of,
                       const KnownYear& known) {
    const int year = static_cast<int>(as_of.year());
    WindowOfYear found = window_for(seasons, season, location, year, known);
    NextWindow next;
    next.why_none = std::move(found.why_none);
    next.window = std::move(found.window);
    if (next.window && next.window->contains(as_of)) {
        next.state = WindowState::open_now;
        next.days_left = measure::days_between(as_of, next.window->closes);
        next.past_best = as_of > next.window->best_until;
        return next;
    }
    if (next.window && as_of < next.window->opens) {
        next.state = WindowState::opens_later_this_year;
    } else {
        next.window = window_for(seasons, season, location, year + 1, known).window;
        if (!next.window) return next;
        next.state = WindowState::passed_so_next_year;
    }
    next.days_until_open = measure::days_between(as_of, next.window->opens);
    return next;
}

NextWindow next_window(const Seasons& seasons, std::string_view method,
                       const std::optional<Location>& location, const Date& as_of,
                       const KnownYear& known) {
    return next_window(seasons, seasons.method(method), location, as_of, known);
}

}  // namespace ashtriage::season
