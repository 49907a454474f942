#include "treat/rate.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {

namespace units = measure::units;

std::string_view words(Per per) {
    switch (per) {
        case Per::inch_dbh:
            return "inch DBH";
        case Per::cm_dbh:
            return "centimetre DBH";
        case Per::inch_girth:
            return "inch of girth";
        case Per::cm_girth:
            return "centimetre of girth";
        case Per::tree:
            return "tree";
        case Per::treated_area:
            return "treated ground";
        case Per::bark_area:
            return "sprayed bark";
        case Per::finished_mix:
            return "finished mix";
    }
    throw measure::InputError("What this amount is counted by has no name");
}

Basis basis_of(Per per) {
    switch (per) {
        case Per::inch_dbh:
        case Per::inch_girth:
            return {per, units::inch.ticks, std::string(words(per))};
        case Per::cm_dbh:
        case Per::cm_girth:
            return {per, units::centimetre.ticks, std::string(words(per))};
        case Per::tree:
            return {per, 1, std::string(words(per))};
        case Per::treated_area:
        case Per::bark_area:
        case Per::finished_mix:
            break;
    }
    throw measure::InputError(fmt::format("An amount by {} needs the size it is for", words(per)),
                              {}, "Add 'each', such as 'each: 1000 sq ft' or 'each: 1 gal'.");
}

Basis basis_of(Per per, std::string_view each) {
    std::int64_t ticks = 0;
    if (per == Per::finished_mix) {
        ticks = measure::parse_volume(each).ticks();
    } else if (per == Per::treated_area || per == Per::bark_area) {
        ticks = measure::parse_area(each).ticks();
    } else {
        throw measure::InputError(
            fmt::format("An amount for each {} has no other size to be given", words(per)), {},
            "Leave 'each' out.");
    }
    if (ticks <= 0) {
        throw measure::InputError(fmt::format("'{}' is not more than zero", each), {},
                                  "Copy the size from the label.");
    }
    return {per, ticks, fmt::format("{} of {}", each, words(per))};
}

const Rate* Rates::for_dbh(measure::Length dbh) const {
    const auto line = std::ranges::find_if(
        classes, [&](const RateClass& each) { return !each.to || dbh <= *each.to; });
    return line == classes.end() ? nullptr : &line->rate;
}

}  // namespace ashtriage::treat
