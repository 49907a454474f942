// What is wrong with a label card as a whole, once each of its figures has been read.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "treat/label_card.hpp"

namespace ashtriage::treat {

struct Complaint {
    std::string entry;  // of the card: "rate", "strength" ...
    std::string id;     // stable, kebab-case
    std::string message;
    std::string hint;
};

// Figures that contradict each other and entries that do not belong together. An amount of zero
// counts as missing, which the reader has already reported, and is left out of every comparison.
std::vector<Complaint> complaints_about(const LabelCard& card);

// Cards of one registration number that do not agree on strength, rate or limits, on who may apply
// it, or on the signal word: one of them is a slip of the pen. Each complaint is about the later
// card of a pair.
struct CardComplaint {
    std::size_t card = 0;  // index into the cards
    Complaint complaint;
};
std::vector<CardComplaint> complaints_between(const std::vector<LabelCard>& cards);

// Where product and surfactant leave no room for the carrier in the finished mix. Only for a card
// about which there is nothing else to complain.
std::vector<Complaint> complaints_about_mix(const LabelCard& card);

}  // namespace ashtriage::treat
