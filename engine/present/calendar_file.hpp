// The plan as a calendar file (iCalendar, RFC 5545) for any calendar program.
//
// One event for each visit, one to-do for each tree that is due for a method, those included that
// are left out or cannot be scheduled. Times are those of the place, without a zone. An event or
// to-do keeps its identity for the season, so that a later file of the same work takes the place of
// an earlier one and nothing stands there twice: a to-do is known by site, tree, method and year, a
// visit by its site, the year and its number among the visits to the site in that year.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "measure/date.hpp"
#include "plan/crew_schedule.hpp"
#include "present/trees_without_a_day.hpp"

namespace ashtriage::present {

struct CalendarOptions {
    measure::Date as_of{};       // the day the file speaks of: its DTSTAMP
    measure::Date planned_on{};  // of the plan: LAST-MODIFIED, and SEQUENCE grows with it
    // The plan that this one takes the place of: its visits that there are no more are cancelled.
    const plan::CrewSchedule* before = nullptr;
    // How many visits were made already, by site and year: the planned ones are numbered after
    // them.
    std::map<std::pair<std::string, int>, int> visits_made = {};
    // Trees that stand beside the work due.
    std::vector<TreeWithoutADay> without_a_day = {};
    // The text of the file that this one takes the place of, empty without one: what is still to
    // come in it and is no more in this one is cancelled.
    std::string earlier = {};
    // Where the plan is of one site alone, its name: nothing is cancelled at the others.
    std::string only_site = {};
};

// Throws measure::InputError where the earlier text is of no file that this program wrote.
std::string calendar_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                          const plan::Crews& crews, const CalendarOptions& options);

}  // namespace ashtriage::present
