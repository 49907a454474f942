// Walk-arounds that were interrupted, kept so that they can be taken up again.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

// The tree need not be in the book yet.
struct Draft {
    observe::SiteId site = 0;
    std::string label;  // of the tree
    std::string answers_json;
    measure::Date updated{};

    friend bool operator==(const Draft&, const Draft&) = default;
};

// In place of an earlier draft for the same tree. Throws measure::InputError when the site is not
// in the book or the answers are not JSON.
void save_draft(Database& database, const Draft& draft);
std::optional<Draft> find_draft(const Database& database, observe::SiteId site,
                                std::string_view label);
std::vector<Draft> read_drafts(const Database& database);  // latest first
void delete_draft(Database& database, observe::SiteId site, std::string_view label);

}  // namespace ashtriage::book
