// The rule files: those built into the program, and those of a folder that take their place.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::packs {

struct RuleFile {
    std::string name;   // within the rules folder, with '/': "hazard.yaml", "labels/my-card.yaml"
    std::string text;   // as it is on disk
    std::string shown;  // how messages name it; empty: by its name

    const std::string& shown_name() const { return shown.empty() ? name : shown; }
};

// The files of the folder `rules` as they were when the program was built, in the order of their
// names.
std::vector<RuleFile> built_in_rule_files();

// The built-in files with those of `folder`, if one is given, in place of the built-in ones of the
// same name. A folder may add label cards (labels/*.yaml); any other file ending in .yaml or .yml
// must have the name of a built-in one, so that a misspelt name does not silently change nothing.
// Other files, and those whose name begins with a point, are left alone. Throws InputError when the
// folder or a file cannot be read or has a wrong name.
std::vector<RuleFile> rule_files(const std::optional<std::filesystem::path>& folder);

// The file of that name, or null.
const RuleFile* find_rule_file(const std::vector<RuleFile>& files, std::string_view name);

// Whether a file of this name is a rule pack: facts, tables, settings, presets, cases. The other
// files of the folder (sources.yaml, seasons.yaml, records.yaml, method_facts.yaml,
// day_rules.yaml, labels/*.yaml) have forms and readers of their own.
bool is_pack(std::string_view name);

// Whether a pack of this name, with or without its ending, is one that holds nothing but cases.
bool holds_only_cases(std::string_view name);

}  // namespace ashtriage::packs
