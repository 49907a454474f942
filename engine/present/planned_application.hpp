// The record of an application as far as the plan already knows it: what is left is what only the
// day of the work can tell.
#pragma once

#include "observe/records.hpp"
#include "present/planned_work.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::present {

// Of the trees that may be treated by this card. The amounts that each tree got and that were used
// in all stay empty: they are written down at the tree, not copied from the plan. Throws
// measure::InputError for an example card, by which nothing can be recorded.
treat::ApplicationRecord planned_application(const PlannedWork& work, const observe::Client& client,
                                             const treat::LabelCard& card);

}  // namespace ashtriage::present
