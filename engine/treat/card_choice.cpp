#include "treat/card_choice.hpp"

#include <fmt/format.h>

#include "packs/words.hpp"

namespace ashtriage::treat {

const LabelCard* card_for_method(const std::vector<LabelCard>& cards, std::string_view method) {
    const LabelCard* found = nullptr;
    for (const LabelCard& card : cards) {
        if (card.method != method) continue;
        if (!card.example) return &card;
        if (found == nullptr) found = &card;
    }
    return found;
}

std::optional<Finding> other_cards_for_method(const std::vector<LabelCard>& cards,
                                              const LabelCard& card) {
    std::vector<std::string> others;
    for (const LabelCard& other : cards) {
        const bool as_good = other.example == card.example && other.method == card.method;
        if (as_good && other.key != card.key) others.push_back(other.key);
    }
    if (others.empty()) return std::nullopt;
    const std::string all = packs::joined(others, "and");
    if (card.example) {
        return Finding{Severity::warning, "more-than-one-card",
                       fmt::format("Another example card is for this method too: {}. \"{}\" was "
                                   "taken as the first by name (--card names another).",
                                   all, card.key)};
    }
    return Finding{Severity::stop, "more-than-one-card",
                   fmt::format("More than one label card is for this method: {} and {}. Name the "
                               "one whose label is in your hand (--card), or keep only that one "
                               "among your cards.",
                               card.key, all)};
}

}  // namespace ashtriage::treat
