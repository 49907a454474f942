// The doses of a day, for people and for other programs.
#pragma once

#include <string>
#include <vector>

#include "present/planned_work.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

// "14.0 in (35.6 cm), a girth of 44.0 in (111.7 cm)": for the tape at the tree, which may go round.
std::string dbh_words(measure::Length dbh);

// The amounts of a dose, a line each in the unit it is measured out in with its twin; active
// ingredient, bark, holes; what the dose and the label say. Text wrapped to the page.
std::string amounts_text(const PlannedTree& planned);

// What stands under the amounts: the finished volume, the active ingredient in it, bark, holes.
std::vector<std::string> dose_lines(const PlannedTree& planned);

// "imidacloprid in 2026: 0.4 lb per acre, 72.6 g allowed here, ..."
std::string account_words(const treat::AcreAccount& account);

std::string work_text(const PlannedWork& work);
// A line for each tree; what is left out has no amounts and says why.
std::string work_csv(const PlannedWork& work);
Json work_json(const PlannedWork& work);

}  // namespace ashtriage::present
