// A sheet of walk-arounds named on the command line.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "measure/input_error.hpp"
#include "observe/walk_sheet.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::cli {

// Whether the name is one of a YAML sheet: it ends in .yaml or .yml. Any other is a CSV file.
bool is_yaml_sheet(const std::string& name);

// YAML when the name ends in .yaml or .yml, else CSV; "-" is CSV from standard input. A walk-around
// without a date gets `as_of`; one dated later, or a name that could not be recorded, is refused.
// Throws packs::BadFile or measure::InputError.
observe::WalkSheet read_sheet_file(const std::string& name, const packs::RuleSet& rules,
                                   const measure::Date& as_of);

// What to throw when the sheet, which has trees of these labels, has none of that label.
measure::InputError not_in_sheet(const std::string& sheet, const std::string& label,
                                 const std::vector<std::string>& labels);

}  // namespace ashtriage::cli
