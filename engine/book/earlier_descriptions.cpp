#include "book/earlier_descriptions.hpp"

#include <nlohmann/json.hpp>
#include <string>
#include <variant>

#include "book/tables.hpp"

namespace ashtriage::book {

namespace {

using Json = nlohmann::ordered_json;

std::string json_of(const SealedTable& table, const Row& row) {
    Json object = Json::object();
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        Json& member = object[std::string{table.columns[i]}];
        const Cell& cell = row.cells()[i];
        if (const auto* number = std::get_if<std::int64_t>(&cell)) member = *number;
        if (const auto* real = std::get_if<double>(&cell)) member = *real;
        if (const auto* text = std::get_if<std::string>(&cell)) member = *text;
    }
    return object.dump();
}

}  // namespace

void keep_description(Database& database, const SealedTable& table, std::int64_t id,
                      const measure::Date& changed_on) {
    require_id(database, table, id);
    const std::vector<Row> now = select(database, table, "WHERE id = ?", Row{}.add(id));
    Row row;
    row.add(next_id(database, earlier_descriptions_table().name)).add(table.record).add(id);
    row.add(changed_on).add(json_of(table, now.front()));
    insert(database, earlier_descriptions_table(), row);
}

std::vector<EarlierDescription> read_earlier(const Database& database, const SealedTable& table,
                                             std::int64_t id) {
    return read_all(
        database, earlier_descriptions_table(), "WHERE kind = ? AND record = ? ORDER BY id",
        Row{}.add(table.record).add(id), [](RowReader& row) {
            row.integer();  // its own id
            row.text();     // the kind and
            row.integer();  // id that were asked for
            return EarlierDescription{.changed_on = row.date(), .description = row.text()};
        });
}

}  // namespace ashtriage::book
