// The trees in a book: read, added, and their descriptions changed.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

// Throws measure::InputError when the label is taken on its site or the site is not in the book.
observe::TreeId add_tree(Database& database, const observe::Tree& tree);
// Keeps what the record said before, with the day of the change. A tree stays on its site.
void update_tree(Database& database, const observe::Tree& tree, const measure::Date& changed_on);
// In the order in which they were added.
std::vector<observe::Tree> read_trees(const Database& database, observe::SiteId site);
std::optional<observe::Tree> find_tree(const Database& database, observe::SiteId site,
                                       std::string_view label);
std::optional<observe::Tree> find_tree(const Database& database, observe::TreeId id);

}  // namespace ashtriage::book
