#include "triage/reasons.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "packs/wording.hpp"
#include "packs/words.hpp"

namespace ashtriage::triage {

namespace {

using packs::RuleSet;
using reason::Condition;
using reason::ConditionTrace;
using reason::Engine;
using reason::Observation;
using reason::RuleTrace;
using reason::TableIndex;
using reason::Truth;

// What a table came to, in words; its possible outcomes while it is open.
std::string outcomes_of(const RuleSet& rules, const Engine& engine, TableIndex index,
                        const Observation& values) {
    const reason::Table& table = rules.model.tables[index];
    if (table.hit_policy == reason::HitPolicy::collect) {
        const reason::LevelSet certain = engine.collect(index, values).certain;
        return certain == 0 ? "none" : packs::outcomes_text(table, certain, "and");
    }
    const reason::Outcomes outcomes = engine.decide(index, values);
    return outcomes.possible == 0 ? "no rule holds"
                                  : packs::outcomes_text(table, outcomes.possible);
}

// What a test looks at, and what was found there, in words.
std::pair<std::string, std::string> observed_by(const RuleSet& rules, const Engine& engine,
                                                const Observation& values,
                                                const Condition& condition) {
    if (const auto* outcome = std::get_if<reason::OutcomeTest>(&condition.test)) {
        return {packs::plain_name(rules.model.tables[outcome->table].name),
                outcomes_of(rules, engine, outcome->table, values)};
    }
    const auto* number = std::get_if<reason::NumberTest>(&condition.test);
    const auto fact =
        number != nullptr ? number->fact : std::get<reason::LevelTest>(condition.test).fact;
    return {packs::plain_name(rules.model.facts[fact].name),
            packs::spoken_value(rules, fact, values[fact])};
}

// Every test of a condition with its verdict. A test inside a negation is met when it fails.
void collect_comparisons(const RuleSet& rules, const Engine& engine, const Observation& values,
                         const ConditionTrace& trace, std::vector<Comparison>& comparisons) {
    const Condition& condition = *trace.condition;
    switch (condition.kind) {
        case Condition::Kind::all:
        case Condition::Kind::any:
            for (const ConditionTrace& part : trace.parts) {
                collect_comparisons(rules, engine, values, part, comparisons);
            }
            return;
        case Condition::Kind::negation: {
            std::vector<Comparison> inner;
            collect_comparisons(rules, engine, values, trace.parts.front(), inner);
            for (Comparison& comparison : inner) {
                comparison.condition = "not: " + comparison.condition;
                if (comparison.met != Truth::maybe) {
                    comparison.met = comparison.met == Truth::yes ? Truth::no : Truth::yes;
                }
                comparisons.push_back(std::move(comparison));
            }
            return;
        }
        case Condition::Kind::number:
        case Condition::Kind::level:
        case Condition::Kind::outcome: {
            auto [subject, observed] = observed_by(rules, engine, values, condition);
            comparisons.push_back({std::move(subject), std::move(observed),
                                   packs::condition_text(condition, rules), trace.truth,
                                   condition.kind == Condition::Kind::number});
            return;
        }
    }
}

// The tables that a rule's condition tests, in the order of the tests.
void collect_tables(const Condition& condition, std::vector<TableIndex>& tables) {
    if (const auto* outcome = std::get_if<reason::OutcomeTest>(&condition.test)) {
        tables.push_back(outcome->table);
    }
    for (const Condition& part : condition.parts) collect_tables(part, tables);
}

bool may_give(const RuleTrace& trace, const reason::Table& table, reason::OutcomeIndex outcome) {
    return trace.holds != Truth::no && table.rules[trace.rule].gives == outcome;
}

}  // namespace

Reason reason_of(const RuleSet& rules, const Engine& engine, const Observation& values,
                 TableIndex table, const RuleTrace& trace) {
    const reason::Table& decided = rules.model.tables[table];
    const reason::Rule& rule = decided.rules[trace.rule];
    const packs::RuleText& text = rules.tables[table].rules[trace.rule];
    const auto filled = [&](std::string_view words) {
        return packs::worded(words, rules, engine, values);
    };

    Reason reason;
    reason.rule = rule.id;
    reason.table = decided.name;
    reason.outcome = decided.gives[rule.gives];
    reason.because = filled(text.because);
    reason.client = filled(text.client);
    reason.todo = filled(text.todo);
    reason.who = text.who;
    reason.sources = text.sources;
    collect_comparisons(rules, engine, values, trace.condition, reason.comparisons);
    return reason;
}

std::vector<RuleTrace> deciding_rules(const RuleSet& rules, const Engine& engine,
                                      const Observation& values, TableIndex table) {
    const auto outcome = engine.decide(table, values).outcome();
    if (!outcome) return {};
    std::vector<RuleTrace> traces = engine.explain(table, values);
    const bool some_rule_decides = std::ranges::any_of(traces, &RuleTrace::decides);
    std::erase_if(traces, [&](const RuleTrace& trace) {
        return some_rule_decides ? !trace.decides
                                 : !may_give(trace, rules.model.tables[table], *outcome);
    });
    return traces;
}

std::vector<Reason> deciding_reasons(const RuleSet& rules, const Engine& engine,
                                     const Observation& values, TableIndex table) {
    std::vector<Reason> reasons;
    std::set<TableIndex> told;
    std::vector<TableIndex> to_tell{table};
    for (std::size_t next = 0; next < to_tell.size(); ++next) {
        const TableIndex current = to_tell[next];
        const reason::Table& decided = rules.model.tables[current];
        if (decided.hit_policy == reason::HitPolicy::collect || !told.insert(current).second) {
            continue;
        }
        for (const RuleTrace& trace : deciding_rules(rules, engine, values, current)) {
            reasons.push_back(reason_of(rules, engine, values, current, trace));
            collect_tables(decided.rules[trace.rule].when, to_tell);
        }
    }
    return reasons;
}

std::vector<Reason> outranked_reasons(const RuleSet& rules, const Engine& engine,
                                      const Observation& values, TableIndex table) {
    const reason::Table& decided = rules.model.tables[table];
    const auto outcome = engine.decide(table, values).outcome();
    std::vector<Reason> reasons;
    for (const RuleTrace& trace : engine.explain(table, values)) {
        const bool gives_way = outcome && decided.rules[trace.rule].gives != outcome;
        if (trace.holds == Truth::yes && gives_way) {
            reasons.push_back(reason_of(rules, engine, values, table, trace));
        }
    }
    return reasons;
}

std::vector<Reason> near_misses(const RuleSet& rules, const Engine& engine,
                                const Observation& values, TableIndex table) {
    const reason::Table& decided = rules.model.tables[table];
    const auto outcome = engine.decide(table, values).outcome();

    std::vector<Reason> reasons;
    for (const RuleTrace& trace : engine.explain(table, values)) {
        if (trace.holds == Truth::yes || decided.rules[trace.rule].gives == outcome) continue;
        Reason reason = reason_of(rules, engine, values, table, trace);
        std::erase_if(reason.comparisons, [](const Comparison& c) { return c.met == Truth::yes; });
        if (trace.holds == Truth::maybe || reason.comparisons.size() == 1) {
            reasons.push_back(std::move(reason));
        }
    }
    return reasons;
}

}  // namespace ashtriage::triage
