// The plan of the crews for other programs.
#pragma once

#include <string>
#include <vector>

#include "plan/crew_schedule.hpp"
#include "plan/replan.hpp"
#include "present/recommendation_json.hpp"
#include "present/trees_without_a_day.hpp"

namespace ashtriage::present {

// A row for each tree: where and when it is planned, or why it is not.
std::string crew_schedule_csv(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                              const plan::Crews& crews,
                              const std::vector<TreeWithoutADay>& without_a_day);

// `replanned`: what each lost day moved, as the text says it; the schedule is the last of them.
Json crew_schedule_json(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                        const plan::Crews& crews, const std::vector<TreeWithoutADay>& without_a_day,
                        const std::vector<plan::Replanned>& replanned);

}  // namespace ashtriage::present
