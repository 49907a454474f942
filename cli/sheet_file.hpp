// A sheet of walk-arounds named on the command line.
#pragma once

#include <string>

#include "measure/date.hpp"
#include "packs/rule_set.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::cli {

// YAML when the name ends in .yaml or .yml, else CSV; "-" is CSV from standard input. Throws
// packs::BadFile or measure::InputError.
triage::WalkSheet read_sheet_file(const std::string& name, const packs::RuleSet& rules,
                                  measure::Date default_date);

}  // namespace ashtriage::cli
