// Walk-arounds written down elsewhere: a YAML sheet for one site, or a CSV file with a row for each
// tree. Everything wrong in a file is reported together, each at its place; then nothing is taken.
#pragma once

#include <iosfwd>
#include <string>
#include <string_view>

#include "measure/date.hpp"
#include "observe/walk_sheet.hpp"
#include "packs/rule_set.hpp"

namespace ashtriage::triage {

// Entries, all but `trees` optional: `client` (name, address, telephone, email), `site` (name,
// address, area, soil, distance_to_water, infestation_distance, in_quarantined_county, latitude,
// longitude, elevation), `date`, `observer`, and `trees`, each with `tree` (its label), `stems`,
// `place`, `date`, `observer`, `latitude`, `longitude`, `notes` and `facts`. A walk-around without
// a date gets `default_date`. Throws packs::BadFile.
observe::WalkSheet read_walk_sheet_yaml(std::string_view text, const std::string& file,
                                        const packs::RuleSet& rules, measure::Date default_date);

// Columns: `tree` (required), `place`, `date`, `observer`, `latitude`, `longitude`, `notes`,
// `stems`, `dbh`, `girth`, `problem` (passed over), and any fact of the rule set. An empty cell
// tells nothing; bare numbers are in the fact's own unit, stems in inches. Throws packs::BadFile,
// and measure::InputError for a file that is no table of this kind.
observe::WalkSheet read_walk_sheet_csv(std::istream& stream, const std::string& file,
                                       const packs::RuleSet& rules, measure::Date default_date);

}  // namespace ashtriage::triage
