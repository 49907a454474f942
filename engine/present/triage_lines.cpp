#include "present/triage_lines.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/applicability.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/triage_row.hpp"
#include "present/words.hpp"
#include "season/hopkins.hpp"
#include "triage/sheet_entries.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

constexpr std::size_t diameters_remembered = 4096;
constexpr std::size_t dates_remembered = 1024;
constexpr std::size_t most_texts = 4096;  // of one kind; then they are forgotten

const reason::Table& table_of(const triage::Judge& judge, std::string_view name) {
    const reason::Model& model = judge.rules().model;
    return model.tables[*model.find_table(name)];  // a judge has all that it needs
}

std::vector<std::string> names_of(const reason::Table& table, reason::LevelSet outcomes) {
    std::vector<std::string> names;
    for (reason::OutcomeIndex outcome = 0; outcome < table.gives.size(); ++outcome) {
        if (reason::has_level(outcomes, outcome)) names.push_back(table.gives[outcome]);
    }
    return names;
}

// No control character, so that it may be a label or a place.
bool is_plain_line(std::string_view text) {
    return std::ranges::none_of(
        text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

// The text for a set of outcomes, from `work()` when it was not asked for before.
template <class Work>
const std::string& remembered(std::map<reason::LevelSet, std::string>& texts,
                              reason::LevelSet outcomes, Work&& work) {
    const auto known = texts.find(outcomes);
    if (known != texts.end()) return known->second;
    if (texts.size() >= most_texts) texts.clear();
    return texts.emplace(outcomes, std::forward<Work>(work)()).first->second;
}

}  // namespace

TriageLines::TriageLines(const Knowledge& knowledge, const triage::WalkSheetRows& rows,
                         const measure::Date& as_of)
    : knowledge_(&knowledge),
      rows_(&rows),
      as_of_(as_of),
      as_of_text_(measure::text(as_of)),
      recommendation_(&table_of(knowledge.judge, triage::table::recommendation)),
      evidence_(&table_of(knowledge.judge, triage::table::evidence)),
      hazard_(&table_of(knowledge.judge, triage::table::hazard)),
      working_out_(knowledge.judge.rules()),
      verdicts_(knowledge.judge),
      because_(knowledge.judge,
               *knowledge.judge.rules().model.find_table(triage::table::recommendation)),
      dates_(dates_remembered),
      nothing_known_(knowledge.judge.engine().nothing_known()) {
    for (const std::string& name : rows.header().names()) columns_.push_back(column_for(name));
}

TriageLines::Column TriageLines::column_for(const std::string& name) {
    namespace column = triage::column;
    static constexpr std::array<std::pair<std::string_view, Kind>, 8> own{
        {{column::tree, Kind::tree},
         {column::place, Kind::place},
         {column::date, Kind::date},
         {column::latitude, Kind::latitude},
         {column::longitude, Kind::longitude},
         {column::stems, Kind::stems},
         {column::dbh, Kind::stems},
         {column::girth, Kind::stems}}};
    const std::string written = packs::normalised(name);
    const auto is_it = [&](std::string_view called) {
        return packs::normalised(called) == written;
    };
    const auto* const known =
        std::ranges::find_if(own, [&](const auto& c) { return is_it(c.first); });
    if (known != own.end()) {
        if (known->second == Kind::stems) dbh_readers_.emplace_back(diameters_remembered);
        return {known->second, known->first, dbh_readers_.size() - 1, 0};
    }
    const auto fact = std::ranges::find_if(rows_->facts(), is_it);
    if (fact == rows_->facts().end()) return {};
    const packs::RuleSet& rules = knowledge_->judge.rules();
    const reason::FactIndex index = *rules.model.find_fact(*fact);
    value_readers_.emplace_back(rules.model.facts[index], rules.facts[index]);
    return {Kind::fact, {}, value_readers_.size() - 1, index};
}

bool TriageLines::append(const packs::CsvBlock& block, const packs::CsvBlock::Row& row,
                         bool repeated, std::string& lines, packs::Problems& problems) {
    if (!repeated && row.fields == columns_.size()) {
        try {
            if (append_at_once(block, row, lines)) return true;
        } catch (const measure::InputError&) {
            // Told below, with everything else that is wrong with the row.
        }
    }
    return append_in_general(packs::row_of(block, row, rows_->header()), repeated, lines, problems);
}

// False, or an InputError, when the row has to be looked at in general; nothing is added then.
bool TriageLines::append_at_once(const packs::CsvBlock& block, const packs::CsvBlock::Row& row,
                                 std::string& lines) {
    values_ = nothing_known_;
    Cells cells;
    cells.date = as_of_text_;
    if (!read_cells(block, row, cells) || cells.tree.empty()) return false;
    if (!position_can_be_used(cells) || !complete_values(cells)) return false;

    const triage::Verdict verdict = verdicts_.on(values_);
    TriageRow line;
    line.tree = cells.tree;
    line.date = cells.date;
    if (cells.dbh != nullptr) line.dbh_inches = cells.dbh->text;
    line.recommendation = outcomes_text(verdict.possible);
    line.standing =
        standing(static_cast<std::size_t>(std::popcount(verdict.possible)), verdict.firm);
    line.within_eye_error = within_text(verdict.within_error);
    if (verdict.evidence) line.evidence = evidence_->gives[*verdict.evidence];
    line.flags = flags_text(verdict.flags);
    if (verdict.deciding_rule) {
        line.deciding_rule = recommendation_->rules[*verdict.deciding_rule].id;
        line.because = because_.of(*verdict.deciding_rule, values_);
    }
    append_triage_row(lines, line);
    return true;
}

bool TriageLines::read_cells(const packs::CsvBlock& block, const packs::CsvBlock::Row& row,
                             Cells& cells) {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        const Column& column = columns_[i];
        if (column.kind == Kind::passed_over) continue;
        const std::string_view text = packs::trimmed(block.field(row, i));
        if (text.empty()) continue;
        switch (column.kind) {
            case Kind::tree:
                if (!is_plain_line(text)) return false;
                cells.tree = text;
                break;
            case Kind::place:
                if (!is_plain_line(text)) return false;
                break;
            case Kind::date:
                if (!read_date(text, cells)) return false;
                break;
            case Kind::latitude:
                cells.latitude = text;
                break;
            case Kind::longitude:
                cells.longitude = text;
                break;
            case Kind::stems:
                if (!read_dbh(column, text, cells)) return false;
                break;
            case Kind::fact:
                values_[column.fact] = value_readers_[column.reader].read(text);
                break;
            case Kind::passed_over:
                break;
        }
    }
    return true;
}

