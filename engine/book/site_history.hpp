// What a book knows of earlier applications on a site, for the acre account and the intervals of a
// label.
#pragma once

#include <optional>

#include "book/book.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::book {

// From every application, other use and raised allowance of the site that stands; `without` that
// application, when it is to be corrected. The account follows what was done, never what was
// planned.
treat::SiteHistory site_history(const Book& book, observe::SiteId site,
                                std::optional<treat::ApplicationId> without = std::nullopt);

}  // namespace ashtriage::book
