#include "packs/value_reader.hpp"

#include <algorithm>
#include <cmath>

#include "measure/number.hpp"
#include "packs/fact_units.hpp"
#include "packs/value_text.hpp"

namespace ashtriage::packs {

namespace {

constexpr std::size_t texts_remembered = 512;

// Far more digits than anybody writes, and far from the length at which parse_value refuses a text.
constexpr std::size_t longest_number = 30;

}  // namespace

ValueReader::ValueReader(const reason::Fact& fact, const FactText& fact_text)
    : fact_(&fact), fact_text_(&fact_text), known_(texts_remembered) {
    const FactUnit* unit = find_fact_unit(fact_text.unit);
    if (unit == nullptr) return;
    whole_numbers_ = unit->whole_numbers;
    for (const std::string_view form : {unit->one, unit->several}) {
        if (!form.empty()) unit_forms_.push_back(form);
    }
}

reason::Value ValueReader::read(std::string_view text) {
    if (fact_->kind == reason::FactKind::number) {
        if (const auto number = plain_number(text)) return *number;
    }
    if (const reason::Value* known = known_.find(text)) return *known;
    const reason::Value value = parse_value(*fact_, *fact_text_, text);
    known_.keep(text, value);
    return value;
}

// "35", "35 %", "35%": digits and at most a point, alone or before the fact's own unit. Nothing for
// any other text, and for a number that may have to be refused.
std::optional<reason::Value> ValueReader::plain_number(std::string_view text) const {
    const std::size_t end = std::min(text.find_first_not_of(".0123456789"), text.size());
    if (end == 0 || end > longest_number) return std::nullopt;
    std::string_view unit = text.substr(end);
    if (unit.starts_with(' ')) unit.remove_prefix(1);
    const bool own_unit =
        end == text.size() || std::ranges::find(unit_forms_, unit) != unit_forms_.end();
    if (!own_unit) return std::nullopt;
    const auto number = measure::parse_number(text.substr(0, end));
    if (!number || !fact_->range.contains(*number)) return std::nullopt;
    if (whole_numbers_ && std::floor(*number) != *number) return std::nullopt;
    return reason::Value::number(*number);
}

}  // namespace ashtriage::packs
