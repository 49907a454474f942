// The plan after a day was lost to rain.
//
// What was planned before that day, and on it by other crews, stays as it is. Of the days after it
// as little as possible is moved: as few as possible of the trees that were planned lose their
// place, by priority; then as few as possible come to another day or crew; then as few as possible
// are done after the better part of their window; then the crews take as few minutes as possible.
// The rain reserve may be used. Trees that were left out before are put in where they fit without
// moving any other. A day whose trees stay the same keeps its hours.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "plan/crew_schedule.hpp"

namespace ashtriage::plan {

struct CrewOnDay {
    std::size_t crew = 0;
    measure::Date day{};

    friend bool operator==(const CrewOnDay&, const CrewOnDay&) = default;
};

struct Move {
    std::size_t job = 0;
    std::optional<CrewOnDay> from;  // none: it was left out before
    CrewOnDay to;
};

// A visit to the same site on the same day as before, by the same crew, at other hours.
struct ChangedHours {
    CrewOnDay on;
    Visit before;
    Visit now;
};

struct Replanned {
    CrewSchedule schedule;
    std::vector<Move> moved;                  // by job
    std::vector<LeftOut> lost_place;          // was planned and no longer fits; by job
    std::vector<ChangedHours> changed_hours;  // in the order of the plan
};

// `schedule` is a plan of the same work, crews and options; it may be one that replan() made.
// Throws InputError for a day on which nobody was to work, or for a crew that there is not.
Replanned replan(const CrewSchedule& schedule, const WorkDue& work, const Crews& crews,
                 const ScheduleOptions& options, const LostDay& lost);

}  // namespace ashtriage::plan
