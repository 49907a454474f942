// The reasons: each rule with the verdict on every one of its conditions.
#include <algorithm>

#include "reason/engine.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {

namespace {

Truth truth_of(const LeafSet& leaves) {
    if (!has_level(leaves, leaf_value(yes_leaf))) return Truth::no;
    return has_level(leaves, leaf_value(no_leaf)) ? Truth::maybe : Truth::yes;
}

// The verdict on a condition from the verdicts on its parts; a test is looked at itself.
void trace(const Condition& condition, const Model& model, const Observation& observation,
           const Estimates& estimates, ConditionTrace& trace_here) {
    trace_here.condition = &condition;
    if (condition.parts.empty()) {
        trace_here.truth = evaluate(condition, model, observation, estimates);
        return;
    }
    trace_here.parts.resize(condition.parts.size());
    for (std::size_t part = 0; part < condition.parts.size(); ++part) {
        trace(condition.parts[part], model, observation, estimates, trace_here.parts[part]);
    }
    if (condition.kind == Condition::Kind::negation) {
        trace_here.truth = negated(trace_here.parts.front().truth);
        return;
    }
    const bool all = condition.kind == Condition::Kind::all;
    trace_here.truth = all ? Truth::yes : Truth::no;
    for (const ConditionTrace& part : trace_here.parts) {
        trace_here.truth =
            all ? std::min(trace_here.truth, part.truth) : std::max(trace_here.truth, part.truth);
    }
}

}  // namespace

std::vector<RuleTrace> Engine::explain(TableIndex table, const Observation& observation) const {
    const Table& explained = model_.tables[table];
    const Estimates estimates = outcomes_tested_by(table, observation);

    std::vector<RuleTrace> traces(explained.rules.size());
    for (RuleIndex rule = 0; rule < explained.rules.size(); ++rule) {
        RuleTrace& made = traces[rule];
        made.rule = rule;
        trace(explained.rules[rule].when, model_, observation, estimates, made.condition);
        // The parts are judged one by one; together they may say more (in leaf or not in leaf).
        made.holds = has_diagram(table) && made.condition.truth == Truth::maybe
                         ? truth_of(leaves_of(diagrams_[table].rules[rule], branches_, observation))
                         : made.condition.truth;
    }

    const bool collects = explained.hit_policy == HitPolicy::collect;
    const auto outcome = collects ? std::nullopt : decide(table, observation).outcome();
    for (RuleTrace& made : traces) {
        if (made.holds != Truth::yes) continue;
        made.decides = collects || explained.rules[made.rule].gives == outcome;
        if (made.decides && explained.hit_policy == HitPolicy::first) break;
    }
    return traces;
}

Estimates Engine::outcomes_tested_by(TableIndex table, const Observation& observation) const {
    if (!has_diagram(table)) return estimate(model_, orders_[table], observation);
    Estimates estimates(model_.tables.size());
    for (const TableIndex tested : tested_[table]) {
        if (model_.tables[tested].hit_policy == HitPolicy::collect) {
            estimates[tested].collected = collect(tested, observation);
        } else {
            estimates[tested].outcomes = decide(tested, observation);
        }
    }
    return estimates;
}

}  // namespace ashtriage::reason
