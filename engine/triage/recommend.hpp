// From the facts of one tree to a recommendation, by a rule set.
#pragma once

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"
#include "triage/recommendation.hpp"
#include "triage/tree_facts.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

// A rule set ready for use: read, compiled, and known to have the tables this program needs.
class Judge {
 public:
    // Throws measure::InputError when the rule set lacks a table the program cannot do without.
    explicit Judge(packs::RuleSet rules);

    const packs::RuleSet& rules() const { return rules_; }
    const reason::Engine& engine() const { return engine_; }

    Recommendation recommend(const TreeFacts& facts) const;

 private:
    packs::RuleSet rules_;
    reason::Engine engine_;
    PartlyKnownCrown crown_;
};

}  // namespace ashtriage::triage
