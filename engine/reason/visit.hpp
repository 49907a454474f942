// Going through the conditions of a model, and through a condition down to its tests.
#pragma once

#include <type_traits>
#include <variant>

#include "reason/condition.hpp"
#include "reason/model.hpp"

namespace ashtriage::reason {

// Calls `action` with each NumberTest, LevelTest and OutcomeTest of the condition, left to right.
template <typename Action>
void for_each_test(const Condition& condition, Action&& action) {
    std::visit(
        [&](const auto& test) {
            if constexpr (!std::is_same_v<std::decay_t<decltype(test)>, std::monostate>) {
                action(test);
            }
        },
        condition.test);
    for (const Condition& part : condition.parts) for_each_test(part, action);
}

// Calls `action` with every condition of the model: of rules, of whether facts apply, of claims.
template <typename Action>
void for_each_condition(const Model& model, Action&& action) {
    for (const Table& table : model.tables) {
        for (const Rule& rule : table.rules) action(rule.when);
        for (const WorseClaim& claim : table.worse) {
            if (claim.unless) action(*claim.unless);
        }
    }
    for (const auto& applies : model.applies_if) {
        if (applies) action(*applies);
    }
}

}  // namespace ashtriage::reason
