#include "book/clients.hpp"

#include "book/earlier_descriptions.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

Row cells_of(const observe::Client& client) {
    Row row;
    row.add(client.id).add(client.name).add(client.address);
    row.add(client.telephone).add(client.email);
    return row;
}

observe::Client read_client(RowReader& row) {
    return {.id = row.integer(),
            .name = row.text(),
            .address = row.text(),
            .telephone = row.text(),
            .email = row.text()};
}

}  // namespace

observe::ClientId add_client(Database& database, const observe::Client& client) {
    observe::check(client);
    Transaction transaction{database};
    observe::Client stored = client;
    stored.id = next_id(database, clients_table().name);
    insert(database, clients_table(), cells_of(stored));
    transaction.keep();
    return stored.id;
}

void update_client(Database& database, const observe::Client& client,
                   const measure::Date& changed_on) {
    observe::check(client);
    Transaction transaction{database};
    keep_description(database, clients_table(), client.id, changed_on);
    update(database, clients_table(), cells_of(client));
    transaction.keep();
}

std::vector<observe::Client> read_clients(const Database& database) {
    return read_all(database, clients_table(), "ORDER BY name, id", {}, read_client);
}

std::optional<observe::Client> find_client(const Database& database, observe::ClientId id) {
    return read_one(database, clients_table(), "WHERE id = ?", Row{}.add(id), read_client);
}

}  // namespace ashtriage::book
