#include "book/uses.hpp"

#include <utility>

#include "book/applications.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "treat/check_application.hpp"

namespace ashtriage::book {

namespace {

Row cells_of(const treat::OtherUse& use) {
    Row row;
    row.add(use.id).add(use.site).add(use.active_ingredient).add(use.mass).add(use.date);
    row.add(use.what).add(counted_word(use.counted_as));
    add_correction(row, use.correction);
    return row;
}

Row cells_of(const treat::RaisedAllowance& allowance) {
    Row row;
    row.add(allowance.id).add(allowance.site).add(allowance.active_ingredient);
    row.add(allowance.per_acre).add(allowance.reference).add(allowance.jurisdiction);
    row.add(allowance.expires).add(allowance.confirmed_by).add(allowance.confirmed_on);
    add_correction(row, allowance.correction);
    return row;
}

treat::OtherUse read_other_use(RowReader& row, const Database& database) {
    treat::OtherUse use;
    use.id = row.integer();
    use.site = row.integer();
    use.active_ingredient = row.text();
    use.mass = measure::Mass::from_ticks(row.integer());
    use.date = row.date();
    use.what = row.text();
    use.counted_as = read_counted_use(row.text(), database);
    use.correction = read_correction(row);
    return use;
}

treat::RaisedAllowance read_raised_allowance(RowReader& row, const Database&) {
    treat::RaisedAllowance allowance;
    allowance.id = row.integer();
    allowance.site = row.integer();
    allowance.active_ingredient = row.text();
    allowance.per_acre = measure::Mass::from_ticks(row.integer());
    allowance.reference = row.text();
    allowance.jurisdiction = row.text();
    allowance.expires = row.date();
    allowance.confirmed_by = row.text();
    allowance.confirmed_on = row.date();
    allowance.correction = read_correction(row);
    return allowance;
}

template <class Record>
std::int64_t add_record(Database& database, const SealedTable& table, const Record& record) {
    treat::check(record);
    Transaction transaction{database};
    require_id(database, sites_table(), record.site);
    check_correction(database, table, record.correction);
    Record stored = record;
    stored.id = next_id(database, table.name);
    insert(database, table, cells_of(stored));
    transaction.keep();
    return stored.id;
}

template <class Read>
auto read_filed(const Database& database, const SealedTable& table, std::string_view rest,
                const Row& values, Read read_record) {
    using Record = decltype(read_record(std::declval<RowReader&>(), database));
    std::vector<Recorded<Record>> found;
    for (const SealedRow& row : select_with_successors(database, table, rest, values)) {
        check_seal(database, row.cells, row.seal, table.record);
        RowReader reader{row.cells, database.path()};
        found.push_back({read_record(reader, database), row.superseded_by});
    }
    return found;
}

template <class Record>
std::optional<Recorded<Record>> only(std::vector<Recorded<Record>> found) {
    std::optional<Recorded<Record>> first;
    if (!found.empty()) first = std::move(found.front());
    return first;
}

}  // namespace

treat::OtherUseId add_other_use(Database& database, const treat::OtherUse& use) {
    return add_record(database, other_uses_table(), use);
}

treat::RaisedAllowanceId add_raised_allowance(Database& database,
                                              const treat::RaisedAllowance& allowance) {
    return add_record(database, raised_allowances_table(), allowance);
}

std::vector<RecordedOtherUse> read_other_uses(const Database& database, observe::SiteId site) {
    return read_filed(database, other_uses_table(), "WHERE r.site = ? ORDER BY r.used_on, r.id",
                      Row{}.add(site), read_other_use);
}

std::optional<RecordedOtherUse> find_other_use(const Database& database, treat::OtherUseId id) {
    return only(
        read_filed(database, other_uses_table(), "WHERE r.id = ?", Row{}.add(id), read_other_use));
}

std::vector<RecordedRaisedAllowance> read_raised_allowances(const Database& database,
                                                            observe::SiteId site) {
    return read_filed(database, raised_allowances_table(),
                      "WHERE r.site = ? ORDER BY r.confirmed_on, r.id", Row{}.add(site),
                      read_raised_allowance);
}

std::optional<RecordedRaisedAllowance> find_raised_allowance(const Database& database,
                                                             treat::RaisedAllowanceId id) {
    return only(read_filed(database, raised_allowances_table(), "WHERE r.id = ?", Row{}.add(id),
                           read_raised_allowance));
}

}  // namespace ashtriage::book
