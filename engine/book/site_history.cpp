#include "book/site_history.hpp"

namespace ashtriage::book {

treat::SiteHistory site_history(const Book& book, observe::SiteId site,
                                std::optional<treat::ApplicationId> without) {
    treat::SiteHistory history;
    for (const treat::ApplicationRecord& record : standing(book.applications(site))) {
        if (record.id != without) add_application(history, record);
    }
    for (const treat::OtherUse& use : standing(book.other_uses(site))) {
        history.spent.push_back(spent_by(use));
    }
    for (const treat::RaisedAllowance& allowance : standing(book.raised_allowances(site))) {
        history.raised.push_back(limit_of(allowance));
    }
    return history;
}

}  // namespace ashtriage::book
