// Trees for the tests of triage: the judge by the built-in rules, and walk-arounds written shortly.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "measure/input_error.hpp"
#include "observe/stem_text.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"
#include "triage/recommend.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::triage {

using Entries = std::vector<observe::Finding>;

inline Judge judge_with(std::string_view preset) {
    return Judge(packs::read_rule_set(packs::built_in_rule_files(), preset));
}

inline const Judge& built_in_judge() {
    static const Judge judge = judge_with({});
    return judge;
}

inline const packs::RuleSet& built_in_rules() {
    return built_in_judge().rules();
}

inline observe::WalkAround walked(Entries findings, std::string_view stems = {}) {
    observe::WalkAround walk_around;
    walk_around.date = measure::parse_date("2026-07-06");
    walk_around.observer = "A. Nobody";
    if (!stems.empty()) walk_around.stems = observe::parse_stems(stems);
    walk_around.findings = std::move(findings);
    return walk_around;
}

inline TreeFacts facts_of(Entries findings, std::string_view stems = {}) {
    return tree_facts(built_in_rules(), nullptr, walked(std::move(findings), stems));
}

// The value of a fact in the words in which it is written, "35 %".
inline std::string written(const reason::Observation& values, std::string_view fact) {
    const packs::RuleSet& rules = built_in_rules();
    const auto index = fact_named(rules, fact);
    return packs::value_text(rules.model.facts[index], rules.facts[index], values[index]);
}

// The entries with those of `more` in place of the ones of the same name, or added to them.
inline Entries with(Entries entries, const Entries& more) {
    for (const observe::Finding& finding : more) {
        const auto known = std::ranges::find(entries, finding.fact, &observe::Finding::fact);
        if (known == entries.end()) {
            entries.push_back(finding);
        } else {
            known->value = finding.value;
        }
    }
    return entries;
}

// An ash in leaf with nothing against it, 5 mi from the borer, of ordinary value, never treated;
// only the crown is left to say.
inline Entries sound_ash() {
    return {{"species", "green_ash"},       {"standing_dead", "no"},
            {"leaves", "in_leaf"},          {"structure", "sound"},
            {"infestation_distance", "5"},  {"owner_value", "middle"},
            {"site_quality", "fair"},       {"utility_conflict", "no"},
            {"treatment_history", "never"}, {"canopy_thinning", "0 %"}};
}

inline Entries sound_ash_losing(const std::string& dieback) {
    return with(sound_ash(), {{"canopy_dieback", dieback}});
}

struct Refusal {
    std::string what;
    std::string hint;
};

// What a call is refused with; fails the test when it is not refused.
template <class Call>
Refusal refusal_of(Call&& call) {
    try {
        std::forward<Call>(call)();
    } catch (const measure::InputError& error) {
        return {error.what(), error.hint()};
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
}

}  // namespace ashtriage::triage
