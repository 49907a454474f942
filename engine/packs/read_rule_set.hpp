// From rule files to a rule set that the engine can compile.
#pragma once

#include <string_view>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::packs {

// Whether the packs that hold nothing but cases (rules/*_cases.yaml) are read too. They change no
// answer, so only whoever runs the cases needs them; they do not count in the hash or the editions.
enum class Reading { rules, rules_and_cases };

// Reads every pack among the files, and sources.yaml, as one rule set with the values of `preset`
// (none: the settings' own). What depends on switches is settled here: a condition on a switch
// becomes one that always or never holds.
//
// Throws BadFile with everything that is wrong with the files, and measure::InputError when there
// is no such preset.
RuleSet read_rule_set(const std::vector<RuleFile>& files, std::string_view preset = {},
                      Reading reading = Reading::rules);

}  // namespace ashtriage::packs
