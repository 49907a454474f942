#include "sheet_file.hpp"

#include <fstream>
#include <iostream>

#include "files.hpp"
#include "observe/check_records.hpp"
#include "packs/problem.hpp"
#include "triage/walk_sheet.hpp"
#include "triage/walk_sheet_rows.hpp"

namespace ashtriage::cli {

namespace {

observe::WalkSheet read(const std::string& name, const packs::RuleSet& rules,
                        measure::Date default_date) {
    if (is_yaml_sheet(name)) {
        return triage::read_walk_sheet_yaml(read_file(name), name, rules, default_date);
    }
    if (name == "-") {
        return triage::read_walk_sheet_csv(std::cin, "standard input", rules, default_date);
    }
    std::ifstream file = open_file(name);
    return triage::read_walk_sheet_csv(file, name, rules, default_date);
}

}  // namespace

bool is_yaml_sheet(const std::string& name) {
    return name.ends_with(".yaml") || name.ends_with(".yml");
}

observe::WalkSheet read_sheet_file(const std::string& name, const packs::RuleSet& rules,
                                   const measure::Date& as_of) {
    observe::WalkSheet sheet = read(name, rules, as_of);
    if (sheet.client) observe::check(*sheet.client);
    if (sheet.site) observe::check(*sheet.site);
    for (const observe::SheetTree& entry : sheet.trees) {
        try {
            triage::check(entry, as_of);
        } catch (const measure::InputError& error) {
            throw error.at(entry.place);
        }
    }
    return sheet;
}

measure::InputError not_in_sheet(const std::string& sheet, const std::string& label,
                                 const std::vector<std::string>& labels) {
    const std::string near = packs::nearest(label, labels);
    return measure::InputError("There is no tree \"" + label + "\" in the sheet", sheet,
                               near.empty() ? std::string{} : "Did you mean \"" + near + "\"?");
}

}  // namespace ashtriage::cli
