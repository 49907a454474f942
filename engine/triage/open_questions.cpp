#include "triage/open_questions.hpp"

#include <algorithm>

#include "packs/wording.hpp"
#include "triage/best_questions.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {

using packs::RuleSet;
using reason::FactIndex;
using reason::Observation;

namespace {

std::string why_open(const RuleSet& rules, const Observation& values, FactIndex fact) {
    const reason::WhyUnknown* why = values[fact].why_unknown();
    if (why == nullptr) return "only known as " + packs::spoken_value(rules, fact, values[fact]);
    return *why == reason::WhyUnknown::could_not_see ? "could not be seen" : "not asked";
}

}  // namespace

std::vector<FactIndex> to_ask_for(const RuleSet& rules, const Observation& values,
                                  const std::vector<FactIndex>& facts) {
    std::vector<FactIndex> asked;
    const auto add = [&](FactIndex fact) {
        if (std::ranges::find(asked, fact) == asked.end()) asked.push_back(fact);
    };
    for (const FactIndex fact : facts) {
        bool any = false;
        for (const FactIndex entered : rules.facts[fact].worked_out_from) {
            const bool is_class = rules.model.facts[entered].name == fact::canopy_class;
            if (values[entered].is_unknown() && !is_class) {
                add(entered);
                any = true;
            }
        }
        if (!any) add(fact);
    }
    return asked;
}

std::vector<FactIndex> facts_worth_asking(const RuleSet& rules, const reason::Engine& engine,
                                          reason::TableIndex table, const Observation& values) {
    return to_ask_for(rules, values, best_questions(rules, engine, table, values));
}

std::vector<OpenQuestion> questions_about(const RuleSet& rules, const Observation& values,
                                          const std::vector<FactIndex>& facts) {
    std::vector<OpenQuestion> questions;
    for (const FactIndex fact : facts) {
        questions.push_back(
            {rules.model.facts[fact].name, rules.facts[fact].ask, why_open(rules, values, fact)});
    }
    return questions;
}

}  // namespace ashtriage::triage
