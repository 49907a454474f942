// The steps of reading a rule set, in the order in which they are taken. Only the reader of rule
// sets uses these.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_set_draft.hpp"
#include "packs/yaml_fields.hpp"
#include "reason/condition.hpp"

namespace ashtriage::packs {

// Names and kinds first, so that everything else may refer to anything, whatever the order of
// files.
void read_settings(const Node& settings, const PackFile& file, Draft& draft);
void read_facts(const Node& facts, const PackFile& file, Draft& draft);
void read_tables(const Node& tables, const PackFile& file, Draft& draft);

// Then what refers to names.
void read_presets(const Node& presets, const PackFile& file, Draft& draft);
// Puts the values of the preset in place of the settings' own. Throws measure::InputError when
// there is no such preset.
void use_preset(std::string_view preset, Draft& draft);
void read_relations(Draft& draft);  // every fact's only_if and worked_out_from
void read_rules(Draft& draft);      // every table's rules
void read_claims(Draft& draft);     // every table's worse
void read_cases(const Node& cases, const PackFile& file, Draft& draft);

// For a setting that the fact is compared with: its own value and that of every preset must make
// sense for the fact.
void check_setting_range(reason::FactIndex index, const std::string& name, Draft& draft);

// Then what only the whole can show: unused settings, tables that rest on each other.
void check_settings_used(const Draft& draft);
void check_cycles(const Draft& draft);

struct ReadCondition {
    reason::Condition condition;
    std::vector<SettledPart> settled;
    std::vector<Place> tests;  // where each test stands, in the order of reason::for_each_test
};

// A `when` or `only_if`. `what` names whose condition it is.
ReadCondition read_condition(const Node& node, const std::string& what, const YamlSource& source,
                             Draft& draft);

// Placeholders of a text: "unknown-placeholder", "bad-placeholder".
void check_placeholders(const std::string& text, const std::string& what, Place place,
                        const YamlSource& source, const Draft& draft);

}  // namespace ashtriage::packs
