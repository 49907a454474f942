// A rule set while its files are being read: what has been named so far and what is wrong so far.
// Only the reader of rule sets uses this.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_set.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::packs {

// More tables than any sensible rule set has; keeps what follows tables from one to the next short.
inline constexpr std::size_t most_tables = 256;

// One pack file: its tree, and where its problems go.
struct PackFile {
    std::string pack;  // the file's name without .yaml
    YamlSource source;
    Node document;
};

// A value that a setting can take: its own, or that of a preset.
struct SettingValue {
    std::string preset;  // empty: its own
    double value = 0.0;
    YamlSource source;
    Place place;
    bool reported = false;  // as outside the range of a fact that it is compared with
};

// What is known of a setting beside RuleSet::settings, to which this is parallel.
struct SettingDraft {
    YamlSource source;
    Place place;
    bool used = false;
    std::vector<SettingValue> values;
};

struct Draft {
    RuleSet set;
    std::vector<SettingDraft> settings;    // parallel to set.settings
    std::vector<const Node*> fact_nodes;   // parallel to set.model.facts
    std::vector<const Node*> table_nodes;  // parallel to set.model.tables
    std::vector<const PackFile*> fact_files;
    std::vector<const PackFile*> table_files;

    std::unordered_map<std::string, reason::FactIndex> facts;
    std::unordered_map<std::string, reason::TableIndex> tables;
    std::unordered_map<std::string, std::size_t> settings_by_name;
    std::unordered_map<std::string, std::size_t> presets;
    std::unordered_map<std::string, std::string> rule_ids;  // id -> where it stands
    std::unordered_map<std::string, std::string> case_ids;
    // Facts, tables and settings with problems of their own: what refers to them is not judged, so
    // that one mistake is not reported many times.
    std::set<std::string> broken;

    bool is_broken(const std::string& name) const { return broken.count(name) != 0; }

    std::vector<std::string> fact_names() const;
    std::vector<std::string> table_names() const;
    std::vector<std::string> setting_names() const;
    // What a placeholder in a text may name.
    std::vector<std::string> all_names() const;

    // False, with a problem: the name is not written as names are, or a fact, table or setting of
    // the same name exists already.
    bool check_new_name(std::string_view what, const Entry& entry, const YamlSource& source) const;
};

// Names of facts, tables, settings, levels and outcomes: small letters, digits and '_'. False, with
// a problem ("bad-name"), otherwise.
bool check_name(std::string_view what, const std::string& name, Place place,
                const YamlSource& source);

// Ids of rules and names of presets, "past-saving": small letters, digits and '-' or '_'.
bool check_id(std::string_view what, const std::string& id, Place place, const YamlSource& source);

// A level or an outcome where it is named.
struct PlacedName {
    std::string name;
    Place place;
};

// The names of a list, or of the entries of a mapping. `name` is what the node is, for messages.
std::vector<PlacedName> names_in(const Node& node, const std::string& name,
                                 const YamlSource& source);

// The levels or outcomes of `what`, which names_in found in `node`: "bad-name", "duplicate-name",
// "too-few-values", "too-many-values".
void check_names(const std::vector<PlacedName>& names, std::size_t least, std::size_t most,
                 const std::string& what, const Node& node, const YamlSource& source);

std::string place_text(const YamlSource& source, Place place);

}  // namespace ashtriage::packs
