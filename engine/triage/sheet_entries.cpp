#include "triage/sheet_entries.hpp"

#include <cmath>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "packs/value_text.hpp"
#include "triage/tables.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::triage {

observe::Finding finding_of(const packs::RuleSet& rules, std::string_view fact,
                            std::string_view value) {
    const reason::FactIndex index = fact_named(rules, fact);
    if (fact == fact::dbh) {
        throw measure::InputError("\"dbh\" is worked out from the stems", {},
                                  "Enter it as a stem: \"14 in\" or \"girth 44 in\".");
    }
    static_cast<void>(packs::parse_value(rules.model.facts[index], rules.facts[index], value));
    return {std::string(fact), std::string(value)};
}

double parse_degrees(std::string_view text, double limit) {
    const auto degrees = measure::parse_number(text);
    if (!degrees || std::abs(*degrees) > limit) {
        throw measure::InputError(
            "\"" + std::string(text) + "\" is not a position in decimal degrees", {},
            "Write a number such as 41.9 or -87.7; west and south are negative.");
    }
    return *degrees;
}

}  // namespace ashtriage::triage
