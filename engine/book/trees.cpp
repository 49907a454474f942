#include "book/trees.hpp"

#include <fmt/format.h>

#include "book/earlier_descriptions.hpp"
#include "book/position_cells.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "measure/input_error.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

Row cells_of(const observe::Tree& tree) {
    Row row;
    row.add(tree.id).add(tree.site).add(tree.label).add(tree.place);
    add_position(row, tree.position);
    return row;
}

observe::Tree read_tree(RowReader& row) {
    return {.id = row.integer(),
            .site = row.integer(),
            .label = row.text(),
            .place = row.text(),
            .position = read_position(row)};
}

void check_against_book(const Database& database, const observe::Tree& tree) {
    observe::check(tree);
    require_id(database, sites_table(), tree.site);
    const std::optional<observe::Tree> other = find_tree(database, tree.site, tree.label);
    if (other && other->id != tree.id) {
        throw measure::InputError(
            fmt::format("There is a tree labelled '{}' on this site already", tree.label),
            database.path().string(), "Give the new one another label, or use the one there is.");
    }
}

}  // namespace

observe::TreeId add_tree(Database& database, const observe::Tree& tree) {
    Transaction transaction{database};
    observe::Tree stored = tree;
    stored.id = next_id(database, trees_table().name);
    check_against_book(database, stored);
    insert(database, trees_table(), cells_of(stored));
    transaction.keep();
    return stored.id;
}

void update_tree(Database& database, const observe::Tree& tree, const measure::Date& changed_on) {
    Transaction transaction{database};
    check_against_book(database, tree);
    const std::optional<observe::Tree> before = find_tree(database, tree.id);
    if (before && before->site != tree.site) {
        throw measure::InputError(
            fmt::format("The tree '{}' cannot be moved to another site", before->label),
            database.path().string(), "Record it as a new tree on the other site.");
    }
    keep_description(database, trees_table(), tree.id, changed_on);
    update(database, trees_table(), cells_of(tree));
    transaction.keep();
}

std::vector<observe::Tree> read_trees(const Database& database, observe::SiteId site) {
    return read_all(database, trees_table(), "WHERE site = ? ORDER BY id", Row{}.add(site),
                    read_tree);
}

std::optional<observe::Tree> find_tree(const Database& database, observe::SiteId site,
                                       std::string_view label) {
    return read_one(database, trees_table(), "WHERE site = ? AND label = ?",
                    Row{}.add(site).add(label), read_tree);
}

std::optional<observe::Tree> find_tree(const Database& database, observe::TreeId id) {
    return read_one(database, trees_table(), "WHERE id = ?", Row{}.add(id), read_tree);
}

}  // namespace ashtriage::book
