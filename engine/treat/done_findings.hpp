// What the label says to an application that was done.
#pragma once

#include <vector>

#include "observe/records.hpp"
#include "treat/application_record.hpp"
#include "treat/label_card.hpp"
#include "treat/permission.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::treat {

// Every stop and warning, each said once, beginning with the tree it is about: more than the label
// allows for a tree or for all together, too soon, too often, outside its season, nearer to water,
// more than the acre takes in the year. `before` is the history of the site without this
// application. What the record does not say cannot be held against the label, and is left out here.
// Throws measure::InputError when product was measured out as a volume and the label counts by
// weight, or the other way round.
std::vector<Finding> findings_about_done(const ApplicationRecord& record, const LabelCard& card,
                                         const SiteHistory& before, const observe::Site& site);

}  // namespace ashtriage::treat
