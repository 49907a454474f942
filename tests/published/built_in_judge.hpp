// Trees judged by the rules that come with the program, for holding them against what is published.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "observe/stem_text.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "triage/recommend.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::published {

using Entries = std::vector<observe::Finding>;

// One judge for each preset, read once.
inline const triage::Judge& judge_with(const std::string& preset = {}) {
    static std::map<std::string, triage::Judge> judges;
    const auto known = judges.find(preset);
    if (known != judges.end()) return known->second;
    return judges
        .emplace(preset, triage::Judge(packs::read_rule_set(packs::built_in_rule_files(), preset)))
        .first->second;
}

inline triage::TreeFacts facts_of(Entries entries, std::string_view stems = "12 in") {
    observe::WalkAround walk_around;
    walk_around.date = measure::parse_date("2026-07-06");
    walk_around.stems = observe::parse_stems(stems);
    walk_around.findings = std::move(entries);
    return triage::tree_facts(judge_with().rules(), nullptr, walk_around);
}

// The outcomes that a table may still come to.
inline std::set<std::string> possible(std::string_view table, const triage::TreeFacts& facts,
                                      const std::string& preset = {}) {
    const triage::Judge& judge = judge_with(preset);
    const auto index = *judge.rules().model.find_table(table);
    const auto& gives = judge.rules().model.tables[index].gives;
    const reason::Outcomes outcomes = judge.engine().decide(index, facts.values);
    std::set<std::string> names;
    for (reason::OutcomeIndex outcome = 0; outcome < gives.size(); ++outcome) {
        if (reason::has_level(outcomes.possible, outcome)) names.insert(gives[outcome]);
    }
    return names;
}

// The one outcome of a table, "open" while there are several.
inline std::string outcome(std::string_view table, const triage::TreeFacts& facts,
                           const std::string& preset = {}) {
    const auto names = possible(table, facts, preset);
    return names.size() == 1 ? *names.begin() : "open";
}

}  // namespace ashtriage::published
