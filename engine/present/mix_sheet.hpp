// What to mix, carry and wear for a day, and the card for each tree: as text, and as a page to be
// printed and read at arm's length.
#pragma once

#include <string>

#include "measure/quantity.hpp"
#include "plan/carry.hpp"
#include "plan/tank_loads.hpp"
#include "present/planned_work.hpp"

namespace ashtriage::present {

struct MixAsked {
    measure::Volume tank;
    measure::Percent reserve;
    std::string water_from;  // where the water comes from; empty: to be filled in by hand
};

// The part of a day's work that is done by one card.
struct CardMix {
    treat::LabelCard card;
    std::vector<plan::DosedTree> trees;
    std::vector<plan::TankLoad> loads;  // none for a product applied as it is
    std::vector<plan::Carried> carried;
};

struct MixSheet {
    std::string site;
    measure::Date on{};
    MixAsked asked;
    std::vector<CardMix> cards;
    std::vector<std::string> wear;   // of all cards together, each once
    std::vector<PlannedTree> trees;  // those that are dosed
    std::vector<LeftOut> left_out;   // those that are not, also where a stop is
    bool example = false;            // of any card
};

// Trees whose dose or label says stop are left out, except where the only stop is that the card is
// an example: then the sheet shows how it would be, and says that nothing may be applied by it.
MixSheet mix_sheet(const PlannedWork& work, const MixAsked& asked);

std::string mix_text(const MixSheet& sheet);
std::string mix_page(const MixSheet& sheet);

}  // namespace ashtriage::present
