#include "reason/case_split.hpp"

#include <utility>

#include "reason/cells.hpp"

namespace ashtriage::reason {

namespace {

std::size_t rules_of(const Model& model, const std::vector<TableIndex>& tables) {
    std::size_t rules = 0;
    for (const TableIndex table : tables) rules += model.tables[table].rules.size();
    return rules;
}

}  // namespace

CaseSplit::CaseSplit(const Model& model, const std::vector<TableIndex>& order,
                     const std::vector<Branches>& branches, TableIndex table,
                     std::function<bool(const Rule&)> concerned)
    : model_(model),
      order_(order),
      branches_(branches),
      table_(table),
      concerned_(std::move(concerned)),
      most_cases_(most_rules_tried / (rules_of(model, order) + 1) + 1) {}

bool CaseSplit::explore(Observation observation,
                        const std::function<bool(const Estimates&)>& nothing_new,
                        const std::function<void(const Estimates&)>& settled) const {
    std::size_t cases_left = most_cases_;
    return explore_case(observation, nothing_new, settled, cases_left);
}

bool CaseSplit::explore_case(Observation& observation,
                             const std::function<bool(const Estimates&)>& nothing_new,
                             const std::function<void(const Estimates&)>& settled,
                             std::size_t& cases_left) const {
    if (cases_left == 0) return false;
    --cases_left;
    const Estimates estimates = estimate(model_, order_, observation);
    if (nothing_new(estimates)) return true;

    const auto fact = open_fact(observation, estimates);
    if (!fact) {
        settled(estimates);
        return true;
    }
    bool all = true;
    const Value whole = observation[*fact];
    for (const Value& part : split(whole, branches_[*fact].cells())) {
        observation[*fact] = part;
        all = explore_case(observation, nothing_new, settled, cases_left);
        if (!all) break;
    }
    observation[*fact] = whole;
    return all;
}

std::optional<FactIndex> CaseSplit::open_fact(const Observation& observation,
                                              const Estimates& estimates) const {
    for (const Rule& rule : model_.tables[table_].rules) {
        if (!concerned_(rule)) continue;
        if (const auto fact = open_fact_in(rule.when, observation, estimates)) return fact;
    }
    return std::nullopt;
}

std::optional<FactIndex> CaseSplit::open_fact_of_table(TableIndex table,
                                                       const Observation& observation,
                                                       const Estimates& estimates) const {
    for (const Rule& rule : model_.tables[table].rules) {
        if (const auto fact = open_fact_in(rule.when, observation, estimates)) return fact;
    }
    return std::nullopt;
}

// A test that may be met hangs on whether its fact applies or, that being known, on its value.
std::optional<FactIndex> CaseSplit::open_fact_of_test(FactIndex fact,
                                                      const Observation& observation,
                                                      const Estimates& estimates) const {
    if (const Condition* applies = model_.condition_to_apply(fact)) {
        if (const auto open = open_fact_in(*applies, observation, estimates)) return open;
    }
    return fact;
}

std::optional<FactIndex> CaseSplit::open_fact_in(const Condition& condition,
                                                 const Observation& observation,
                                                 const Estimates& estimates) const {
    if (evaluate(condition, model_, observation, estimates) != Truth::maybe) return std::nullopt;
    if (const auto* test = std::get_if<NumberTest>(&condition.test)) {
        return open_fact_of_test(test->fact, observation, estimates);
    }
    if (const auto* test = std::get_if<LevelTest>(&condition.test)) {
        return open_fact_of_test(test->fact, observation, estimates);
    }
    if (const auto* test = std::get_if<OutcomeTest>(&condition.test)) {
        return open_fact_of_table(test->table, observation, estimates);
    }
    for (const Condition& part : condition.parts) {
        if (const auto fact = open_fact_in(part, observation, estimates)) return fact;
    }
    return std::nullopt;
}

}  // namespace ashtriage::reason
