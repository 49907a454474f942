// The reasons: each rule with the verdict on every one of its conditions.
#include "reason/engine.hpp"
#include "reason/three_valued.hpp"

namespace ashtriage::reason {

namespace {

ConditionTrace traced(const Condition& condition, const Model& model,
                      const Observation& observation, const Estimates& estimates) {
    ConditionTrace trace;
    trace.condition = &condition;
    trace.truth = evaluate(condition, model, observation, estimates);
    for (const Condition& part : condition.parts) {
        trace.parts.push_back(traced(part, model, observation, estimates));
    }
    return trace;
}

}  // namespace

std::vector<RuleTrace> Engine::explain(TableIndex table, const Observation& observation) const {
    const Table& explained = model_.tables[table];
    const Estimates estimates = estimate(model_, orders_[table], observation);

    std::vector<RuleTrace> traces;
    for (RuleIndex rule = 0; rule < explained.rules.size(); ++rule) {
        RuleTrace trace;
        trace.rule = rule;
        trace.condition = traced(explained.rules[rule].when, model_, observation, estimates);
        trace.holds = trace.condition.truth;
        traces.push_back(std::move(trace));
    }

    const bool collects = explained.hit_policy == HitPolicy::collect;
    const auto outcome = collects ? std::nullopt : decide(table, observation).outcome();
    for (RuleTrace& trace : traces) {
        if (trace.holds != Truth::yes) continue;
        trace.decides = collects || explained.rules[trace.rule].gives == outcome;
        if (trace.decides && explained.hit_policy == HitPolicy::first) break;
    }
    return traces;
}

}  // namespace ashtriage::reason
