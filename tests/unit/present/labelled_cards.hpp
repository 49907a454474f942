// The invented property of the demonstration with cards that stand for real labels.
#pragma once

#include <functional>

#include "demo_property.hpp"
#include "present/knowledge.hpp"

namespace ashtriage::present {

// The built-in cards as if each had been copied from a label, so that nothing but the acre stops.
inline Knowledge with_labels(const std::function<void(treat::LabelCard&)>& change) {
    Knowledge knowledge = read_knowledge(packs::built_in_rule_files());
    for (treat::LabelCard& card : knowledge.cards) {
        card.example = false;
        treat::FromLabel label;
        label.sites_cover_ash = true;
        label.pests_cover_borer = true;
        label.checked_on = demo_day();
        card.from_label = label;
        change(card);
    }
    return knowledge;
}

inline PropertyAssessment property_with(const Knowledge& knowledge,
                                        const measure::Date& as_of = demo_day()) {
    const observe::WalkSheet sheet = demo_sheet();
    PropertyAssessment property;
    property.site = *sheet.site;
    property.as_of = as_of;
    for (const observe::SheetTree& entry : sheet.trees) {
        property.trees.push_back(
            assess_tree(knowledge, &property.site, entry.tree, entry.walk_around, nullptr, as_of));
        property.trees.back().tree.id = static_cast<observe::TreeId>(property.trees.size());
    }
    return property;
}

}  // namespace ashtriage::present
