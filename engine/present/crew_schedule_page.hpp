// The season of the crews as a page to print: an overview drawn week by week, and every visit.
#pragma once

#include <string>
#include <vector>

#include "plan/crew_schedule.hpp"
#include "present/work_to_schedule.hpp"

namespace ashtriage::present {

// A self-contained HTML page.
std::string crew_schedule_page(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                               const plan::Crews& crews,
                               const std::vector<NotScheduled>& not_scheduled, bool example_cards);

}  // namespace ashtriage::present
