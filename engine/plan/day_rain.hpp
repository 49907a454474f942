// What a forecast says of rain in the hours that have to stay dry.
#pragma once

#include <string>

#include "measure/quantity.hpp"
#include "weather/forecast.hpp"

namespace ashtriage::plan {

enum class RainAhead {
    none,       // none is forecast, for all of it
    not_known,  // of all or a part of it nothing is known, or rain is possible
    due
};

struct RainOutlook {
    RainAhead rain = RainAhead::not_known;
    std::string words;  // a sentence or two: what is due, and of what nothing is known
};

// A chance of 50 percent or more, and an amount without a chance, count as rain that is due; a
// chance above `chance_taken` as rain that is possible, and an amount with a lower chance too. Rain
// in a period that lies only partly in the stretch is possible, no more: it may fall in the rest.
RainOutlook rain_outlook(const weather::Forecast& forecast, const weather::Stretch& dry,
                         measure::Percent chance_taken);

}  // namespace ashtriage::plan
