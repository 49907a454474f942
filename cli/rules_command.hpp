// The commands of `rules`, one file each.
#pragma once

#include "command.hpp"

namespace ashtriage::cli {

// A command below `rules` that does `action`.
CLI::App* add_rules_part(CLI::App& rules, Selection& selection, const char* name, const char* about,
                         Action action);

void add_rules_check(CLI::App& rules, Selection& selection);
void add_rules_copy(CLI::App& rules, Selection& selection);
void add_rules_diff(CLI::App& rules, Selection& selection);
void add_rules_facts(CLI::App& rules, Selection& selection);
void add_rules_presets(CLI::App& rules, Selection& selection);
void add_rules_show(CLI::App& rules, Selection& selection);
void add_rules_test(CLI::App& rules, Selection& selection);

// What `rules test --coverage` does.
ExitCode show_case_coverage(const Options& options);

}  // namespace ashtriage::cli
