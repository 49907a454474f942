// The clients in a book: read, added, and their descriptions changed.
#pragma once

#include <optional>
#include <vector>

#include "book/database.hpp"
#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

observe::ClientId add_client(Database& database, const observe::Client& client);
// Keeps what the record said before, with the day of the change.
void update_client(Database& database, const observe::Client& client,
                   const measure::Date& changed_on);
std::vector<observe::Client> read_clients(const Database& database);  // by name
std::optional<observe::Client> find_client(const Database& database, observe::ClientId id);

}  // namespace ashtriage::book
