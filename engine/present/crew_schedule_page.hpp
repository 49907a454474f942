// The season of the crews as a page to print: an overview drawn week by week, and every visit.
#pragma once

#include <string>
#include <vector>

#include "plan/crew_schedule.hpp"
#include "present/trees_without_a_day.hpp"

namespace ashtriage::present {

// A self-contained HTML page.
std::string crew_schedule_page(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                               const plan::Crews& crews,
                               const std::vector<TreeWithoutADay>& without_a_day,
                               bool example_cards);

}  // namespace ashtriage::present
