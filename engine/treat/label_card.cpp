#include "treat/label_card.hpp"

#include <algorithm>

#include "measure/units.hpp"

namespace ashtriage::treat {

std::string_view words(Application application) {
    switch (application) {
        case Application::basal_trunk_spray:
            return "basal trunk spray";
        case Application::soil_drench:
            return "soil drench";
        case Application::soil_injection:
            return "soil injection";
        case Application::trunk_injection:
            return "trunk injection";
        case Application::cover_spray:
            return "cover spray";
    }
    throw measure::InputError("This way of applying a product has no name");
}

std::string_view words(SignalWord word) {
    switch (word) {
        case SignalWord::danger:
            return "DANGER";
        case SignalWord::warning:
            return "WARNING";
        case SignalWord::caution:
            return "CAUTION";
        case SignalWord::none:
            return "none";
    }
    return {};
}

std::string_view words(CountedUse use) {
    switch (use) {
        case CountedUse::soil:
            return "soil";
        case CountedUse::bark:
            return "bark";
        case CountedUse::injection:
            return "injection";
        case CountedUse::other:
            return "other";
    }
    throw measure::InputError("This use has no name");
}

CountedUse counted_use(Application application) {
    switch (application) {
        case Application::basal_trunk_spray:
            return CountedUse::bark;
        case Application::soil_drench:
        case Application::soil_injection:
            return CountedUse::soil;
        case Application::trunk_injection:
            return CountedUse::injection;
        case Application::cover_spray:
            return CountedUse::other;
    }
    throw measure::InputError("This way of applying a product is not known");
}

std::string_view words(measure::StemRule rule) {
    switch (rule) {
        case measure::StemRule::sum:
            return "the sum of the DBH of all stems";
        case measure::StemRule::largest:
            return "the DBH of the largest stem";
        case measure::StemRule::root_of_sum_of_squares:
            return "the root of the sum of the squared DBH of all stems";
    }
    throw measure::InputError("This rule for several stems has no name");
}

bool has_active(const LabelCard& card, std::string_view active_ingredient) {
    return card.active_ingredient == active_ingredient ||
           std::ranges::find(card.other_actives, active_ingredient, &OtherActive::name) !=
               card.other_actives.end();
}

std::string example_notice(const LabelCard& card) {
    if (!card.example) return {};
    return "EXAMPLE, not a label: these amounts show the arithmetic. Copy your own label onto a "
           "card of your own before anything is applied.";
}

}  // namespace ashtriage::treat
