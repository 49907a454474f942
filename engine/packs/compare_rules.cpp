#include "packs/compare_rules.hpp"

namespace ashtriage::packs {

RuleComparison compare_rules(const RuleSet& before, const RuleSet& after) {
    RuleComparison result;
    result.comparison = prove::compare(before.model, after.model);
    result.words.model = result.comparison.facts;
    for (const reason::Fact& fact : result.words.model.facts) {
        const auto known = before.model.find_fact(fact.name);
        result.words.facts.push_back(known ? before.facts[*known]
                                           : after.facts[after.model.find_fact(fact.name).value()]);
    }
    return result;
}

}  // namespace ashtriage::packs
