// The plan as a calendar file (iCalendar, RFC 5545) for any calendar program.
//
// One event for each visit, one to-do for each tree that is due, left out ones included. Times are
// those of the place, without a zone. An event or to-do keeps its identity for the season, so that
// a later file of the same work takes the place of an earlier one and nothing stands there twice:
// a to-do is known by site, tree, method and year, a visit by its site, the year and the first of
// its trees.
#pragma once

#include <string>

#include "measure/date.hpp"
#include "plan/crew_schedule.hpp"

namespace ashtriage::present {

struct CalendarOptions {
    measure::Date as_of{};       // the day the file speaks of: its DTSTAMP
    measure::Date planned_on{};  // of the plan: LAST-MODIFIED, and SEQUENCE grows with it
    // The plan that this one takes the place of: its visits that there are no more are cancelled.
    const plan::CrewSchedule* before = nullptr;
};

std::string calendar_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                          const plan::Crews& crews, const CalendarOptions& options);

}  // namespace ashtriage::present
