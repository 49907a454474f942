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

Json crew_schedule_json(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                        const plan::Crews& crews,
                        const std::vector<TreeWithoutADay>& without_a_day);

}  // namespace ashtriage::present
