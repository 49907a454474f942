#include "plan/schedule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "measure/input_error.hpp"
#include "plan/label_days.hpp"
#include "treat/card_choice.hpp"

namespace ashtriage::plan {

namespace {

// The part of the window that is within the season of the label; none where that is no day of it.
void keep_to_the_label(const treat::LabelCard* card, const measure::Date& from,
                       season::NextWindow& next) {
    if (!next.window) return;
    season::Window& window = *next.window;
    const auto days = label_days(card, std::max(from, window.opens), window.closes);
    if (!days) {
        next = {};
        next.why_none = "No day of its window is within the season of the label card.";
        return;
    }
    if (days->first > from) window.opens = std::max(window.opens, days->first);
    window.closes = days->last;
    window.best_until = std::clamp(window.best_until, window.opens, window.closes);
}

ScheduledTree scheduled(const TreatableTree& tree, const season::Seasons& seasons,
                        const std::vector<treat::LabelCard>& cards, const measure::Date& as_of,
                        const season::KnownYear& known) {
    const treat::LabelCard* card = treat::card_for_method(cards, tree.method);
    try {
        const measure::Date from = std::max(as_of, tree.not_before.value_or(as_of));
        ScheduledTree entry{tree,
                            season::next_window(seasons, tree.method, tree.location, from, known),
                            card == nullptr || card->example};
        keep_to_the_label(card, from, entry.next);
        return entry;
    } catch (const measure::InputError& error) {
        throw error.at(fmt::format("tree '{}' of site '{}'", tree.label, tree.site));
    }
}

bool before(const ScheduledTree& a, const ScheduledTree& b) {
    if (a.next.window.has_value() != b.next.window.has_value()) return a.next.window.has_value();
    if (a.next.window) {
        const auto days = [](const season::Window& window) {
            return std::tie(window.closes, window.opens);
        };
        if (days(*a.next.window) != days(*b.next.window)) {
            return days(*a.next.window) < days(*b.next.window);
        }
    }
    return std::tie(a.tree.site, a.tree.label) < std::tie(b.tree.site, b.tree.label);
}

}  // namespace

std::vector<ScheduledTree> schedule(const std::vector<TreatableTree>& trees,
                                    const season::Seasons& seasons,
                                    const std::vector<treat::LabelCard>& cards,
                                    const measure::Date& as_of, const season::KnownYear& known) {
    std::vector<ScheduledTree> result;
    result.reserve(trees.size());
    for (const TreatableTree& tree : trees) {
        result.push_back(scheduled(tree, seasons, cards, as_of, known));
    }
    std::stable_sort(result.begin(), result.end(), before);
    return result;
}

}  // namespace ashtriage::plan
