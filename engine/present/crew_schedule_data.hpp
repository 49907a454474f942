// The plan of the crews for other programs.
#pragma once

#include <string>
#include <vector>

#include "plan/crew_schedule.hpp"
#include "plan/replan.hpp"
#include "present/recommendation_json.hpp"
#include "present/work_to_schedule.hpp"

namespace ashtriage::present {

// A row for each tree: where and when it is planned, or why it is not.
std::string crew_schedule_csv(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                              const plan::Crews& crews,
                              const std::vector<NotScheduled>& not_scheduled);

Json crew_schedule_json(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                        const plan::Crews& crews, const std::vector<NotScheduled>& not_scheduled);

}  // namespace ashtriage::present
