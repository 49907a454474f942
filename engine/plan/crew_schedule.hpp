// Which crew treats which trees on which day.
//
// The aim, in this order: as few trees left out as possible of the most important priority, then of
// the next, and so on; then as few trees as possible after the better part of their window; then as
// few minutes of all crews as possible, travel included; then every tree as early as possible. No
// tree is planned outside its window, no crew beyond its minutes or on a day off, no work that
// needs a certified applicator without one, no site beyond its account of the acre.
//
// The plan is the same for the same work, whatever the order it is given in. Up to `exact_jobs`
// jobs it is the best there is, found by going through all of them; beyond, a good one, whose
// `standing` says what is known of it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "plan/crew_day.hpp"
#include "plan/visits.hpp"

namespace ashtriage::plan {

inline constexpr std::size_t exact_jobs = 12;

enum class WithoutPlace { leave_out, plan_without_travel };

struct ScheduleOptions {
    measure::Date from{};  // the first day that may be planned
    WithoutPlace without_place = WithoutPlace::leave_out;
};

enum class LeftOutBecause {
    site_without_place,
    window_over,          // before the first day that may be planned
    no_crew_day,          // no crew works in the window
    no_certified_crew,    // crews work, none of them certified
    longer_than_any_day,  // with the way there and back and setting up
    acre_account,         // the site may take no more of the active ingredient in that year
    no_room               // the days in the window are taken by work at least as important
};

struct LeftOut {
    std::size_t job = 0;
    LeftOutBecause because = LeftOutBecause::no_room;
    int minutes_needed = 0;     // longer_than_any_day, no_room: alone on a day, travel included
    int minutes_available = 0;  // longer_than_any_day: the longest day; no_room: most left on one
    // Proof that the tree, or another in its stead, must be left out; one of the two at most.
    std::optional<std::size_t> shortfall;
    std::optional<std::size_t> acre_shortfall;
};

// Work that must be done within an interval, and more of it than the crews can do: proof that no
// plan reaches all of it. `needed` is a lower bound: the work, and for set-up and travel the larger
// of two: for every site, of setting up and the shortest way into it, with the shortest way back on
// every crew day; and for every crew day, of setting up once and going to the nearest site and
// back. `available` is all that may be planned in the interval. Where `needed` is no more than
// that, the trees do not fit because they cannot be cut up: `room_for` is how many would if all of
// them were the shortest.
struct Shortfall {
    measure::Date from{};
    measure::Date to{};
    bool certified = false;  // of work for certified crews alone
    std::vector<std::size_t> jobs;
    int needed = 0;
    int available = 0;
    std::size_t room_for = 0;           // trees
    std::size_t at_least_left_out = 0;  // of these jobs, by any plan
};

// Trees of a site that must be done in one year, and that take more of an active ingredient than
// its account of the acre has left.
struct AcreShortfall {
    std::size_t room = 0;  // index into the rooms of the work due
    std::vector<std::size_t> jobs;
    measure::Mass needed;
    measure::Mass left;
    std::size_t at_least_left_out = 0;  // of these jobs, by any plan
};

enum class ScheduleStanding {
    best,             // no plan is better by the aim above: all were gone through
    all_planned,      // every tree that can be planned is; fewer minutes may be possible
    fewest_left_out,  // as many are left out as the shortfalls prove; which, and the minutes, may
                      // be better in another plan
    some_left_out     // some found no room; fewer might with another plan, as far as no shortfall
                      // proves
};

// What the rain reserve comes to where trees are left out.
struct FreeForRain {
    int minutes = 0;             // of all crews
    std::size_t would_hold = 0;  // of the trees that are left out, at the least
};

struct CrewSchedule {
    std::vector<PlannedDay> days;   // with a visit or more, by date and then by crew
    std::vector<LeftOut> left_out;  // by job
    std::vector<Shortfall> shortfalls;
    std::vector<AcreShortfall> acre_shortfalls;
    ScheduleStanding standing = ScheduleStanding::best;
    int minutes = 0;            // of all days
    FreeForRain free_for_rain;  // nothing in a plan that uses the reserve
    std::vector<LostDay> lost;
};

// Throws InputError when there is no crew.
CrewSchedule crew_schedule(const WorkDue& work, const Crews& crews, const ScheduleOptions& options);

}  // namespace ashtriage::plan
