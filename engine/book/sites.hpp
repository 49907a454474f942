// The sites in a book: read, added, and their descriptions changed.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

// Throws measure::InputError when the name is taken or the client is not in the book.
observe::SiteId add_site(Database& database, const observe::Site& site);
// Keeps what the record said before, with the day of the change.
void update_site(Database& database, const observe::Site& site, const measure::Date& changed_on);
std::vector<observe::Site> read_sites(const Database& database);  // by name
std::optional<observe::Site> find_site(const Database& database, std::string_view name);
std::optional<observe::Site> find_site(const Database& database, observe::SiteId id);

}  // namespace ashtriage::book
