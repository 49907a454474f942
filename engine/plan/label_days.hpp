// The days on which a label allows its product at all, whatever the tree: its own season, and as
// long as it is in force.
#pragma once

#include <optional>

#include "measure/date.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

bool label_allows(const treat::LabelCard& card, const measure::Date& day);

// Days in a row; both belong to it.
struct Days {
    measure::Date first{};
    measure::Date last{};
};

// The first days in a row from `from` to `to`, both included, on which the label allows it; nothing
// where there are none. The card may be null: then nothing is known against any day.
std::optional<Days> label_days(const treat::LabelCard* card, const measure::Date& from,
                               const measure::Date& to);

}  // namespace ashtriage::plan
