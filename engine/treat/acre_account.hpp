// The acre account: how much of an active ingredient a site may take in a calendar year, what has
// been used of it, and which trees still fit.
//
// Everything is reckoned in grams of active ingredient, never in printed inches. What was used is
// rounded up and what is allowed is rounded down, so that the account never shows room that is not
// there.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// Active ingredient that was applied on the site, by whatever product.
struct SpentActive {
    std::string active_ingredient;
    CountedUse use = CountedUse::other;
    measure::Date on{};
    measure::Mass mass;
};

// A local label that allows more on an acre than the card does. It counts only while it is in
// force, and only once somebody has confirmed it and named its reference.
struct RaisedLimit {
    std::string active_ingredient;
    measure::Mass per_acre;
    std::string reference;
    std::string jurisdiction;
    measure::Date expires{};  // the last day it holds
};

struct AcreAccount {
    std::string active_ingredient;
    int year = 0;
    measure::Mass per_acre;                // the limit that holds
    std::optional<RaisedLimit> raised_by;  // where it is not the card's own
    measure::Mass allowed;                 // on the whole site
    measure::Mass used;                    // by what counts
    measure::Mass planned;

    measure::Mass left() const;  // never less than nothing
    measure::Mass over() const;  // nothing while the limit is kept
};

// The account of the card's active ingredient on a site of this area, as of a day; nothing where
// the card has no limit per acre. `planned` is what is to be applied later in the same year.
// Throws measure::InputError where there is a limit and the area is not known.
std::optional<AcreAccount> acre_account(const LabelCard& card,
                                        const std::optional<measure::Area>& site,
                                        const measure::Date& as_of,
                                        const std::vector<SpentActive>& spent,
                                        const std::vector<SpentActive>& planned,
                                        const std::vector<RaisedLimit>& raised);

// What is said of a dose that belongs to no site, so that nothing counts it toward the acre;
// nothing where the card has no limit per acre.
std::optional<Finding> acre_not_counted(const LabelCard& card);

// A tree that is to take part of the account.
struct Claimant {
    int rank = 0;  // the most important first: 1 before 2
    measure::Mass active;
};

// Indices of the trees that are treated: as many as possible of the most important rank, of those
// ways the one that leaves the most for the next, and so on. In the order given.
std::vector<std::size_t> largest_set(const std::vector<Claimant>& trees, measure::Mass left);

}  // namespace ashtriage::treat
