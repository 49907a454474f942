#include "reason/by_cases.hpp"

#include "reason/case_split.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {

namespace {

void mark_open(const Model& model, TableIndex table, const Observation& observation,
               const Estimates& estimates, std::vector<bool>& open);

void mark_open_in(const Condition& condition, const Model& model, const Observation& observation,
                  const Estimates& estimates, std::vector<bool>& open) {
    if (evaluate(condition, model, observation, estimates) != Truth::maybe) return;
    const auto mark_fact = [&](FactIndex fact) {
        open[fact] = true;
        const Condition* applies = model.condition_to_apply(fact);
        if (applies != nullptr) mark_open_in(*applies, model, observation, estimates, open);
    };
    if (const auto* number = std::get_if<NumberTest>(&condition.test)) mark_fact(number->fact);
    if (const auto* level = std::get_if<LevelTest>(&condition.test)) mark_fact(level->fact);
    if (const auto* outcome = std::get_if<OutcomeTest>(&condition.test)) {
        mark_open(model, outcome->table, observation, estimates, open);
    }
    for (const Condition& part : condition.parts) {
        mark_open_in(part, model, observation, estimates, open);
    }
}

void mark_open(const Model& model, TableIndex table, const Observation& observation,
               const Estimates& estimates, std::vector<bool>& open) {
    const Table& asked = model.tables[table];
    const TableEstimate& estimated = estimates[table];
    const bool collects = asked.hit_policy == HitPolicy::collect;
    if (!collects && estimated.outcomes.decided()) return;
    for (const Rule& rule : asked.rules) {
        const LevelSet gives = only_level(rule.gives);
        const bool can_matter = collects ? (estimated.collected.certain & gives) == 0
                                         : asked.hit_policy == HitPolicy::unique ||
                                               (estimated.outcomes.possible & gives) != 0;
        if (can_matter) mark_open_in(rule.when, model, observation, estimates, open);
    }
}

}  // namespace

Outcomes decide_by_cases(const Model& model, const std::vector<TableIndex>& order,
                         const std::vector<Branches>& branches, TableIndex table,
                         const Observation& observation) {
    Outcomes found;
    const CaseSplit cases(model, order, branches, table, [](const Rule&) { return true; });
    const bool all = cases.explore(
        observation,
        [&](const Estimates& estimates) {
            const Outcomes& estimated = estimates[table].outcomes;
            // An estimate is a superset of what is possible, and something always is.
            if (estimated.decided()) found.add(estimated);
            return found.contains(estimated);
        },
        [&](const Estimates& estimates) { found.add(estimates[table].outcomes); });
    if (all) return found;
    found = estimate(model, order, observation)[table].outcomes;
    found.exact = false;
    return found;
}

Collected collect_by_cases(const Model& model, const std::vector<TableIndex>& order,
                           const std::vector<Branches>& branches, TableIndex table,
                           const Observation& observation) {
    const Estimates first = estimate(model, order, observation);
    Collected result = first[table].collected;

    // Each outcome that is still open is settled on its own, over its own rules only.
    for (OutcomeIndex outcome = 0; outcome < model.tables[table].gives.size(); ++outcome) {
        const LevelSet bit = only_level(outcome);
        if ((result.possible & bit) == 0 || (result.certain & bit) != 0) continue;

        bool collected_somewhere = false;
        bool missing_somewhere = false;
        const CaseSplit cases(model, order, branches, table,
                              [outcome](const Rule& rule) { return rule.gives == outcome; });
        const auto note = [&](const Estimates& estimates) {
            const Collected& estimated = estimates[table].collected;
            if ((estimated.certain & bit) != 0) collected_somewhere = true;
            if ((estimated.possible & bit) == 0) missing_somewhere = true;
            return (collected_somewhere && missing_somewhere) || (estimated.certain & bit) != 0 ||
                   (estimated.possible & bit) == 0;
        };
        if (!cases.explore(observation, note, note)) {
            if (!collected_somewhere || !missing_somewhere) result.exact = false;
            continue;
        }
        if (!collected_somewhere) result.possible &= ~bit;
        if (!missing_somewhere) result.certain |= bit;
    }
    return result;
}

std::vector<FactIndex> facts_left_open(const Model& model, const std::vector<TableIndex>& order,
                                       TableIndex table, const Observation& observation) {
    const Estimates estimates = estimate(model, order, observation);
    std::vector<bool> open(model.facts.size(), false);
    mark_open(model, table, observation, estimates, open);

    std::vector<FactIndex> facts;
    for (FactIndex fact = 0; fact < open.size(); ++fact) {
        if (open[fact]) facts.push_back(fact);
    }
    return facts;
}

}  // namespace ashtriage::reason
