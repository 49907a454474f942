// Taking a sheet of walk-arounds into a book.
#pragma once

#include <string>

#include "book/book.hpp"
#include "measure/date.hpp"
#include "observe/walk_sheet.hpp"

namespace ashtriage::book {

struct Filed {
    observe::SiteId site = 0;
    int clients_changed = 0;
    int sites_added = 0;
    int sites_changed = 0;
    int trees_added = 0;
    int trees_changed = 0;
    int walk_arounds_added = 0;
    int walk_arounds_corrected = 0;  // another one of the same tree and day, now superseded
    int walk_arounds_unchanged = 0;  // already there word for word
};

// Adds what is new, supersedes what was walked on the same day and reads otherwise, and leaves the
// rest: filing a sheet twice changes nothing the second time. What a sheet does not say about a
// client, site or tree that is already known stays as it is. `site_name` is used when the sheet
// names no site. Throws measure::InputError when no site is named, or a client is named that the
// book knows under another address or whose site it is not. Run it inside a transaction of the
// book.
Filed file_sheet(Book& book, const observe::WalkSheet& sheet, const std::string& site_name,
                 const measure::Date& filed_on);

}  // namespace ashtriage::book
