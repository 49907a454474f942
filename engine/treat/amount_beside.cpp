#include "treat/amount_beside.hpp"

#include <fmt/format.h>

#include "measure/units.hpp"

namespace ashtriage::treat {

namespace {

namespace units = measure::units;

bool is_metric(const measure::VolumeUnit& unit) {
    return unit.name == units::millilitre.name || unit.name == units::litre.name;
}
bool is_metric(const measure::MassUnit& unit) {
    return unit.name == units::milligram.name || unit.name == units::gram.name ||
           unit.name == units::kilogram.name;
}

}  // namespace

std::string beside(const Amount& amount, const StatedAmount& device) {
    std::string metric = plain_text(amount);
    if (is_volume(amount) != is_volume(device)) return metric;
    return std::visit(
        [&](const auto& step) {
            using Quantity = decltype(step.quantity());
            if (is_metric(step.unit)) return metric;
            std::string number =
                std::get<Quantity>(amount).text(step.unit, 2, measure::Rounding::down);
            number.erase(number.find_last_not_of('0') + 1);
            if (number.back() == '.') number.pop_back();
            return fmt::format("{} {} ({})", number,
                               number == "1" ? step.unit.name : step.unit.plural, metric);
        },
        device);
}

}  // namespace ashtriage::treat
