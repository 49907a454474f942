// What the cases of the rule packs exercise: which rules a case made hold and decide, and which
// tests in their conditions a case brought out as met, and which as not met.
//
// A case exercises the rules of the tables that it expects something of, and of those that these
// rest on: whatever else holds for its tree, nobody looks at. A rule or a test that a switch rules
// out does not count under the presets where it does; the others are taken together.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "packs/rule_files.hpp"

namespace ashtriage::packs {

// What some case should bring about.
enum class Aim {
    held,     // the rule holds
    decided,  // and gives the outcome of its table; in a collect table that is no aim of its own
    met,      // a test in the rule's condition is met, whatever the others come to
    not_met,
};

struct CoverageItem {
    Aim aim = Aim::held;
    std::string rule;
    std::string test;         // in words; empty for an aim of the rule as a whole
    std::size_t line = 0;     // of the rule or the test, in the table's file
    std::string reached_by;   // the first case that brought it about; empty: none did
    std::string case_needed;  // what a case would have to say; empty when one does

    bool reached() const { return !reached_by.empty(); }
};

struct Share {
    std::size_t reached = 0;
    std::size_t all = 0;

    bool complete() const { return reached == all; }
};

struct TableCoverage {
    std::string table;
    std::string file;  // as messages name it
    std::vector<CoverageItem> items;

    Share rules() const;  // a rule is reached when all its aims as a whole are
    Share sides() const;  // each test has two
    bool complete() const { return rules().complete() && sides().complete(); }
};

// Every table, in the model's order. Whether the cases come out as expected is not looked at; see
// run_cases. Throws as read_rule_set does.
std::vector<TableCoverage> case_coverage(const std::vector<RuleFile>& files);

}  // namespace ashtriage::packs
