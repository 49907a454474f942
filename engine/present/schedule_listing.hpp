// Which trees are to be treated when, as text, CSV or JSON.
#pragma once

#include <string>
#include <vector>

#include "plan/schedule.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

// The trees whose recommendation is to treat, with the method chosen for each.
std::vector<plan::TreatableTree> trees_to_treat(const std::vector<PropertyAssessment>& properties);

std::string schedule_text(const std::vector<plan::ScheduledTree>& scheduled);
std::string schedule_csv(const std::vector<plan::ScheduledTree>& scheduled);
std::string schedule_json(const std::vector<plan::ScheduledTree>& scheduled);

}  // namespace ashtriage::present
