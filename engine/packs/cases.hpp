// The cases that rule packs carry with them: trees with a known answer.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::packs {

struct CaseResult {
    Case tested;
    // One sentence for each table that did not come out as expected.
    std::vector<std::string> differences;

    bool passed() const { return differences.empty(); }
};

// Runs every case under its own preset, in the order of the files. Throws as read_rule_set does.
std::vector<CaseResult> run_cases(const std::vector<RuleFile>& files);

}  // namespace ashtriage::packs
