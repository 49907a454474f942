// The acre accounts of a site for a calendar year: what was used, what is planned, what is left.
#pragma once

#include <string>
#include <vector>

#include "book/book.hpp"
#include "present/planned_work.hpp"
#include "present/recommendation_json.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

// Something that was used on the site in the year.
struct AccountEntry {
    measure::Date on{};
    std::string active_ingredient;
    measure::Mass mass;
    treat::CountedUse counted_as = treat::CountedUse::other;
    std::string what;  // "application 3: A-1 and A-2", "other use 1: turf, grubs"
};

// A tree that takes part of an account this year.
struct TreeOfAccount {
    std::string label;
    int rank = 2;  // by the owner's value: 1 high, 2 middle or unknown, 3
    std::string active_ingredient;
    measure::Mass mass;
};

struct SiteAccount {
    observe::Site site;
    int year = 0;
    bool example = false;                      // some tree is planned by an example card
    std::vector<treat::AcreAccount> accounts;  // of the cards that are known, planned work included
    std::vector<AccountEntry> entries;         // by date
    std::vector<treat::RaisedAllowance> raised;
    std::vector<std::string> untold;       // why an account cannot be told
    std::vector<TreeOfAccount> this_year;  // that can still be treated, the most valued first
    std::vector<LeftOut> moved;            // trees planned by another method for want of room
    std::vector<LeftOut> without_room;     // trees for which the acre has no room this year
};

// `work` is what is planned for the site. Active ingredients of which nothing is planned have an
// account where one of one's own cards limits them and something of them was used.
SiteAccount site_account(const book::Book& book, const PlannedWork& work,
                         const std::vector<treat::LabelCard>& cards);

std::string account_text(const SiteAccount& account);
std::string account_csv(const SiteAccount& account);
Json account_json(const SiteAccount& account);

}  // namespace ashtriage::present
