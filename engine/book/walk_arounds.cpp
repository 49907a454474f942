#include "book/walk_arounds.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <string>
#include <string_view>

#include "book/book_error.hpp"
#include "book/entries.hpp"
#include "book/statement.hpp"
#include "book/tables.hpp"
#include "book/transaction.hpp"
#include "measure/input_error.hpp"
#include "observe/check_records.hpp"

namespace ashtriage::book {

namespace {

constexpr std::string_view diameter = "diameter";
constexpr std::string_view girth = "girth";

Row header_of(const observe::WalkAround& walk_around) {
    Row row;
    row.add(walk_around.id).add(walk_around.tree).add(walk_around.date);
    row.add(walk_around.observer).add(walk_around.notes).add(walk_around.supersedes);
    return row;
}

Row cells_of(const observe::Stem& stem) {
    Row row;
    row.add(stem.measured == observe::StemMeasure::girth ? girth : diameter).add(stem.length);
    return row;
}

Row cells_of(const observe::Finding& finding) {
    Row row;
    row.add(finding.fact).add(finding.value);
    return row;
}

Entries stems_of(const observe::WalkAround& walk_around) {
    return entries_of(walk_around.stems, [](const observe::Stem& stem) { return cells_of(stem); });
}

Entries findings_of(const observe::WalkAround& walk_around) {
    return entries_of(walk_around.findings,
                      [](const observe::Finding& finding) { return cells_of(finding); });
}

// Everything the seal covers.
Row whole(const observe::WalkAround& walk_around) {
    Row row = header_of(walk_around);
    add_entries(row, stems_of(walk_around));
    add_entries(row, findings_of(walk_around));
    return row;
}

std::vector<observe::Stem> read_stems(const Database& database, observe::WalkAroundId id) {
    Statement select_stems{database,
                           "SELECT measured, length_nm FROM stems WHERE walk_around = ? "
                           "ORDER BY position"};
    std::vector<observe::Stem> stems;
    for (const Row& row : select_stems.rows(Row{}.add(id))) {
        RowReader reader{row, database.path()};
        const std::string measured = reader.text();
        if (measured != diameter && measured != girth) throw_damaged(database, "stem", "");
        stems.push_back({.measured = measured == girth ? observe::StemMeasure::girth
                                                       : observe::StemMeasure::diameter,
                         .length = measure::Length::from_ticks(reader.integer())});
    }
    return stems;
}

std::vector<observe::Finding> read_findings(const Database& database, observe::WalkAroundId id) {
    Statement select_findings{database,
                              "SELECT fact, value FROM findings WHERE walk_around = ? "
                              "ORDER BY position"};
    std::vector<observe::Finding> findings;
    for (const Row& row : select_findings.rows(Row{}.add(id))) {
        RowReader reader{row, database.path()};
        findings.push_back({.fact = reader.text(), .value = reader.text()});
    }
    return findings;
}

FiledWalkAround read(const Database& database, const Row& row) {
    RowReader reader{row, database.path()};
    FiledWalkAround filed{.seen = {.id = reader.integer(),
                                   .tree = reader.integer(),
                                   .date = reader.date(),
                                   .observer = reader.text(),
                                   .stems = {},
                                   .findings = {},
                                   .notes = reader.text(),
                                   .supersedes = reader.optional_integer()},
                          .superseded_by = std::nullopt};
    const std::int64_t seal = reader.integer();
    filed.superseded_by = reader.optional_integer();
    filed.seen.stems = read_stems(database, filed.seen.id);
    filed.seen.findings = read_findings(database, filed.seen.id);
    try {
        check_seal(database, whole(filed.seen), seal, walk_arounds_table().record);
    } catch (const BookError&) {
        throw;
    } catch (const measure::InputError&) {  // a text that could never have been stored
        throw_damaged(database, walk_arounds_table().record, fmt::format(" {}", filed.seen.id));
    }
    return filed;
}

std::vector<FiledWalkAround> select_walk_arounds(const Database& database, std::string_view rest,
                                                 std::int64_t key) {
    Statement select_headers{
        database, fmt::format("SELECT w.id, w.tree, w.seen_on, w.observer, w.notes, w.supersedes, "
                              "w.seal, later.id "
                              "FROM walk_arounds w "
                              "LEFT JOIN walk_arounds later ON later.supersedes = w.id {}",
                              rest)};
    std::vector<FiledWalkAround> found;
    for (const Row& row : select_headers.rows(Row{}.add(key))) {
        found.push_back(read(database, row));
    }
    return found;
}

void check_correction(const Database& database, const observe::WalkAround& correction) {
    if (!correction.supersedes) return;
    const std::optional<FiledWalkAround> corrected =
        find_walk_around(database, *correction.supersedes);
    const std::string where = database.path().string();
    if (!corrected || corrected->seen.tree != correction.tree) {
        throw measure::InputError(
            fmt::format("There is no walk-around number {} of this tree to correct",
                        *correction.supersedes),
            where, "Look up the number among the walk-arounds of the tree.");
    }
    if (corrected->superseded_by) {
        throw measure::InputError(
            fmt::format("The walk-around number {} has been corrected already, by number {}",
                        *correction.supersedes, *corrected->superseded_by),
            where,
            fmt::format("Correct the walk-around number {} instead.", *corrected->superseded_by));
    }
}

}  // namespace

observe::WalkAroundId add_walk_around(Database& database, const observe::WalkAround& walk_around) {
    observe::check(walk_around);
    Transaction transaction{database};
    require_id(database, trees_table(), walk_around.tree);
    check_correction(database, walk_around);
    observe::WalkAround stored = walk_around;
    stored.id = next_id(database, walk_arounds_table().name);
    // The walk-around itself comes last and closes it: see the schema.
    insert_entries(database, "stems", stored.id, stems_of(stored));
    insert_entries(database, "findings", stored.id, findings_of(stored));
    insert(database, walk_arounds_table(), header_of(stored), seal_of(whole(stored)));
    transaction.keep();
    return stored.id;
}

std::vector<FiledWalkAround> read_walk_arounds(const Database& database, observe::TreeId tree) {
    return select_walk_arounds(database, "WHERE w.tree = ? ORDER BY w.seen_on, w.id", tree);
}

std::optional<FiledWalkAround> find_walk_around(const Database& database,
                                                observe::WalkAroundId id) {
    std::vector<FiledWalkAround> found = select_walk_arounds(database, "WHERE w.id = ?", id);
    if (found.empty()) return std::nullopt;
    FiledWalkAround only = std::move(found.front());
    return only;
}

std::optional<observe::WalkAround> find_latest_walk_around(const Database& database,
                                                           observe::TreeId tree) {
    std::vector<FiledWalkAround> found = select_walk_arounds(
        database,
        "WHERE w.tree = ? AND later.id IS NULL ORDER BY w.seen_on DESC, w.id DESC LIMIT 1", tree);
    if (found.empty()) return std::nullopt;
    return std::move(found.front().seen);
}

}  // namespace ashtriage::book
