#include "packs/check_rules.hpp"

#include <algorithm>
#include <utility>

#include "packs/read_rule_set.hpp"

namespace ashtriage::packs {

namespace {

using prove::TableCheck;
using reason::FactIndex;

const prove::DeadRule* find_dead(const TableCheck& table, reason::RuleIndex rule) {
    const auto dead = std::ranges::find(table.dead_rules, rule, &prove::DeadRule::rule);
    return dead == table.dead_rules.end() ? nullptr : &*dead;
}

void find_rules_that_never_fire(RuleCheck& check) {
    for (const TableCheck& table : check.presets.front().check.tables) {
        for (const prove::DeadRule& dead : table.dead_rules) {
            // Where a table was not analysed nothing is known against its rules.
            const bool everywhere =
                std::ranges::all_of(check.presets, [&](const PresetCheck& preset) {
                    return find_dead(preset.check.tables[table.table], dead.rule) != nullptr;
                });
            if (everywhere) {
                check.never_fire.push_back({table.table, dead.rule, dead.why, dead.outranked_by});
            }
        }
    }
}

bool makes_no_difference(const prove::ModelCheck& check, FactIndex fact) {
    const auto named = [&](const std::vector<FactIndex>& facts) {
        return std::ranges::find(facts, fact) != facts.end();
    };
    return named(check.never_tested) || named(check.tested_in_vain);
}

void find_needless_facts(RuleCheck& check) {
    const RuleSet& rules = check.presets.front().rules;
    const std::size_t count = rules.facts.size();
    check.needless_facts_analysed = std::ranges::all_of(
        check.presets,
        [](const PresetCheck& preset) { return preset.check.tested_in_vain_analysed; });
    std::vector<bool> needed(count, false);
    for (FactIndex fact = 0; fact < count; ++fact) {
        needed[fact] = std::ranges::any_of(check.presets, [&](const PresetCheck& preset) {
            return !makes_no_difference(preset.check, fact);
        });
    }
    for (FactIndex fact = 0; fact < count; ++fact) {
        const bool is_ingredient = [&] {
            for (FactIndex other = 0; other < count; ++other) {
                const auto& from = rules.facts[other].worked_out_from;
                if (needed[other] && std::ranges::find(from, fact) != from.end()) return true;
            }
            return false;
        }();
        if (!needed[fact] && !is_ingredient) check.needless_facts.push_back(fact);
    }
}

bool nothing_wrong(const TableCheck& table) {
    return table.analysed() && table.gaps.empty() && table.conflict_count == 0 &&
           std::ranges::none_of(table.claims, [](const prove::ClaimCheck& claim) {
               return claim.refuted_by.has_value() || claim.says_nothing;
           });
}

void find_outcomes_never_given(RuleCheck& check) {
    const reason::Model& model = check.presets.front().rules.model;
    for (reason::TableIndex table = 0; table < model.tables.size(); ++table) {
        const reason::Table& described = model.tables[table];
        for (reason::OutcomeIndex outcome = 0; outcome < described.gives.size(); ++outcome) {
            if (std::ranges::find(described.rules, outcome, &reason::Rule::gives) ==
                described.rules.end()) {
                check.never_given.push_back({table, outcome});
            }
        }
    }
}

}  // namespace

bool RuleCheck::passed() const {
    return never_fire.empty() && needless_facts.empty() && never_given.empty() &&
           (needless_facts_analysed || presets.size() == 1) &&
           std::ranges::all_of(presets, [](const PresetCheck& preset) {
               return std::ranges::all_of(preset.check.tables, nothing_wrong);
           });
}

RuleCheck check_rules(const std::vector<RuleFile>& files, const std::optional<std::string>& preset,
                      const prove::CheckLimits& limits) {
    RuleCheck result;
    const auto add = [&](std::string_view name) {
        RuleSet rules = read_rule_set(files, name);
        prove::ModelCheck check = prove::check(rules.model, limits);
        result.presets.push_back({std::move(rules), std::move(check)});
    };
    if (preset) {
        add(*preset);
        find_outcomes_never_given(result);
        return result;
    }
    add({});
    std::vector<std::string> names;
    for (const Preset& each : result.presets.front().rules.presets) names.push_back(each.name);
    for (const std::string& name : names) add(name);
    find_rules_that_never_fire(result);
    find_needless_facts(result);
    find_outcomes_never_given(result);
    return result;
}

}  // namespace ashtriage::packs
