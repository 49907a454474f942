#include "triage/tables.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "measure/input_error.hpp"

namespace ashtriage::triage {

void require_tables(const packs::RuleSet& rules) {
    constexpr std::array needed{table::recommendation, table::evidence, table::hazard,
                                table::method};
    for (const std::string_view name : needed) {
        if (!rules.model.find_table(name)) {
            throw measure::InputError("The rules have no table \"" + std::string(name) + "\"", {},
                                      "The program needs it; start from the built-in rules.");
        }
    }
    const auto& gives = rules.model.tables[*rules.model.find_table(table::recommendation)].gives;
    constexpr std::array outcomes{outcome::treat, outcome::monitor, outcome::remove,
                                  outcome::out_of_scope};
    for (const std::string_view name : outcomes) {
        if (std::ranges::find(gives, name) == gives.end()) {
            throw measure::InputError(
                "The table \"recommendation\" does not give \"" + std::string(name) + "\"", {},
                "The program needs it; start from the built-in rules.");
        }
    }
}

bool may_come_to(const packs::RuleSet& rules, const reason::Engine& engine,
                 const reason::Observation& values, std::string_view outcome) {
    const auto index = rules.model.find_table(table::recommendation);
    if (!index) return false;
    const auto& gives = rules.model.tables[*index].gives;
    const auto found = std::ranges::find(gives, outcome);
    if (found == gives.end()) return false;
    const auto bit = static_cast<reason::OutcomeIndex>(found - gives.begin());
    return reason::has_level(engine.decide(*index, values).possible, bit);
}

}  // namespace ashtriage::triage
