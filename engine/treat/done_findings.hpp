// What the label says to an application that was done.
#pragma once

#include <map>
#include <vector>

#include "observe/records.hpp"
#include "treat/application_record.hpp"
#include "treat/label_card.hpp"
#include "treat/permission.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::treat {

// The DBH of trees of the book as it was measured on the last walk-around before the work.
using MeasuredDbh = std::map<observe::TreeId, measure::Length>;

// Every stop and warning, each said once, beginning with the tree it is about: more than the label
// allows for a tree or for all together, too soon, too often, outside its season, nearer to water,
// more than the acre takes in the year. `before` is the history of the site without this
// application. Where the record does not say the DBH of a tree, it is that of the book; where it
// gives another, that is asked about. What nobody has said cannot be held against the label, and
// for amounts that is a warning. Throws measure::InputError when product was measured out as a
// volume and the label counts by weight, or the other way round.
std::vector<Finding> findings_about_done(const ApplicationRecord& record, const LabelCard& card,
                                         const SiteHistory& before, const observe::Site& site,
                                         const MeasuredDbh& measured = {});

}  // namespace ashtriage::treat
