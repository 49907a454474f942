// The names by which the program knows tables, outcomes and facts of the rule packs: what a pack
// must keep if it is to be used by this program. Everything else in a pack is the author's.
#pragma once

#include <string_view>

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"
#include "reason/value.hpp"

namespace ashtriage::triage {

namespace table {
inline constexpr std::string_view recommendation = "recommendation";
inline constexpr std::string_view evidence = "evidence";
inline constexpr std::string_view hazard = "hazard";
inline constexpr std::string_view failure_and_impact = "failure_and_impact";
inline constexpr std::string_view risk_rating = "risk_rating";
inline constexpr std::string_view method = "method";
inline constexpr std::string_view who_applies = "who_applies";
inline constexpr std::string_view treatment_waits = "treatment_waits";
}  // namespace table

namespace outcome {
inline constexpr std::string_view treat = "treat";
inline constexpr std::string_view monitor = "monitor";
inline constexpr std::string_view remove = "remove";
inline constexpr std::string_view out_of_scope = "out_of_scope";
inline constexpr std::string_view waits = "waits";                    // of treatment_waits
inline constexpr std::string_view no_method_fits = "no_method_fits";  // of method
}  // namespace outcome

namespace fact {
inline constexpr std::string_view dbh = "dbh";
inline constexpr std::string_view species = "species";
inline constexpr std::string_view standing_dead = "standing_dead";
inline constexpr std::string_view canopy_loss = "canopy_loss";
inline constexpr std::string_view canopy_dieback = "canopy_dieback";
inline constexpr std::string_view canopy_thinning = "canopy_thinning";
inline constexpr std::string_view canopy_class = "canopy_class";
inline constexpr std::string_view shell_per_6_inches = "shell_per_6_inches";
inline constexpr std::string_view shell_thickness = "shell_thickness";
inline constexpr std::string_view tree_height = "tree_height";
inline constexpr std::string_view target_distance = "target_distance";
inline constexpr std::string_view target_distance_in_heights = "target_distance_in_heights";
inline constexpr std::string_view line_distance = "line_distance";
inline constexpr std::string_view line_distance_in_heights = "line_distance_in_heights";
inline constexpr std::string_view infestation_distance = "infestation_distance";
inline constexpr std::string_view in_quarantined_county = "in_quarantined_county";
inline constexpr std::string_view distance_to_water = "distance_to_water";
inline constexpr std::string_view leaves = "leaves";
inline constexpr std::string_view soil = "soil";
inline constexpr std::string_view owner_value = "owner_value";
inline constexpr std::string_view treatment_history = "treatment_history";
inline constexpr std::string_view restricted_use_certified = "restricted_use_certified";
inline constexpr std::string_view borer_pressure = "borer_pressure";
}  // namespace fact

namespace level {
inline constexpr std::string_view never = "never";                      // of treatment_history
inline constexpr std::string_view this_season = "this_season";          // of treatment_history
inline constexpr std::string_view high = "high";                        // of borer_pressure
inline constexpr std::string_view bare_since_july = "bare_since_july";  // of leaves
inline constexpr std::string_view yes = "yes";
}  // namespace level

// The group of facts that only a qualified tree-risk assessor can enter.
inline constexpr std::string_view assessor_group = "assessor";

// Throws measure::InputError naming what is missing when a rule set lacks a table
// or outcome that the program cannot do without: recommendation (treat, monitor, remove,
// out_of_scope), evidence, hazard, method.
void require_tables(const packs::RuleSet& rules);

// Whether the recommendation may still come out so. False when the rule set has no such outcome.
bool may_come_to(const packs::RuleSet& rules, const reason::Engine& engine,
                 const reason::Observation& values, std::string_view outcome);

}  // namespace ashtriage::triage
