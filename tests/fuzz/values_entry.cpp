#include <algorithm>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "entries.hpp"
#include "fixed_files.hpp"
#include "measure/date.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "packs/value_text.hpp"
#include "refusal.hpp"
#include "season/read_seasons.hpp"
#include "treat/amount.hpp"

namespace ashtriage::fuzz {

namespace {

// What is printed of a value must be read back as the same value.
void read_fact(std::size_t fact, std::string_view text) {
    const reason::Fact& about = fixed_rules().model.facts[fact];
    const reason::Value value = packs::parse_value(about, fixed_rules().facts[fact], text);
    const std::string printed = packs::value_text(about, fixed_rules().facts[fact], value);
    if (packs::parse_value(about, fixed_rules().facts[fact], printed) != value) {
        throw std::logic_error("'" + printed + "' is not read back as the same value");
    }
}

void read_stems(std::string_view text) {
    const auto stems = observe::parse_stems(text);
    const std::string printed = observe::stems_text(stems);
    if (observe::stems_text(observe::parse_stems(printed)) != printed) {
        throw std::logic_error("'" + printed + "' is not read back as the same stems");
    }
}

void read_date(std::string_view text) {
    const measure::Date date = measure::parse_date(text);
    if (measure::parse_date(measure::text(date)) != date) {
        throw std::logic_error("'" + measure::text(date) + "' is not read back as the same date");
    }
}

const std::vector<std::function<void(std::string_view)>>& kinds_of_value() {
    static const std::vector<std::function<void(std::string_view)>> kinds = {
        [](std::string_view text) { measure::parse_length(text, measure::units::inch); },
        [](std::string_view text) { measure::parse_area(text); },
        [](std::string_view text) { measure::parse_volume(text); },
        [](std::string_view text) { measure::parse_mass(text); },
        [](std::string_view text) { measure::parse_percent(text); },
        [](std::string_view text) { measure::parse_temperature(text); },
        [](std::string_view text) { measure::parse_money(text); },
        [](std::string_view text) { measure::require_number(text); },
        [](std::string_view text) { measure::require_decimal(text); },
        [](std::string_view text) { treat::amount_of(treat::parse_stated_volume(text)); },
        [](std::string_view text) { treat::amount_of(treat::parse_stated_mass(text)); },
        [](std::string_view text) { season::parse_day_of_year(text); },
        read_stems,
        read_date,
    };
    return kinds;
}

// Nothing as soon as one kind of value takes the text; otherwise what the last one says.
Refusal read_value(std::string_view text) {
    Refusal refusal;
    bool well = false;
    const auto note = [&](auto&& read) {
        refusal = refusal_of(text, read);
        well = well || !refusal;
    };
    for (const auto& read : kinds_of_value()) note([&] { read(text); });
    for (std::size_t fact = 0; fact < fixed_rules().facts.size(); ++fact) {
        note([&] { read_fact(fact, text); });
    }
    return well ? std::nullopt : refusal;
}

}  // namespace

Refusal read_values(std::string_view bytes) {
    Refusal refusal;
    bool well = false;
    for (std::size_t start = 0; start <= bytes.size();) {
        const std::size_t end = std::min(bytes.find('\n', start), bytes.size());
        refusal = read_value(bytes.substr(start, end - start));
        well = well || !refusal;
        start = end + 1;
    }
    return well ? std::nullopt : refusal;
}

}  // namespace ashtriage::fuzz
