// What is better looked at again about a label card that can be used.
//
// Reading the cards refuses all that is wrong with them for certain. What only looks wrong is said
// here: a slip in the rate that no limit of the card itself shows is the one that harms.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "present/knowledge.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::present {

struct CardRemark {
    std::string card;  // its key
    std::string id;    // stable, kebab-case
    std::string text;
};

// Why nothing is planned by a card, however well it reads: no rule gives its method, or its way of
// application or its active ingredient is not that of the method. Each is a stop.
std::vector<treat::Finding> stops_by_method(const treat::LabelCard& card,
                                            const Knowledge& knowledge);

// The stops; a card not held against its label for a year, or on a day still to come; more
// applications a year than its interval leaves room for; a season over the new year; a rate of
// active ingredient far from what has been published for the method, which is how a rate by girth
// looks that was typed as one by DBH.
std::vector<CardRemark> remarks_on(const treat::LabelCard& card, const Knowledge& knowledge,
                                   const measure::Date& as_of);

}  // namespace ashtriage::present
