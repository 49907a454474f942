// What is known before any tree is looked at.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_files.hpp"
#include "plan/method_facts.hpp"
#include "season/known_year.hpp"
#include "season/seasons.hpp"
#include "treat/label_card.hpp"
#include "triage/recommend.hpp"

namespace ashtriage::present {

// The rules, the label cards, the seasons and the methods of treatment, and what is known of the
// year.
struct Knowledge {
    triage::Judge judge;
    std::vector<treat::LabelCard> cards;
    season::Seasons seasons;
    std::vector<plan::MethodFacts> methods;
    // Of the year at hand, where the trees stand; nothing known: the dates of a usual year hold.
    season::KnownYear year = {};
};

// Throws packs::BadFile with the problems of the files, and measure::InputError for a preset that
// is none.
Knowledge read_knowledge(const std::vector<packs::RuleFile>& files, const std::string& preset = {});

}  // namespace ashtriage::present
