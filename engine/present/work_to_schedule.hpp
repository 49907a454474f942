// The trees of several properties as work for crews: each by its method, within the window of the
// season and of the label, with what it takes from the acre.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "plan/visits.hpp"
#include "present/assessment.hpp"
#include "present/due_trees.hpp"
#include "present/place_cautions.hpp"
#include "present/planned_work.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

// A property, what was applied on it before, and which of its trees are due.
struct PropertyToSchedule {
    PropertyAssessment property;
    treat::SiteHistory before;
    std::vector<DueRow> due;  // a row for each tree, in any order
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
    std::vector<NotScheduled> not_yet_due;  // in a later season
    // Planned in the window of next year, since that of this year is over; `why` says what would
    // still be in time.
    std::vector<NotScheduled> missed;
    PlaceCautions places;          // about the dates of the trees
    int not_walked_this_year = 0;  // of the trees: each is to be looked at again first
    bool example = false;          // an example card stands behind some of it
};

// From the recommendations as of the day: trees that are to be treated, whose method is decided and
// has a label card, that are due by their last treatment where that is recorded, and whose label
// allows them on some day of the window. A tree waits for the first day on which its label allows
// it again. Whoever may apply a product of which nobody has said that it is for general use has to
// be certified.
WorkToSchedule work_to_schedule(const std::vector<PropertyToSchedule>& properties,
                                const Knowledge& knowledge);

}  // namespace ashtriage::present
