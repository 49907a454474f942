#include "triage/recommend.hpp"

#include <algorithm>
#include <utility>

#include "packs/wording.hpp"
#include "packs/words.hpp"
#include "triage/open_questions.hpp"
#include "triage/reasons.hpp"
#include "triage/tables.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

namespace {

using packs::RuleSet;
using reason::Engine;
using reason::FactIndex;
using reason::Observation;
using reason::TableIndex;

std::vector<std::string> names_of(const reason::Table& table, reason::LevelSet outcomes) {
    std::vector<std::string> names;
    for (reason::OutcomeIndex outcome = 0; outcome < table.gives.size(); ++outcome) {
        if (reason::has_level(outcomes, outcome)) names.push_back(table.gives[outcome]);
    }
    return names;
}

std::vector<std::string> plain_names(const RuleSet& rules, const std::vector<FactIndex>& facts) {
    std::vector<std::string> names;
    for (const FactIndex fact : facts) {
        names.push_back(packs::plain_name(rules.model.facts[fact].name));
    }
    return names;
}

FactAndValue spoken(const RuleSet& rules, FactIndex fact, const reason::Value& value) {
    return {packs::plain_name(rules.model.facts[fact].name),
            packs::spoken_value(rules, fact, value)};
}

std::vector<HazardFlag> hazard_flags(const RuleSet& rules, const Engine& engine,
                                     const Observation& values) {
    const TableIndex table = *rules.model.find_table(table::hazard);
    const reason::Collected collected = engine.collect(table, values);
    const reason::Table& hazard = rules.model.tables[table];

    std::vector<HazardFlag> flags;
    const auto traces = engine.explain(table, values);
    for (reason::OutcomeIndex outcome = 0; outcome < hazard.gives.size(); ++outcome) {
        if (!reason::has_level(collected.certain, outcome)) continue;
        // The first rule that raises the flag tells why; where only a choice between rules is
        // certain, the first that may.
        const auto gives = [&](const reason::RuleTrace& trace, reason::Truth truth) {
            return trace.holds == truth && hazard.rules[trace.rule].gives == outcome;
        };
        auto trace = std::ranges::find_if(
            traces, [&](const auto& t) { return gives(t, reason::Truth::yes); });
        if (trace == traces.end()) {
            trace = std::ranges::find_if(
                traces, [&](const auto& t) { return gives(t, reason::Truth::maybe); });
        }
        flags.push_back({hazard.gives[outcome], reason_of(rules, engine, values, table, *trace)});
    }
    return flags;
}

// Unknown facts that could still raise a hazard flag. What only a qualified assessor can enter is
// not something that was overlooked.
std::vector<std::string> not_looked_at(const RuleSet& rules, const Engine& engine,
                                       const Observation& values) {
    const auto open = engine.can_matter(*rules.model.find_table(table::hazard), values);
    std::vector<FactIndex> unseen;
    for (const FactIndex fact : to_ask_for(rules, values, open)) {
        if (values[fact].is_unknown() && rules.facts[fact].group != assessor_group) {
            unseen.push_back(fact);
        }
    }
    return plain_names(rules, unseen);
}

// The outcome of a single-hit table by name; empty when the rule set lacks the table or it is open.
std::string outcome_of(const RuleSet& rules, const Engine& engine, const Observation& values,
                       std::string_view name) {
    const auto table = rules.model.find_table(name);
    if (!table) return {};
    const auto outcome = engine.decide(*table, values).outcome();
    return outcome ? rules.model.tables[*table].gives[*outcome] : std::string{};
}

std::string editions(const RuleSet& rules) {
    std::string text;
    for (const packs::Edition& edition : rules.editions) {
        if (!text.empty()) text += ", ";
        text += edition.pack + " " + edition.edition;
    }
    return text;
}

}  // namespace

Judge::Judge(packs::RuleSet rules)
    : rules_(std::move(rules)), engine_(rules_.model), crown_(rules_) {
    require_tables(rules_);
}

