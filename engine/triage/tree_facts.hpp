// From what was recorded to what is reasoned about: the walk-around's entries and the site's, and
// from them the facts that nobody enters but that follow (DBH from the stems, canopy loss from the
// measures taken, distances in tree heights).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "measure/stems.hpp"
#include "observe/records.hpp"
#include "packs/rule_set.hpp"
#include "reason/value.hpp"

namespace ashtriage::triage {

struct TreeFacts {
    reason::Observation values;              // one per fact of the rule set's model
    std::vector<measure::Length> diameters;  // of each stem, as measured or from its girth
    std::optional<measure::Length> dbh;      // the stems as one, by the rule asked for
    std::vector<std::string> notes;          // how entries were read, in sentences
};

// `site` may be null. Throws measure::InputError for a finding that names no fact of the rule set,
// gives a fact twice, gives it a value it cannot have, or describes something that another finding
// says is not there.
TreeFacts tree_facts(const packs::RuleSet& rules, const observe::Site* site,
                     const observe::WalkAround& walk_around,
                     measure::StemRule stem_rule = measure::StemRule::root_of_sum_of_squares);

// The diameter of each stem, as measured or from its girth.
std::vector<measure::Length> diameters_of(const std::vector<observe::Stem>& stems);

// Takes the DBH among the values, if the rule set has that fact; false when no tree can have it.
bool enter_dbh(const packs::RuleSet& rules, measure::Length dbh, reason::Observation& values);

// The fact of that name; throws measure::InputError, with the nearest name, when there is none.
reason::FactIndex fact_named(const packs::RuleSet& rules, std::string_view name);

// Questions about entries that may be slips: a DBH that is implausible or that looks like a girth,
// beside the last visit's. `previous` may be null. Nothing is changed on account of them.
std::vector<std::string> doubtful_entries(const TreeFacts& facts, const TreeFacts* previous);

}  // namespace ashtriage::triage
