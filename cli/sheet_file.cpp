#include "sheet_file.hpp"

#include <fstream>
#include <iostream>

#include "files.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::cli {

observe::WalkSheet read_sheet_file(const std::string& name, const packs::RuleSet& rules,
                                   measure::Date default_date) {
    if (name.ends_with(".yaml") || name.ends_with(".yml")) {
        return triage::read_walk_sheet_yaml(read_file(name), name, rules, default_date);
    }
    if (name == "-") {
        return triage::read_walk_sheet_csv(std::cin, "standard input", rules, default_date);
    }
    std::ifstream file = open_file(name);
    return triage::read_walk_sheet_csv(file, name, rules, default_date);
}

}  // namespace ashtriage::cli
