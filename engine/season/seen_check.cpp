#include "season/seen_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace ashtriage::season {

using measure::Date;

namespace {

struct Span {
    Date first;
    Date last;
};

// From the earliest to the latest date of the calendar for which it stands, at the anchor; nothing
// when it stands for none.
template <class StandsFor>
std::optional<Span> span_of(const Seasons& seasons, int year, StandsFor stands_for) {
    std::optional<Span> span;
    for (const MethodSeason& method : seasons.methods) {
        for (const AnchoredDay* end : {&method.opens, &method.best_until, &method.closes}) {
            const std::optional<Mark> mark = stands_for(*end);
            if (!mark) continue;
            const Date seen = measure::add_days(
                Date(std::chrono::year(year), end->day.month(), end->day.day()), -mark->days);
            span = span ? Span{std::min(span->first, seen), std::max(span->last, seen)}
                        : Span{seen, seen};
        }
    }
    return span;
}

std::string calendar_doubt(const Seasons& seasons, const std::vector<Location>& places,
                           const std::optional<Span>& span, const Date& seen) {
    if (!span) return {};
    std::vector<int> moves;
    for (const Location& place : places) {
        moves.push_back(static_cast<int>(std::lround(hopkins_days(seasons.anchor, place))));
    }
    if (moves.empty()) moves.push_back(0);
    std::string doubt;
    for (const int days : moves) {
        const Date first = measure::add_days(span->first, days);
        const Date last = measure::add_days(span->last, days);
        if (measure::days_between(seen, first) <= most_days_from_calendar &&
            measure::days_between(last, seen) <= most_days_from_calendar) {
            return {};
        }
        doubt = first == last
                    ? fmt::format("in a usual year it is about {}", measure::long_text(first))
                    : fmt::format("in a usual year it is between {} and {}",
                                  measure::long_text(first), measure::long_text(last));
    }
    return doubt;
}

std::optional<double> total_on(const KnownYear& known, const Date& seen) {
    return known.heat ? known.heat->total_on(seen) : std::nullopt;
}

// Nothing where the degree days have no word against it: late it can be in any warmth.
std::optional<std::string> leaf_out_by_heat(const KnownYear& known, const Date& seen) {
    const auto total = total_on(known, seen);
    if (!total || *total >= fewest_at_leaf_out) return std::nullopt;
    return fmt::format("only {:.1f} degree days F had come by then, and ash is late to leaf out",
                       *total);
}

// Nothing where no degree days are known; empty where they agree, whatever the calendar says.
std::optional<std::string> bloom_by_heat(const KnownYear& known, const CalendarEvent& event,
                                         const Date& seen) {
    const auto total = total_on(known, seen);
    if (!total) return std::nullopt;
    if (*total >= lowest_share_of_band * event.from &&
        *total <= highest_multiple_of_band * event.to) {
        return std::string{};
    }
    const std::string band = event.from == event.to
                                 ? fmt::format("{:g}", event.from)
                                 : fmt::format("{:g} to {:g}", event.from, event.to);
    return fmt::format("{:.1f} degree days F had come by then, and it is seen at {}", *total, band);
}

}  // namespace

std::vector<SeenDoubt> doubts_of_seen(const Seasons& seasons, const std::vector<Location>& places,
                                      const KnownYear& known) {
    std::vector<SeenDoubt> doubts;
    const auto judge = [&](const std::string& name, const std::string& title, const Date& seen,
                           const std::optional<std::string>& by_heat, const auto& stands_for) {
        const int year = static_cast<int>(seen.year());
        const std::string why =
            by_heat ? *by_heat
                    : calendar_doubt(seasons, places, span_of(seasons, year, stands_for), seen);
        if (why.empty()) return;
        doubts.push_back(
            {name, fmt::format("{} on {} cannot be: {}", title, measure::long_text(seen), why)});
    };
    if (known.leaf_out) {
        judge("leaf_out", "Full leaf-out", *known.leaf_out,
              leaf_out_by_heat(known, *known.leaf_out),
              [](const AnchoredDay& end) { return end.leaf_out; });
    }
    for (const CueSeen& seen : known.cues) {
        const CalendarEvent& event = seasons.calendar.event(seen.cue);
        judge(seen.cue, event.title, seen.date, bloom_by_heat(known, event, seen.date),
              [&](const AnchoredDay& end) -> std::optional<Mark> {
                  if (!end.cue || end.cue->cue != seen.cue) return std::nullopt;
                  return *end.cue;
              });
    }
    return doubts;
}

}  // namespace ashtriage::season
