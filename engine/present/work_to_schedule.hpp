// The trees of several properties as work for crews: each by its method, within the window of the
// season and of the label, with what it takes from the acre.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "plan/visits.hpp"
#include "present/assessment.hpp"
#include "present/planned_work.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

// A property and what was applied on it before.
struct PropertyToSchedule {
    PropertyAssessment property;
    treat::SiteHistory before;
};

struct NotScheduled {
    std::string site;
    std::string tree;
    std::string why;
};

struct WorkToSchedule {
    std::vector<plan::TreeToVisit> trees;
    std::vector<PlannedTree> planned;  // the dose of each, in the same order
    std::vector<plan::AcreRoom> rooms;
    std::vector<NotScheduled> not_scheduled;
    bool example = false;  // an example card stands behind some of it
};

// From the recommendations as of the day: trees that are to be treated, whose method is decided and
// has a label card, and whose label allows them on some day of the window. A tree waits for the
// first day on which its label allows it again. Whoever may apply a product of which nobody has
// said that it is for general use has to be certified.
WorkToSchedule work_to_schedule(const std::vector<PropertyToSchedule>& properties,
                                const Knowledge& knowledge);

}  // namespace ashtriage::present
