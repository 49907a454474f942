// What the treatment of one tree comes to: the label card for its method, the amounts, the window.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "season/window.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

struct Treatment {
    std::string method;
    std::optional<treat::LabelCard> card;  // none: no card for the method is at hand
    // With a card only; stopped where another card is for the method too, and none is an example.
    std::optional<treat::Dose> dose;
    season::NextWindow window;
};

// `stems` are the diameters of the tree's stems, `location` where it stands if that is known.
// Throws measure::InputError when the seasons have no such method or are not meant for the place.
Treatment treatment_for(std::string_view method, const std::vector<treat::LabelCard>& cards,
                        const season::Seasons& seasons, const std::vector<measure::Length>& stems,
                        const std::optional<season::Location>& location, const measure::Date& as_of,
                        const season::KnownYear& known = {});

}  // namespace ashtriage::plan
