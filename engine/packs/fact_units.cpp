#include "packs/fact_units.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "measure/parse.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

constexpr std::array known_units = {
    FactUnit{"percent", "%", "%", false, std::nullopt},
    FactUnit{"inches", "in", "in", false, measure::units::inch},
    FactUnit{"feet", "ft", "ft", false, measure::units::foot},
    FactUnit{"miles", "mi", "mi", false, measure::units::mile},
    FactUnit{"degrees", "degree", "degrees", false, std::nullopt},
    FactUnit{"count", "", "", true, std::nullopt},
    FactUnit{"inches_per_6_inches", "in per 6 in", "in per 6 in", false, std::nullopt},
    FactUnit{"tree_heights", "tree height", "tree heights", false, std::nullopt},
};

}  // namespace

const FactUnit* find_fact_unit(std::string_view name) {
    const auto* const found = std::find_if(known_units.begin(), known_units.end(),
                                           [&](const FactUnit& unit) { return unit.name == name; });
    return found == known_units.end() ? nullptr : found;
}

std::vector<std::string> fact_unit_names() {
    std::vector<std::string> names;
    names.reserve(known_units.size());
    for (const FactUnit& unit : known_units) names.emplace_back(unit.name);
    return names;
}

bool is_fact_unit(const FactUnit& unit, std::string_view written) {
    const std::string text = normalised(written);
    if (text.empty()) return false;
    if (text == normalised(unit.name) || text == unit.one || text == unit.several) return true;
    if (unit.length) {
        const auto* const length = measure::find_unit<measure::LengthDimension>(text);
        return length != nullptr && length->name == unit.length->name;
    }
    if (unit.name == "percent") {
        return measure::find_unit<measure::PercentDimension>(text) != nullptr;
    }
    if (unit.name == "degrees") return text == "deg" || text == "°";
    return false;
}

std::string number_text(double number, std::optional<int> places) {
    std::array<char, 400>
        buffer{};  // the longest double written out has 1 + 309 digits, or 1 + 1 + 324
    const auto written =
        places
            ? std::to_chars(buffer.begin(), buffer.end(), number, std::chars_format::fixed, *places)
            : std::to_chars(buffer.begin(), buffer.end(), number, std::chars_format::fixed);
    std::string text(buffer.begin(), written.ptr);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.ends_with('.')) text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

std::string number_with_unit(double number, std::string_view unit_name, std::optional<int> places) {
    std::string text = number_text(number, places);
    const FactUnit* unit = find_fact_unit(unit_name);
    if (unit == nullptr) return text;
    const std::string_view unit_words = text == "1" ? unit->one : unit->several;
    if (unit_words.empty()) return text;
    text += ' ';
    text += unit_words;
    return text;
}

}  // namespace ashtriage::packs
