// What the record of a client, site or tree said before its description was changed.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "book/database.hpp"
#include "book/sealed_table.hpp"
#include "measure/date.hpp"

namespace ashtriage::book {

struct EarlierDescription {
    measure::Date changed_on{};  // the day on which it stopped being so
    std::string description;     // JSON: one object, column names as in the table

    friend bool operator==(const EarlierDescription&, const EarlierDescription&) = default;
};

// Puts away the record with this id as it is now. Throws measure::InputError when there is none.
void keep_description(Database& database, const SealedTable& table, std::int64_t id,
                      const measure::Date& changed_on);

// Oldest first.
std::vector<EarlierDescription> read_earlier(const Database& database, const SealedTable& table,
                                             std::int64_t id);

}  // namespace ashtriage::book
