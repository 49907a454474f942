// One tree explained in plain text: hazards first, then the recommendation, the reasons with what
// was observed beside each threshold, what would change it, what to do, sources and cautions.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

// For the practitioner.
std::string explanation(const TreeAssessment& tree, const packs::RuleSet& rules);

// For the owner: no codes, no rule names, no conditions.
std::string explanation_for_client(const TreeAssessment& tree);

// The treatment alone: method, card, amounts, window.
std::string treatment_text(const plan::Treatment& treatment);

}  // namespace ashtriage::present
