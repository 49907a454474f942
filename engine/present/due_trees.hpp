// Which trees are due, put together from their records, walk-arounds and methods.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/due.hpp"
#include "present/assessment.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::present {

struct DueRow {
    plan::DueTree tree;
    plan::Due due;
    // Where this year's window is over: another method that fits the tree and is still in time.
    std::optional<plan::StillInTime> instead;
    std::vector<std::string> notes;
};

struct DueReport {
    measure::Date as_of;
    std::vector<DueRow> rows;        // the most urgent first, by the end of the next window
    std::vector<std::string> notes;  // on records that could not be counted
};

// A property as of a day, and the applications on it that stand in the record.
struct PropertyDue {
    PropertyAssessment property;
    std::vector<treat::ApplicationRecord> applications;
};

// The trees of the properties on a day. `wave` is where the wave of borers has got to, for all of
// them; without it a tree goes by the borer pressure that its walk-around recorded, if it did.
// Throws measure::InputError for a place that the seasons are not meant for.
DueReport due_report(const std::vector<PropertyDue>& properties, const Knowledge& knowledge,
                     const std::optional<plan::Wave>& wave, const measure::Date& as_of);

// Whether a tree waits that ought to have been treated by now.
bool any_late(const DueReport& report);

}  // namespace ashtriage::present
