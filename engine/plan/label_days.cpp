#include "plan/label_days.hpp"

namespace ashtriage::plan {

using measure::Date;

bool label_allows(const treat::LabelCard& card, const Date& day) {
    const treat::MonthDay of_year{static_cast<int>(static_cast<unsigned>(day.month())),
                                  static_cast<int>(static_cast<unsigned>(day.day()))};
    if (card.conditions.season && !card.conditions.season->contains(of_year)) return false;
    const bool special = card.from_label && card.from_label->special_need;
    return !special || day <= card.from_label->special_need->expires;
}

std::optional<Days> label_days(const treat::LabelCard* card, const Date& from, const Date& to) {
    if (to < from) return std::nullopt;
    if (card == nullptr) return Days{from, to};
    Date first = from;
    while (first <= to && !label_allows(*card, first)) first = measure::add_days(first, 1);
    if (first > to) return std::nullopt;
    Date last = first;
    for (Date next = first; next <= to && label_allows(*card, next);
         next = measure::add_days(next, 1)) {
        last = next;
    }
    return Days{first, last};
}

}  // namespace ashtriage::plan
