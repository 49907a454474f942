// From what a tape or caliper read to the one diameter a rule asks for.
#pragma once

#include <span>

#include "measure/quantity.hpp"

namespace ashtriage::measure {

// How several stems of one tree become one diameter. The three answers differ by a factor of up to
// two, so each use names its rule.
enum class StemRule {
    root_of_sum_of_squares,  // same total stem area: appraisal, biomass, FIA woodland species (DRC)
    sum,                     // labels that dose a cluster by adding the DBH of all stems
    largest                  // champion-tree measuring
};

// Diameter = girth / pi, to the nearest nanometre. Throws InputError for a girth below zero.
Length diameter_from_girth(Length girth);
Length girth_from_diameter(Length diameter);

// Throws InputError if there are no stems or one is not more than zero.
Length combined_diameter(std::span<const Length> diameters, StemRule rule);

// Cross-section of the stem at breast height, pi / 4 * DBH^2. Throws InputError for a DBH below
// zero.
Area basal_area(Length dbh);

}  // namespace ashtriage::measure
