#include "season/known_year.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "weather/projection.hpp"

namespace ashtriage::season {

using measure::Date;
using measure::InputError;
using weather::HeatTotals;

namespace {

bool is_in(const Date& date, int year) {
    return date.year() == std::chrono::year(year);
}

void check_rule(const Calendar& calendar, const weather::HeatRule& rule) {
    if (rule.base == calendar.base && rule.start == calendar.start &&
        rule.unit == weather::DegreeUnit::fahrenheit) {
        return;
    }
    weather::HeatRule wanted;
    wanted.base = calendar.base;
    wanted.start = calendar.start;
    throw InputError(fmt::format("the figures of the calendar do not hold for {} ({})",
                                 weather::unit_words(rule.unit), weather::words(rule)),
                     {},
                     fmt::format("reckon {}, as in: {}", weather::unit_words(wanted.unit),
                                 weather::words(wanted)));
}

HeatDate unknown(std::string why) {
    HeatDate date;
    date.why = std::move(why);
    return date;
}

HeatDate never(std::string why) {
    HeatDate date = unknown(std::move(why));
    date.knowledge = HeatKnowledge::never;
    return date;
}

// How far the weather of the year goes: the same for every total that it does not reach.
std::string reach_words(const HeatTotals& so_far) {
    if (so_far.days.empty()) {
        return fmt::format("nothing is known of the weather of {}",
                           static_cast<int>(so_far.first.year()));
    }
    return fmt::format("the weather known goes to {} and {:.1f} degree days",
                       measure::long_text(so_far.days.back().date), so_far.days.back().total);
}

HeatDate projected(const HeatTotals& so_far, double degree_days,
                   const std::vector<HeatTotals>& past) {
    if (so_far.stopped) {
        return unknown(fmt::format("the weather has a gap from {} on: {}",
                                   measure::text(so_far.stopped->first_missing),
                                   so_far.stopped->why));
    }
    if (past.size() < weather::fewest_past_seasons) {
        return unknown(fmt::format(
            "{}, and a projection needs {} complete past seasons of the same place; there {} {}",
            reach_words(so_far), weather::fewest_past_seasons, past.size() == 1 ? "is" : "are",
            past.size()));
    }
    const weather::DateProjection found = weather::project_date(so_far, degree_days, past);
    if (!found.mean) {
        return never(
            fmt::format("by the mean of {} past seasons {:g} degree days are not reached this year",
                        found.seasons, degree_days));
    }
    HeatDate date;
    date.knowledge = HeatKnowledge::projected;
    date.date = found.mean;
    date.earliest = found.earliest;
    date.latest = found.latest;
    date.seasons = found.seasons;
    return date;
}

}  // namespace

const CalendarEvent& Calendar::event(std::string_view name) const {
    const auto found = std::ranges::find(events, name, &CalendarEvent::name);
    if (found != events.end()) return *found;
    std::vector<std::string> names;
    for (const CalendarEvent& each : events) names.push_back(each.name);
    throw InputError(fmt::format("the calendar has no event '{}'", name), {},
                     packs::nearest_hint(name, names));
}

std::optional<Date> KnownYear::leaf_out_in(int year) const {
    return leaf_out && is_in(*leaf_out, year) ? leaf_out : std::nullopt;
}

std::optional<Date> KnownYear::seen_in(std::string_view cue, int year) const {
    const auto found = std::ranges::find_if(
        cues, [&](const CueSeen& seen) { return seen.cue == cue && is_in(seen.date, year); });
    return found == cues.end() ? std::nullopt : std::optional(found->date);
}

void check(const Calendar& calendar, const KnownYear& known) {
    if (known.heat) check_rule(calendar, known.heat->rule);
    for (const HeatTotals& season : known.past) check_rule(calendar, season.rule);
    for (const CueSeen& seen : known.cues) {
        if (calendar.event(seen.cue).cue) continue;
        throw InputError(fmt::format("'{}' is nothing that can be seen on a day", seen.cue));
    }
}

HeatDate date_of_heat(const KnownYear& known, int year, double degree_days) {
    if (!known.heat) return {};
    const HeatTotals& totals = *known.heat;
    const int year_of_weather = static_cast<int>(totals.first.year());
    if (year < year_of_weather) return unknown(fmt::format("no weather of {} was given", year));
    if (year > year_of_weather) {
        const Date first(std::chrono::year(year), totals.first.month(), totals.first.day());
        std::vector<HeatTotals> past = known.past;
        if (totals.complete()) past.push_back(totals);
        return projected(HeatTotals{totals.rule, totals.station, first, {}, {}, 0}, degree_days,
                         past);
    }
    if (const auto reached = totals.date_of(degree_days)) {
        HeatDate date;
        date.knowledge = HeatKnowledge::measured;
        date.date = reached;
        return date;
    }
    if (totals.complete()) {
        return never(fmt::format("{} ended without reaching {:g} degree days", year, degree_days));
    }
    return projected(totals, degree_days, known.past);
}

}  // namespace ashtriage::season
