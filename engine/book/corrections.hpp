// Records that are never changed: a correction is a new record that takes the place of an old one.
// What applications, other uses and raised allowances have in common.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "book/database.hpp"
#include "book/row.hpp"
#include "book/sealed_table.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::book {

// A record as it lies in the book, with the correction that took its place, if there is one.
template <class Record>
struct Recorded {
    Record record;
    std::optional<std::int64_t> superseded_by;

    // Neither corrected nor there only to withdraw another.
    bool stands() const {
        return !superseded_by && !(record.correction && record.correction->withdraws);
    }

    friend bool operator==(const Recorded&, const Recorded&) = default;
};

using RecordedApplication = Recorded<treat::ApplicationRecord>;
using RecordedOtherUse = Recorded<treat::OtherUse>;
using RecordedRaisedAllowance = Recorded<treat::RaisedAllowance>;

// Those that stand: what was done, as it is known now.
template <class Record>
std::vector<Record> standing(std::vector<Recorded<Record>> filed) {
    std::vector<Record> records;
    for (Recorded<Record>& each : filed) {
        if (each.stands()) records.push_back(std::move(each.record));
    }
    return records;
}

// How a correction lies in five columns: supersedes, corrected_by, corrected_on, corrected_because,
// withdraws.
void add_correction(Row& row, const std::optional<treat::Correction>& correction);
std::optional<treat::Correction> read_correction(RowReader& row);

// A record's cells without its seal, the seal, and which record took its place.
struct SealedRow {
    Row cells;
    std::int64_t seal = 0;
    std::optional<std::int64_t> superseded_by;
};

// The records that `rest` (WHERE, ORDER BY ...; the table is called r there) selects, their seals
// not checked yet.
std::vector<SealedRow> select_with_successors(const Database& database, const SealedTable& table,
                                              std::string_view rest, const Row& values);

// Throws measure::InputError when the record that is corrected is not there or has been corrected
// before.
void check_correction(const Database& database, const SealedTable& table,
                      const std::optional<treat::Correction>& correction);

}  // namespace ashtriage::book
