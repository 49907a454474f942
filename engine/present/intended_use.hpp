// The treatment of a tree as it is meant to be done on a day, held against its label.
#pragma once

#include "measure/date.hpp"
#include "present/assessment.hpp"
#include "present/knowledge.hpp"
#include "treat/permission.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

// From what the walk-around found and what was applied before: earlier applications, the distance
// to water, whether whoever applies it is certified.
treat::IntendedUse intended_use(const TreeAssessment& tree, const treat::LabelCard& card,
                                const treat::SiteHistory& before, const packs::RuleSet& rules,
                                const measure::Date& on);

// Where the label forbids the treatment of a tree on the first day of its window from `as_of` on,
// its dose becomes one that is stopped and says why, without amounts. What only the card being an
// example stops keeps its amounts: they show the arithmetic.
void hold_against_the_label(TreeAssessment& tree, const Knowledge& knowledge,
                            const treat::SiteHistory& before, const measure::Date& as_of);

}  // namespace ashtriage::present
