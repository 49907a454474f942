#include "present/region_words.hpp"

#include <bit>
#include <string_view>
#include <vector>

#include "packs/wording.hpp"
#include "packs/words.hpp"

namespace ashtriage::present {

namespace {

// "species is not fringetree, mountain ash or not ash" says more in fewer words than seven kinds of
// ash.
std::string region_value(const packs::RuleSet& rules, reason::FactIndex fact,
                         const reason::Value& value) {
    const reason::Fact& described = rules.model.facts[fact];
    const reason::LevelSet* levels = value.level_set();
    if (described.kind == reason::FactKind::choice && levels != nullptr) {
        const reason::LevelSet others = reason::all_levels(described.levels.size()) & ~*levels;
        if (others != 0 && std::popcount(others) < std::popcount(*levels)) {
            return "not " + packs::spoken_value(rules, fact, reason::Value::levels(others));
        }
    }
    return packs::spoken_value(rules, fact, value);
}

std::vector<std::string> parts_of(const packs::RuleSet& rules, const reason::Observation& values,
                                  std::string_view between) {
    std::vector<std::string> parts;
    for (reason::FactIndex fact = 0; fact < values.size(); ++fact) {
        if (values[fact].is_unknown()) continue;
        const std::string name = packs::plain_name(rules.model.facts[fact].name);
        parts.push_back(values[fact].is_not_applicable()
                            ? name + " does not apply"
                            : name + std::string(between) +
                                  region_value(rules, fact, values[fact]));
    }
    return parts;
}

}  // namespace

std::string region_words(const packs::RuleSet& rules, const reason::Observation& region) {
    const auto parts = parts_of(rules, region, " is ");
    return parts.empty() ? "whatever is seen" : packs::joined(parts, "and");
}

std::string example_words(const packs::RuleSet& rules, const reason::Observation& example) {
    std::string words;
    for (const std::string& part : parts_of(rules, example, " ")) words += part + ", ";
    return words.empty() ? "any tree" : words + "whatever else is seen";
}

}  // namespace ashtriage::present
