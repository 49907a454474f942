// Which label card is taken for a method where nobody has named one.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// The card for a method, or nothing. A card of one's own goes before an example; of several the
// first by name is returned, see below.
const LabelCard* card_for_method(const std::vector<LabelCard>& cards, std::string_view method);

// That other cards are for the method of this one as well. Which label is in the hand only a person
// can say, so this is a stop; of examples, which show the arithmetic, a warning. Nothing where the
// card is the only one of its kind.
std::optional<Finding> other_cards_for_method(const std::vector<LabelCard>& cards,
                                              const LabelCard& card);

}  // namespace ashtriage::treat
