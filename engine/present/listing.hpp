// Many trees at a glance, as text, CSV or JSON.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_set.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

// A line a tree: label, DBH, recommendation with its standing, flags; then how many came out how.
std::string triage_text(const std::vector<TreeAssessment>& trees);
std::string triage_csv(const std::vector<TreeAssessment>& trees);
std::string triage_json(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules);

// Hazardous trees and trees too far gone, the most urgent first, each with what to do now.
std::string flags_text(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules);
std::string flags_csv(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules);
std::string flags_json(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules);

}  // namespace ashtriage::present
