#include "book/sites.hpp"

#include <fmt/format.h>

#include "book/earlier_descriptions.hpp"
#include "book/position_cells.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "measure/input_error.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

Row cells_of(const observe::Site& site) {
    Row row;
    row.add(site.id).add(site.client).add(site.name).add(site.address).add(site.area);
    row.add(site.soil).add(site.distance_to_water).add(site.infestation_distance);
    row.add(site.in_quarantined_county);
    add_position(row, site.position);
    return row;
}

observe::Site read_site(RowReader& row) {
    return {.id = row.integer(),
            .client = row.integer(),
            .name = row.text(),
            .address = row.text(),
            .area = row.optional_quantity<measure::Area>(),
            .soil = row.text(),
            .distance_to_water = row.optional_quantity<measure::Length>(),
            .infestation_distance = row.optional_quantity<measure::Length>(),
            .in_quarantined_county = row.optional_flag(),
            .position = read_position(row)};
}

// Names are compared as written, so that "Mill Lane" and "mill lane" are two sites.
void check_against_book(const Database& database, const observe::Site& site) {
    observe::check(site);
    require_id(database, clients_table(), site.client);
    const std::optional<observe::Site> other = find_site(database, site.name);
    if (other && other->id != site.id) {
        throw measure::InputError(
            fmt::format("There is a site named '{}' in the book already", site.name),
            database.path().string(), "Give the new one another name, or use the one there is.");
    }
}

}  // namespace

observe::SiteId add_site(Database& database, const observe::Site& site) {
    Transaction transaction{database};
    observe::Site stored = site;
    stored.id = next_id(database, sites_table().name);
    check_against_book(database, stored);
    insert(database, sites_table(), cells_of(stored));
    transaction.keep();
    return stored.id;
}

void update_site(Database& database, const observe::Site& site, const measure::Date& changed_on) {
    Transaction transaction{database};
    check_against_book(database, site);
    keep_description(database, sites_table(), site.id, changed_on);
    update(database, sites_table(), cells_of(site));
    transaction.keep();
}

std::vector<observe::Site> read_sites(const Database& database) {
    return read_all(database, sites_table(), "ORDER BY name", {}, read_site);
}

std::optional<observe::Site> find_site(const Database& database, std::string_view name) {
    return read_one(database, sites_table(), "WHERE name = ?", Row{}.add(name), read_site);
}

std::optional<observe::Site> find_site(const Database& database, observe::SiteId id) {
    return read_one(database, sites_table(), "WHERE id = ?", Row{}.add(id), read_site);
}

}  // namespace ashtriage::book