Recommendation Judge::recommend(const TreeFacts& facts) const {
    const Observation& values = facts.values;
    const TableIndex table = *rules_.model.find_table(table::recommendation);
    const reason::Table& recommendation = rules_.model.tables[table];

    Recommendation answer;
    const reason::Outcomes outcomes = engine_.decide(table, values);
    answer.possible = names_of(recommendation, outcomes.possible);
    const reason::Firmness firmness = engine_.firmness(table, values);
    answer.firm = firmness.firm;
    answer.within_error = names_of(recommendation, firmness.within_error.possible);
    answer.measure_again = plain_names(rules_, firmness.measure_again);
    answer.one_measurement_settles = firmness.one_settles;
    if (const auto missing = crown_.missing(values)) {
        // The measure that nobody recorded may be the worse one.
        const auto open = engine_.decide(table, crown_.left_open(values));
        if (open.possible != outcomes.possible) {
            answer.firm = false;
            answer.one_measurement_settles = false;
            answer.within_error =
                names_of(recommendation, firmness.within_error.possible | open.possible);
            answer.measure_again.insert(answer.measure_again.begin(),
                                        plain_names(rules_, {*missing}).front());
        }
    }
    answer.evidence = outcome_of(rules_, engine_, values, table::evidence);
    answer.flags = hazard_flags(rules_, engine_, values);
    answer.hazards_not_looked_at = not_looked_at(rules_, engine_, values);
    answer.risk_rating = outcome_of(rules_, engine_, values, table::risk_rating);
    answer.reasons = deciding_reasons(rules_, engine_, values, table);
    answer.outranked = outranked_reasons(rules_, engine_, values, table);
    answer.not_met = near_misses(rules_, engine_, values, table);

    for (const reason::Change& change : engine_.nearest_changes(table, values)) {
        WhatWouldChange told{recommendation.gives[change.outcome], {}};
        for (const reason::ChangedFact& changed : change.facts) {
            told.needed.push_back(spoken(rules_, changed.fact, changed.to));
        }
        answer.changes.push_back(std::move(told));
    }
    if (answer.decided()) {
        for (const FactIndex fact : engine_.sufficient_facts(table, values)) {
            answer.forced_by.push_back(spoken(rules_, fact, values[fact]));
        }
    }

    const auto worth = facts_worth_asking(rules_, engine_, table, values);
    answer.open_questions = questions_about(rules_, values, worth);
    for (const FactIndex fact : reason::facts_behind(rules_.model, table)) {
        if (values[fact].is_unknown() && std::ranges::find(worth, fact) == worth.end() &&
            rules_.facts[fact].asked) {
            answer.unknown_but_idle.push_back(packs::plain_name(rules_.model.facts[fact].name));
        }
    }

    if (answer.decided() && answer.possible.front() == outcome::treat) {
        const TableIndex method = *rules_.model.find_table(table::method);
        answer.method = deciding_reasons(rules_, engine_, values, method);
        if (answer.method.empty()) {
            answer.method_questions = questions_about(
                rules_, values, facts_worth_asking(rules_, engine_, method, values));
        }
        if (outcome_of(rules_, engine_, values, table::treatment_waits) == outcome::waits) {
            answer.treatment_waits =
                deciding_reasons(rules_, engine_, values,
                                 *rules_.model.find_table(table::treatment_waits))
                    .front();
        }
        answer.who_applies = outcome_of(rules_, engine_, values, table::who_applies);
    }
    answer.notes = facts.notes;
    if (!outcomes.exact) {
        answer.notes.emplace_back(
            "The rules are too many to look into every case that the unknown facts leave open: "
            "perhaps fewer of these answers are possible.");
    }
    answer.rules_edition = editions(rules_);
    answer.rules_hash = rules_.hash;
    answer.preset = rules_.preset;
    answer.facts = values;
    return answer;
}

}  // namespace ashtriage::triage
