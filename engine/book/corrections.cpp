#include "book/corrections.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>

#include "book/statement.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {

void add_correction(Row& row, const std::optional<treat::Correction>& correction) {
    std::optional<std::int64_t> supersedes;
    std::optional<std::string> by;
    std::optional<measure::Date> on;
    std::optional<std::string> because;
    std::optional<bool> withdraws;
    if (correction) {
        supersedes = correction->of;
        by = correction->by;
        on = correction->on;
        because = correction->why;
        withdraws = correction->withdraws;
    }
    row.add(supersedes).add(by).add(on).add(because).add(withdraws);
}

std::optional<treat::Correction> read_correction(RowReader& row) {
    const std::optional<std::int64_t> supersedes = row.optional_integer();
    const std::optional<std::string> by = row.optional_text();
    const std::optional<measure::Date> on = row.optional_date();
    const std::optional<std::string> because = row.optional_text();
    const std::optional<bool> withdraws = row.optional_flag();
    if (!supersedes) return std::nullopt;
    return treat::Correction{*supersedes, by.value_or(""), on.value_or(measure::Date{}),
                             because.value_or(""), withdraws.value_or(false)};
}

std::vector<SealedRow> select_with_successors(const Database& database, const SealedTable& table,
                                              std::string_view rest, const Row& values) {
    Statement select_rows{
        database, fmt::format("SELECT r.{}, r.seal, later.id FROM {} r "
                              "LEFT JOIN {} later ON later.supersedes = r.id {}",
                              fmt::join(table.columns, ", r."), table.name, table.name, rest)};
    std::vector<SealedRow> found;
    for (const Row& row : select_rows.rows(values)) {
        std::vector<Cell> cells = row.cells();
        const Row ends{{cells.end() - 2, cells.end()}};
        cells.resize(cells.size() - 2);
        RowReader reader{ends, database.path()};
        const std::int64_t seal = reader.integer();
        found.push_back({Row{std::move(cells)}, seal, reader.optional_integer()});
    }
    return found;
}

void check_correction(const Database& database, const SealedTable& table,
                      const std::optional<treat::Correction>& correction) {
    if (!correction) return;
    const std::string where = database.path().string();
    const auto found =
        select_with_successors(database, table, "WHERE r.id = ?", Row{}.add(correction->of));
    if (found.empty()) {
        throw measure::InputError(
            fmt::format("There is no {} number {} to correct", table.record, correction->of), where,
            "Look up its number.");
    }
    if (const auto later = found.front().superseded_by) {
        throw measure::InputError(
            fmt::format("The {} number {} has been corrected already, by number {}", table.record,
                        correction->of, *later),
            where, fmt::format("Correct number {} instead.", *later));
    }
}

}  // namespace ashtriage::book