bool TriageLines::read_date(std::string_view text, Cells& cells) {
    if (dates_.find(text) == nullptr) {
        if (measure::parse_date(text) > as_of_) return false;
        dates_.keep(text, true);
    }
    cells.date = text;  // dates are read in the one form in which they are written
    return true;
}

bool TriageLines::read_dbh(const Column& column, std::string_view text, Cells& cells) {
    if (cells.dbh != nullptr) return false;
    DbhMemory& memory = dbh_readers_[column.reader];
    cells.dbh = memory.find(text);
    if (cells.dbh != nullptr) return true;
    const auto dbh =
        measure::combined_diameter(triage::diameters_of(triage::stems_in(column.name, text)),
                                   measure::StemRule::root_of_sum_of_squares);
    dbh_ = {dbh, dbh_cell(dbh)};
    memory.keep(text, dbh_);
    cells.dbh = &dbh_;
    return true;
}

// A place that the seasons are not meant for may have to be refused.
bool TriageLines::position_can_be_used(const Cells& cells) const {
    if (cells.latitude.empty() && cells.longitude.empty()) return true;
    if (cells.latitude.empty() || cells.longitude.empty()) return false;
    const season::Location location{
        triage::parse_degrees(cells.latitude, 90), triage::parse_degrees(cells.longitude, 180), {}};
    if (location.latitude == 0.0 && location.longitude == 0.0) return false;
    static_cast<void>(season::hopkins_days(knowledge_->seasons.anchor, location));
    return true;
}

// The same steps as triage::tree_facts takes after the entries.
bool TriageLines::complete_values(const Cells& cells) {
    const packs::RuleSet& rules = knowledge_->judge.rules();
    if (!packs::contradictions(rules, values_).empty()) return false;
    if (cells.dbh != nullptr && !triage::enter_dbh(rules, cells.dbh->dbh, values_)) return false;
    working_out_.fill_in(values_, nullptr);
    values_ = packs::with_applicability(rules, std::move(values_));
    return true;
}

bool TriageLines::append_in_general(const packs::CsvRow& row, bool repeated, std::string& lines,
                                    packs::Problems& problems) const {
    const std::size_t before = problems.size();
    const observe::SheetTree entry = rows_->read(row, problems);
    if (repeated && !entry.tree.label.empty()) rows_->refuse_repeated(row, problems);
    if (problems.size() > before) return false;
    try {
        triage::check(entry, as_of_);
        append_triage_row(lines, assess_tree(*knowledge_, nullptr, entry.tree, entry.walk_around,
                                             nullptr, as_of_));
        return true;
    } catch (const measure::InputError& error) {
        problems.add({"bad-row",
                      rows_->file(),
                      {row.line, 0},
                      "Row " + std::to_string(row.number) + ": " + error.what(),
                      error.hint(),
                      {}});
        return false;
    }
}

const std::string& TriageLines::outcomes_text(reason::LevelSet possible) {
    return remembered(outcomes_texts_, possible,
                      [&] { return outcome_cell(names_of(*recommendation_, possible)); });
}

const std::string& TriageLines::within_text(reason::LevelSet outcomes) {
    return remembered(within_texts_, outcomes,
                      [&] { return within_cell(names_of(*recommendation_, outcomes)); });
}

const std::string& TriageLines::flags_text(reason::LevelSet flags) {
    return remembered(flags_texts_, flags,
                      [&] { return flag_list(names_of(*hazard_, flags), "; "); });
}

}  // namespace ashtriage::present
