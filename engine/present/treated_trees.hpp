// What the walk-around says to a tree that a record says was treated.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "present/assessment.hpp"
#include "treat/dose.hpp"

namespace ashtriage::present {

// A warning where the tree, by its last walk-around up to the day of the treatment, is none to be
// treated: no ash, dead, too far gone, or only to be watched. The label may allow it, but a slip in
// the tree's label looks like this too. Nothing where it may be treated.
std::optional<treat::Finding> finding_about_treated(const TreeAssessment& tree);

// The warning for a tree that nobody had walked round by then.
treat::Finding treated_without_walk(const std::string& label);

}  // namespace ashtriage::present
