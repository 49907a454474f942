// Checking a rule set before any tree is judged by it: under its own settings and under every
// preset.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "prove/check.hpp"

namespace ashtriage::packs {

// The rules as one preset sets them, and what there is to say of each table.
struct PresetCheck {
    RuleSet rules;  // rules.preset names the preset; empty: the settings' own values
    prove::ModelCheck check;
};

struct NeverFires {
    reason::TableIndex table = 0;
    reason::RuleIndex rule = 0;
    prove::WhyDead why = prove::WhyDead::never_met;
    std::vector<reason::RuleIndex> outranked_by;  // under the settings' own values
};

// An outcome that a table lists and no rule gives.
struct NeverGiven {
    reason::TableIndex table = 0;
    reason::OutcomeIndex outcome = 0;
};

struct RuleCheck {
    std::vector<PresetCheck> presets;  // at least one; facts, tables and rules are alike in all
    // Rules that never fire under any of the presets. A rule that only some of them switch off is
    // as it should be.
    std::vector<NeverFires> never_fire;
    // Facts that are asked for or worked out, and on which no answer depends under any preset.
    std::vector<reason::FactIndex> needless_facts;
    bool needless_facts_analysed = false;
    std::vector<NeverGiven> never_given;

    // Everything was analysed, and nothing was found.
    bool passed() const;
};

// Reads and checks the rules under their own settings and every preset, or only under `preset` if
// one is named; then rules that never fire and facts that are not needed are not looked for, since
// another preset may need them. Throws BadFile and measure::InputError as read_rule_set does.
RuleCheck check_rules(const std::vector<RuleFile>& files,
                      const std::optional<std::string>& preset = {},
                      const prove::CheckLimits& limits = {});

}  // namespace ashtriage::packs
