// The days on which a method may be applied at a place in a year, and the next ones from a given
// day.
//
// Every date is an estimate for a usual year. The label, the leaves on the tree and the soil
// decide.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "season/hopkins.hpp"
#include "season/known_year.hpp"
#include "season/seasons.hpp"

namespace ashtriage::season {

// By what an end of a window was set.
enum class Basis {
    calendar,        // the day of the rules, moved to the place
    heat_measured,   // the day on which a total of degree days was reached
    heat_projected,  // the day on which it will be, going by past years
    leaf_out,        // what was seen on the tree
    cue,             // what was seen on another plant
    time_of_year     // cut off where the method must not be used any more, or not yet
};

struct EndBasis {
    Basis basis = Basis::calendar;
    std::string words;          // "250 degree days reached", to be read after "by"
    int give_or_take_days = 0;  // 0: it was seen, or is a rule
    // Of a projection: by the warmest and by the coldest past season; the latter may not get there.
    std::optional<measure::Date> earliest;
    std::optional<measure::Date> latest;
    SourceKeys sources;
};

// For stems above a diameter, the last day of the better part.
struct LargerBest {
    measure::Length over;
    measure::Date best_until{};
    EndBasis by;
};

// All three days belong to the window.
struct Window {
    measure::Date opens{};
    measure::Date best_until{};  // the last day of the better part
    measure::Date closes{};
    int moved_days = 0;         // later than at the anchor; negative: earlier
    int give_or_take_days = 0;  // every date of the calendar is right only within so many days
    std::vector<std::string> cautions;
    EndBasis opens_by = {};
    EndBasis best_by = {};
    EndBasis closes_by = {};
    std::optional<LargerBest> larger_stems = std::nullopt;
    std::optional<measure::Date> again =
        std::nullopt;  // the second time, after one on the first day

    bool contains(const measure::Date& date) const { return opens <= date && date <= closes; }
};

// A window, or why there is none.
struct WindowOfYear {
    std::optional<Window> window;
    std::string why_none;  // whole sentences; empty when there is one
};

// The window of a method in a year; without a location, at the anchor. What was seen (leaf-out, a
// cue) sets an end before what was reckoned (degree days), and that before the calendar. Where both
// the leaves and something else set it, the later one opens and the earlier one closes. The dates
// of the calendar that follow spring are moved by Hopkins' law in whole days (a half away from
// zero). Then the window is cut off at the ends of the times of the year in which the method may
// be used, so that however a place or a year is, no window reaches into autumn or winter for a
// method that is never used then. Throws InputError for a place the dates are not meant for, or
// totals that check() refuses.
WindowOfYear window_for(const Seasons& seasons, const MethodSeason& season,
                        const std::optional<Location>& location, int year, const KnownYear& known);

// The same for the method of that name; where nothing is known of the year, by the calendar alone.
// Throws InputError for an unknown method too.
std::optional<Window> window_for(const Seasons& seasons, std::string_view method,
                                 const std::optional<Location>& location, int year,
                                 const KnownYear& known = {});

enum class WindowState {
    open_now,               // the day asked about lies in the window
    opens_later_this_year,  // the window of this year is still to come
    passed_so_next_year,    // this year's is over: the window is next year's
    none_here               // no day of any year is left for the method at this place
};

struct NextWindow {
    WindowState state = WindowState::none_here;
    std::optional<Window> window;  // none when there is none here
    int days_until_open = 0;       // 0 when open now
    int days_left = 0;             // in the window after `as_of`, when open now; 0 on its last day
    bool past_best = false;        // open now, but the better part is over
    std::string why_none;          // of the year asked about, when there is no window
};

// The window on a day, or the next one after it. When a year has none, that of the next year is
// taken, and `why_none` says why this one has none.
NextWindow next_window(const Seasons& seasons, const MethodSeason& season,
                       const std::optional<Location>& location, const measure::Date& as_of,
                       const KnownYear& known);

NextWindow next_window(const Seasons& seasons, std::string_view method,
                       const std::optional<Location>& location, const measure::Date& as_of,
                       const KnownYear& known = {});

}  // namespace ashtriage::season
