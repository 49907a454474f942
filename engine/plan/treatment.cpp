#include "plan/treatment.hpp"

#include "treat/card_choice.hpp"

namespace ashtriage::plan {

Treatment treatment_for(std::string_view method, const std::vector<treat::LabelCard>& cards,
                        const season::Seasons& seasons, const std::vector<measure::Length>& stems,
                        const std::optional<season::Location>& location, const measure::Date& as_of,
                        const season::KnownYear& known) {
    Treatment treatment;
    treatment.method = method;
    if (const treat::LabelCard* card = treat::card_for_method(cards, method)) {
        treatment.card = *card;
        const auto others = treat::other_cards_for_method(cards, *card);
        if (others && others->severity == treat::Severity::stop) {
            treatment.dose = treat::Dose();
            treatment.dose->findings.push_back(*others);
        } else {
            treatment.dose = treat::dose_for(*card, {stems, treat::RateLevel::usual, {}});
        }
    }
    treatment.window = season::next_window(seasons, method, location, as_of, known);
    return treatment;
}

}  // namespace ashtriage::plan
