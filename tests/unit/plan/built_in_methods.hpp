// The methods and rules that come with the program, read once, and trees to hold them against.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "measure/units.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/value_text.hpp"
#include "plan/method_choice.hpp"
#include "plan/read_method_facts.hpp"
#include "season/read_seasons.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::plan::test {

struct BuiltIn {
    packs::RuleSet rules;
    reason::Engine engine;
    season::Seasons seasons;
    std::vector<MethodFacts> methods;
};

inline const BuiltIn& built_in() {
    static const BuiltIn read = [] {
        const auto files = packs::built_in_rule_files();
        packs::RuleSet rules = packs::read_rule_set(files);
        season::Seasons seasons = season::read_seasons(files, rules.sources);
        auto methods = read_method_facts(files, rules, seasons);
        reason::Engine engine(rules.model);
        return BuiltIn{std::move(rules), std::move(engine), std::move(seasons), std::move(methods)};
    }();
    return read;
}

using Findings = std::vector<std::pair<std::string_view, std::string_view>>;

// A tree of so many inches (none: not measured) of which this was found.
inline triage::TreeFacts tree_of(std::string_view inches, const Findings& findings) {
    observe::WalkAround walk_around;
    for (const auto& [fact, value] : findings) {
        walk_around.findings.push_back({std::string(fact), std::string(value)});
    }
    if (!inches.empty()) {
        walk_around.stems.push_back(
            {observe::StemMeasure::diameter, measure::Length::of(inches, measure::units::inch)});
    }
    return triage::tree_facts(built_in().rules, nullptr, walk_around);
}

// Nothing stands against any method, but for what is given besides.
inline triage::TreeFacts unhindered_tree(std::string_view inches, Findings others = {}) {
    Findings findings{{"canopy_loss", "10"},
                      {"botanical_only", "no"},
                      {"owner_applies", "no"},
                      {"wounds_unwanted", "no"},
                      {"distance_to_water", "100"},
                      {"soil", "loam"},
                      {"flowers_in_root_zone", "no"},
                      {"borer_pressure", "low"},
                      {"ground_water_shallow", "no"},
                      {"edibles_near", "no"},
                      {"thick_bark", "no"},
                      {"drift_exposure", "none"},
                      {"restricted_use_certified", "yes"}};
    for (const auto& other : others) {
        std::erase_if(findings, [&](const auto& each) { return each.first == other.first; });
        findings.push_back(other);
    }
    return tree_of(inches, findings);
}

inline MethodComparison compared(const triage::TreeFacts& tree, const measure::Date& as_of) {
    return compare_methods(built_in().methods, built_in().rules, built_in().engine,
                           built_in().seasons, tree, std::nullopt, as_of);
}

// The names of the methods, in the order given.
inline std::vector<std::string> names(const std::vector<MethodAnswer>& answers) {
    std::vector<std::string> names;
    for (const MethodAnswer& answer : answers) names.push_back(answer.facts->method);
    return names;
}

}  // namespace ashtriage::plan::test
