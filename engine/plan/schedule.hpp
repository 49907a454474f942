// Which trees are to be treated when: each tree in the next window of its method, in the order in
// which the windows end.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "season/window.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

// A tree that is to be treated by a method.
struct TreatableTree {
    std::string site;
    std::string label;  // of the tree, on its site
    std::string method;
    std::optional<season::Location> location;
    std::optional<measure::Date> not_before = {};  // no window is looked for before this day
};

struct ScheduledTree {
    TreatableTree tree;
    season::NextWindow next;
    bool example_card = true;  // no card copied from a real label: nothing may be applied yet
};

// The trees by the day their window closes, then the day it opens, then site and label; trees whose
// place leaves no window come last. A tree whose window has passed is scheduled for next year's.
// Throws InputError for a method without a season or a place the seasons are not meant for; where()
// then names the tree.
std::vector<ScheduledTree> schedule(const std::vector<TreatableTree>& trees,
                                    const season::Seasons& seasons,
                                    const std::vector<treat::LabelCard>& cards,
                                    const measure::Date& as_of,
                                    const season::KnownYear& known = {});

}  // namespace ashtriage::plan
