// What is known before any tree is looked at.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_files.hpp"
#include "plan/method_facts.hpp"
#include "season/seasons.hpp"
#include "treat/label_card.hpp"
#include "triage/recommend.hpp"

namespace ashtriage::present {

// The rules, the label cards, the seasons and the methods of treatment.
struct Knowledge {
    triage::Judge judge;
    std::vector<treat::LabelCard> cards;
    season::Seasons seasons;
    std::vector<plan::MethodFacts> methods;
};

// Throws packs::BadFile with the problems of the files, and measure::InputError for a preset that
// is none.
Knowledge read_knowledge(const std::vector<packs::RuleFile>& files, const std::string& preset = {});

}  // namespace ashtriage::present
