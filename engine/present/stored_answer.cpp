#include "present/stored_answer.hpp"

#include "measure/input_error.hpp"
#include "packs/value_text.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

bool comes_out_the_same(const triage::Judge& judge, const book::StoredRecommendation& stored) {
    const packs::RuleSet& rules = judge.rules();
    TreeAssessment again;
    again.facts.values = judge.engine().nothing_known();
    try {
        for (const auto& [name, value] : stored.facts) {
            const auto fact = triage::fact_named(rules, name);
            again.facts.values[fact] =
                packs::parse_value(rules.model.facts[fact], rules.facts[fact], value);
        }
    } catch (const measure::InputError&) {
        return false;
    }
    again.recommendation = judge.recommend(again.facts);
    const auto answer = to_be_stored(again, rules, stored.date);
    return answer.possible == stored.possible && answer.firm == stored.firm &&
           answer.reasons_json == stored.reasons_json && answer.flags_json == stored.flags_json;
}

}  // namespace ashtriage::present
