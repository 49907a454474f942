// The invented property of the demonstration, as it is shown on 10 July 2026: sixteen trees.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "present/assessment.hpp"
#include "season/read_seasons.hpp"
#include "treat/read_label_card.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::present {

inline measure::Date demo_day() {
    return measure::parse_date("2026-07-10");
}

inline const Knowledge& built_in_knowledge() {
    static const Knowledge knowledge = read_knowledge(packs::built_in_rule_files());
    return knowledge;
}

inline const packs::RuleSet& built_in_rules() {
    return built_in_knowledge().judge.rules();
}

inline observe::WalkSheet demo_sheet() {
    std::ifstream file(std::filesystem::path(ASHTRIAGE_SOURCE_DIR) / "cli" / "demo_sheet.yaml",
                       std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(file), {});
    return triage::read_walk_sheet_yaml(text, "demo_sheet.yaml", built_in_rules(), demo_day());
}

inline PropertyAssessment assessed(const observe::WalkSheet& sheet) {
    PropertyAssessment property;
    if (sheet.client) property.client = *sheet.client;
    if (sheet.site) property.site = *sheet.site;
    property.as_of = demo_day();
    for (const observe::SheetTree& entry : sheet.trees) {
        property.trees.push_back(assess_tree(built_in_knowledge(), &property.site, entry.tree,
                                             entry.walk_around, nullptr, demo_day()));
    }
    return property;
}

inline const PropertyAssessment& demo_property() {
    static const PropertyAssessment property = assessed(demo_sheet());
    return property;
}

inline const TreeAssessment& demo_tree(std::string_view label) {
    for (const TreeAssessment& tree : demo_property().trees) {
        if (tree.tree.label == label) return tree;
    }
    throw std::invalid_argument("the demonstration has no tree " + std::string(label));
}

inline std::size_t count_of(std::string_view part, std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string_view::npos;
         at = text.find(part, at + part.size())) {
        ++count;
    }
    return count;
}

}  // namespace ashtriage::present
