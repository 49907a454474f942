// Reading rules/seasons.yaml.
#pragma once

#include <string_view>
#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "season/day_of_year.hpp"
#include "season/seasons.hpp"

namespace ashtriage::season {

// The seasons among the rule files, from the file seasons.yaml. `sources` are those it may name,
// as packs::read_sources gives them.
// Throws packs::BadFile with every problem: a date that does not exist, days out of order, a day in
// a time of the year in which the method is never used, a source that is not there. Throws
// InputError when the file is missing.
Seasons read_seasons(const std::vector<packs::RuleFile>& files,
                     const std::vector<packs::Source>& sources);

}  // namespace ashtriage::season
