#include "treat/site_history.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace ashtriage::treat {

bool SiteHistory::Untold::may_concern(const std::string& active_ingredient) const {
    return active_ingredients.empty() ||
           std::ranges::find(active_ingredients, active_ingredient) != active_ingredients.end();
}

void add_application(SiteHistory& history, const ApplicationRecord& record) {
    if (const auto spent = spent_by(record)) {
        history.spent.insert(history.spent.end(), spent->begin(), spent->end());
    } else {
        SiteHistory::Untold untold{record.id, record.work_date, {}};
        for (const AppliedActive& active : record.actives) {
            untold.active_ingredients.push_back(active.name);
        }
        history.untold.push_back(std::move(untold));
    }
    for (const TreatedTree& tree : record.trees) {
        if (!tree.tree) continue;
        for (const AppliedActive& active : record.actives) {
            history.on_trees.push_back({*tree.tree, active.name, record.work_date});
        }
    }
}

std::string untold_words(const SiteHistory& history, const std::string& active_ingredient,
                         std::chrono::year year) {
    for (const SiteHistory::Untold& untold : history.untold) {
        if (untold.on.year() != year || !untold.may_concern(active_ingredient)) continue;
        return fmt::format(
            "the record of application {} of {} does not say how much {} was used or how it "
            "counts, so what the acre still takes is not known: complete that record first",
            untold.application, measure::long_text(untold.on), active_ingredient);
    }
    return {};
}

std::vector<measure::Date> days_on_tree(const SiteHistory& history, observe::TreeId tree,
                                        const LabelCard& card) {
    std::vector<measure::Date> dates;
    for (const SiteHistory::OnTree& each : history.on_trees) {
        if (each.tree == tree && each.active_ingredient == card.active_ingredient) {
            dates.push_back(each.on);
        }
    }
    // One application of a product with several active ingredients is in the history with each.
    for (const SiteHistory::OnTree& each : history.on_trees) {
        if (each.tree == tree && each.active_ingredient != card.active_ingredient &&
            has_active(card, each.active_ingredient) &&
            std::ranges::find(dates, each.on) == dates.end()) {
            dates.push_back(each.on);
        }
    }
    return dates;
}

}  // namespace ashtriage::treat
