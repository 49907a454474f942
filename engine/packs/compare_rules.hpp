// Two editions of the rules side by side.
#pragma once

#include "packs/rule_set.hpp"
#include "prove/compare.hpp"

namespace ashtriage::packs {

struct RuleComparison {
    prove::Comparison comparison;
    // The facts of both editions with their units and texts, in the order of comparison.facts: what
    // is needed to put a region into words. It has no tables.
    RuleSet words;
};

RuleComparison compare_rules(const RuleSet& before, const RuleSet& after);

}  // namespace ashtriage::packs
