// Trees that no crew is planned for although the book knows them, with what is known of their work.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "present/work_to_schedule.hpp"

namespace ashtriage::present {

struct TreeWithoutADay {
    NotScheduled tree;
    bool is_due = true;       // false: in a later season
    std::string method = {};  // empty: none is decided
    std::optional<int> priority = {};
    // Of its next window; none where it has no method, or is due in a later season.
    std::optional<measure::Date> opens = {};
    std::optional<measure::Date> best_until = {};
    std::optional<measure::Date> closes = {};
    std::optional<season::Location> place = {};
};

// Those not scheduled, then those not yet due.
std::vector<TreeWithoutADay> trees_without_a_day(const std::vector<PropertyToSchedule>& properties,
                                                 const WorkToSchedule& work,
                                                 const Knowledge& knowledge);

}  // namespace ashtriage::present
