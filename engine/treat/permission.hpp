// Whether the label allows what is intended, or what was done: every stop and every warning, each
// with its reason and a remedy, collected before anything is said.
//
// Above the label, nearer to water, sooner or more often than it allows, on a site or in a season
// it does not name: stop. Below the label, or where the label is silent: warning. What is not known
// is never taken for allowed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// A card ought to be held against its label at least once a year.
inline constexpr int days_until_checked_again = 365;

// One tree, one day.
struct IntendedUse {
    measure::Date on{};
    // In words that must stand on the label when they are given; else an ash, against the emerald
    // ash borer.
    std::string site;
    std::string pest;
    // The product for this tree; none: as the dose says.
    std::optional<Amount> product;
    std::vector<std::string> mixed_with;  // what else goes into the tank or the injector
    std::vector<measure::Date> others;    // applications of this active ingredient to the tree
    std::optional<bool> certified;        // whether a certified applicator does it
    bool may_yield_food = false;
    std::optional<measure::Length> distance_to_water;  // from the tree to the nearest
};

// `dose` is the card's dose for the tree; its own findings are not repeated.
std::vector<Finding> findings_about(const LabelCard& card, const Dose& dose,
                                    const IntendedUse& use);

bool any_stop(const std::vector<Finding>& findings);

// The first day on which the tree may be treated again; nothing where the card gives no interval.
std::optional<measure::Date> earliest_next(const Limits& limits, const measure::Date& last);

}  // namespace ashtriage::treat
