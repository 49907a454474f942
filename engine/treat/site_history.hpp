// What was applied on a site before: what the acre account and the label's intervals go by.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "observe/records.hpp"
#include "treat/acre_account.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::treat {

struct SiteHistory {
    struct OnTree {
        observe::TreeId tree = 0;
        std::string active_ingredient;
        measure::Date on{};
    };
    // An application of which nobody has written down how much active ingredient it took, or how it
    // counts. Until somebody does, the account of these active ingredients cannot be told; where
    // none is named, that of any.
    struct Untold {
        ApplicationId application = 0;
        measure::Date on{};
        std::vector<std::string> active_ingredients;

        bool may_concern(const std::string& active_ingredient) const;
    };

    std::vector<SpentActive> spent;
    std::vector<OnTree> on_trees;
    std::vector<RaisedLimit> raised;
    std::vector<Untold> untold;
};

// What a record that stands adds to the history of its site.
void add_application(SiteHistory& history, const ApplicationRecord& record);

// Why the account of the active ingredient in that year cannot be told; empty when it can.
std::string untold_words(const SiteHistory& history, const std::string& active_ingredient,
                         std::chrono::year year);

// The days on which the tree had an active ingredient of the card.
std::vector<measure::Date> days_on_tree(const SiteHistory& history, observe::TreeId tree,
                                        const LabelCard& card);

}  // namespace ashtriage::treat
