#include "packs/applicability.hpp"

#include "reason/three_valued.hpp"

namespace ashtriage::packs {

namespace {

bool cannot_apply(const RuleSet& rule_set, reason::FactIndex fact,
                  const reason::Observation& observation) {
    return reason::applies(fact, rule_set.model, observation) == reason::Truth::no;
}

}  // namespace

reason::Observation with_applicability(const RuleSet& rule_set, reason::Observation observation) {
    // One fact that does not apply can rule out another; they form no cycle, so this ends.
    bool changed = true;
    while (changed) {
        changed = false;
        for (reason::FactIndex fact = 0; fact < rule_set.facts.size(); ++fact) {
            if (!observation[fact].is_unknown() || !cannot_apply(rule_set, fact, observation))
                continue;
            observation[fact] = reason::Value::not_applicable();
            changed = true;
        }
    }
    return observation;
}

std::vector<reason::FactIndex> contradictions(const RuleSet& rule_set,
                                              const reason::Observation& observation) {
    std::vector<reason::FactIndex> facts;
    for (reason::FactIndex fact = 0; fact < rule_set.facts.size(); ++fact) {
        const reason::Value& value = observation[fact];
        if (value.is_unknown() || value.is_not_applicable()) continue;
        if (cannot_apply(rule_set, fact, observation)) facts.push_back(fact);
    }
    return facts;
}

}  // namespace ashtriage::packs
