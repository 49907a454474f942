// What is better looked at again about a label card that can be used.
//
// Reading the cards refuses all that is wrong with them for certain. What only looks wrong is said
// here: a slip in the rate that no limit of the card itself shows is the one that harms.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "present/knowledge.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::present {

struct CardRemark {
    std::string card;  // its key
    std::string id;    // stable, kebab-case
    std::string text;
};

// A method that no rule gives; a card not held against its label for a year, or on a day still to
// come; a rate of active ingredient far from what has been published for the method, which is how a
// rate by girth looks that was typed as one by DBH.
std::vector<CardRemark> remarks_on(const treat::LabelCard& card, const Knowledge& knowledge,
                                   const measure::Date& as_of);

}  // namespace ashtriage::present
