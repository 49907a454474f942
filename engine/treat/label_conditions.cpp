#include "treat/label_conditions.hpp"

#include "measure/input_error.hpp"

namespace ashtriage::treat {

bool LabelSeason::contains(const MonthDay& day) const {
    if (from <= to) return from <= day && day <= to;
    return from <= day || day <= to;
}

std::string_view words(SoilState state) {
    switch (state) {
        case SoilState::dry:
            return "dry";
        case SoilState::moist:
            return "moist";
        case SoilState::saturated:
            return "saturated";
        case SoilState::frozen:
            return "frozen";
    }
    throw measure::InputError("This state of the soil has no name");
}

}  // namespace ashtriage::treat
