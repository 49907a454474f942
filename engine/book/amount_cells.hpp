// How an amount lies in two columns, one for a volume and one for a weight, and a rate in two.
#pragma once

#include <optional>
#include <string>

#include "book/row.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::book {

inline void add_amount(Row& row, const std::optional<treat::Amount>& amount) {
    std::optional<measure::Volume> volume;
    std::optional<measure::Mass> mass;
    if (amount && treat::is_volume(*amount)) volume = treat::volume_of(*amount);
    if (amount && !treat::is_volume(*amount)) mass = treat::mass_of(*amount);
    row.add(volume).add(mass);
}

inline std::optional<treat::Amount> read_amount(RowReader& row) {
    const auto volume = row.optional_quantity<measure::Volume>();
    const auto mass = row.optional_quantity<measure::Mass>();
    if (volume) return *volume;
    if (mass) return *mass;
    return std::nullopt;
}

inline void add_rate(Row& row, const std::optional<treat::LabelledRate>& rate) {
    std::optional<std::string> amount;
    std::optional<std::string> per;
    if (rate) {
        amount = rate->amount;
        per = rate->per;
    }
    row.add(amount).add(per);
}

inline std::optional<treat::LabelledRate> read_rate(RowReader& row) {
    const std::optional<std::string> amount = row.optional_text();
    const std::optional<std::string> per = row.optional_text();
    if (!amount) return std::nullopt;
    return treat::LabelledRate{*amount, per.value_or("")};
}

}  // namespace ashtriage::book
