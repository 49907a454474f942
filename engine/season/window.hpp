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
#include "season/seasons.hpp"

namespace ashtriage::season {

// All three days belong to the window.
struct Window {
    measure::Date opens;
    measure::Date best_until;  // the last day of the better part
    measure::Date closes;
    int moved_days = 0;         // later than at the anchor; negative: earlier
    int give_or_take_days = 0;  // every date is right only within so many days
    std::vector<std::string> cautions;

    bool contains(const measure::Date& date) const { return opens <= date && date <= closes; }
};

// The method's window in that year; without a location, the anchor's own. The dates that follow
// spring are moved by Hopkins' law in whole days (a half away from zero); then the window is cut
// off at the ends of the times of the year in which the method may be used, so that however a place
// lies no window reaches into autumn or winter for a method that is never used then. Nothing when
// no day is left. Throws InputError for an unknown method or a place the dates are not meant for.
std::optional<Window> window_for(const Seasons& seasons, std::string_view method,
                                 const std::optional<Location>& location, int year);

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
};

NextWindow next_window(const Seasons& seasons, std::string_view method,
                       const std::optional<Location>& location, const measure::Date& as_of);

}  // namespace ashtriage::season
