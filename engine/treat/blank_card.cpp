#include "treat/blank_card.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/input_error.hpp"

namespace ashtriage::treat {

namespace {

constexpr std::string_view rest_of_card = R"card(
# Fill in every "..." from the label in your hand, word for word and figure for figure, with the unit
# that the label uses. The label wins over this card, always. Lines that begin with # are not read:
# take the # away from those that your label has something to say about, and leave out the others.
# Then run:  ashtriage labels check --rules FOLDER

example: no
title: ...                    # active ingredient, strength and method in words
method: ...                   # soil_drench_imidacloprid, basal_spray_dinotefuran,
                              # trunk_injection_azadirachtin or trunk_injection_emamectin
application: ...              # basal_trunk_spray, soil_drench, soil_injection, trunk_injection
                              # or cover_spray
active_ingredient: ...        # its common name
product: ...                  # liquid or dry: how it is measured out
# formulation: ...            # soluble granule, flowable ...

# So much active ingredient in so much product; liquids by volume (2 lb in 1 gal), dry ones by weight.
strength: {active: ..., per: ..., source: label}
# If the label prints a percentage as well, it is held against the strength:
#   percent_by_weight: 21.4 %
# other_active_ingredients:
#   - {name: ..., active: ..., per: ..., source: label}

# Product, undiluted. per: inch_dbh, cm_dbh, inch_girth, cm_girth or tree; or, with the size in
# "each", treated_area (each: 1000 sq ft), bark_area (each: 100 sq ft), finished_mix (each: 1 gal).
# Girth is not DBH: it is 3.14 times as much. Never write one for the other.
rate: {per: ..., low: ..., usual: ..., high: ..., source: label}
# A table by DBH class goes here instead (a DBH equal to "to" belongs to that class):
# rate:
#   per: tree
#   classes:
#     - {to: 10 in, usual: 20 mL}
#     - {to: 20 in, usual: 50 mL}
#   source: label

# What it is mixed into: either the finished volume or the amount of water. Leave out for a product
# that is applied as it is.
# mix: {carrier: water, finished: ..., per: inch_dbh, source: label}
# mix: {carrier: water, carrier_amount: ..., per: inch_dbh, source: label}
# surfactant: {what: ..., share: 0.25 %, source: label}
# surfactant: {what: ..., amount: 1 mL, per: inch_dbh, source: label}

# The smallest mark of what each part is measured with. Doses are rounded down to it.
measure_with: {product: ...}
# measure_with: {product: 1 g, surfactant: 1 mL, carrier: 1 fl oz}
# containers: [1 qt, 1 gal]   # the sizes the product is sold in

# dbh: {from: 4 in, to: 30 in, source: label}
several_stems: sum            # sum, largest or root_of_sum_of_squares: what the label counts

limits:
  # per_application: ...              # the most product for one tree
  # applications_per_year: 1
  # again_after_months: 12
  # again_after_days: 365
  # active_per_acre_per_year: 0.4 lb  # of active ingredient
  # counting: [soil, bark, injection, other]   # which uses count toward it; left out: all
  source: label

# spray: {up_to: 5 ft, source: label}                   # basal trunk sprays: height above the ground
# holes: {spacing: 5 in, depth: 1 in, source: label}    # trunk injection: around the trunk

# conditions:
#   season: {from: 04-15, to: 06-15}  # month-day
#   wind_to: 10 mph
#   temperature: {from: 45 F, to: 90 F}
#   rain_free_hours: 24
#   dry_bark: yes
#   soil: [moist]                     # of dry, moist, saturated, frozen: those allowed
#   not_in_bloom: yes
#   source: label
# buffers:
#   - {from: open water, at_least: 25 ft, source: label}
# never_food_trees: yes
# never_mix_with: [fertilizer, other pesticides]
# mixing_order: ["Fill the tank half full with water.", "..."]
# pollinators: ["what the label says of bees and bloom"]

# As the label says it, an item a line. It is never worked out.
protective_equipment: [...]

cautions:
  - {text: "...", source: label}

from_label:
  product_name: ...
  registration_number: ...    # digits and hyphens after "Reg. No."
  signal_word: ...            # danger, warning, caution or none
  restricted_use: ...         # yes or no
  re_entry: ...               # how long people and animals keep off, as the label says it
  first_aid: ...
  sites: [...]                # what may be treated, in the label's words
  sites_cover_ash: ...        # yes only if one of them covers an ash where yours stand
  pests: [...]                # against what
  pests_cover_borer: ...      # yes only if one of them covers the emerald ash borer
  # other_pests_allowed: yes  # only where label and state allow pests that are not named
  # mandatory: ["must and must not, as the label says it"]
  # advisory: ["should and should not, as the label says it"]
  # storage_and_disposal: ...
  # label_date: ...
  # special_need: {jurisdiction: ..., reference: ..., expires: 2027-12-31}
  checked_on: ...             # the day you held this card against the label: 2026-03-01
)card";

}  // namespace

std::string blank_card(std::string_view name) {
    const bool plain = !name.empty() && std::ranges::all_of(name, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    if (!plain) {
        throw measure::InputError(fmt::format("'{}' cannot be the name of a label card", name), {},
                                  "Use lower-case letters, digits and hyphens, such as "
                                  "my-basal-spray.");
    }
    return fmt::format("# A label card of your own.\nlabel: {}\n{}", name, rest_of_card);
}

}  // namespace ashtriage::treat
