// What was found about a day for an application, as text, CSV or JSON.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "plan/spray_day.hpp"

namespace ashtriage::present {

struct SprayDayReport {
    std::string method;
    std::string title;  // of the method
    std::string card;   // its key; empty: none is at hand
    bool example_card = false;
    weather::Stretch work;
    plan::SprayDay day;
    std::vector<std::string> notes;  // what was taken for granted
};

std::string spray_day_text(const SprayDayReport& report, const packs::RuleSet& rules);
std::string spray_day_csv(const SprayDayReport& report);
std::string spray_day_json(const SprayDayReport& report);

}  // namespace ashtriage::present
