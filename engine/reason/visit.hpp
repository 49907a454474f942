// Walking a condition down to its tests.
#pragma once

#include <type_traits>
#include <variant>

#include "reason/condition.hpp"

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

}  // namespace ashtriage::reason
