#include "present/csv_text.hpp"

#include <algorithm>

namespace ashtriage::present {

namespace {

// First characters that spreadsheets take for the start of a formula.
constexpr std::string_view formula_starts = "=+-@\t\r";

// Looked up one by one, since fields are short and most have none of them.
bool needs_quotation_marks(std::string_view text) {
    return std::ranges::any_of(
        text, [](char c) { return c == ',' || c == '"' || c == '\r' || c == '\n'; });
}

}  // namespace

void append_csv_plain(std::string& row, std::string_view text) {
    if (!needs_quotation_marks(text)) {
        row += text;
        return;
    }
    row += '"';
    for (const char c : text) {
        if (c == '"') row += '"';
        row += c;
    }
    row += '"';
}

void append_csv_text(std::string& row, std::string_view text) {
    // A guard can be needed at the very beginning and after a line break only.
    const bool guard_at_start =
        !text.empty() &&
        (text.front() == '\n' || formula_starts.find(text.front()) != std::string_view::npos);
    const bool line_break =
        std::ranges::any_of(text, [](char c) { return c == '\r' || c == '\n'; });
    if (!guard_at_start && !line_break) {
        append_csv_plain(row, text);
        return;
    }
    std::string guarded;
    if (text.starts_with('\n')) guarded += '\'';
    bool at_start = true;
    for (const char c : text) {
        if (at_start && formula_starts.find(c) != std::string_view::npos) guarded += '\'';
        guarded += c;
        at_start = c == '\n' || c == '\r';
    }
    append_csv_plain(row, guarded);
}

std::string csv_plain_field(std::string_view text) {
    std::string field;
    append_csv_plain(field, text);
    return field;
}

std::string csv_text_field(std::string_view text) {
    std::string field;
    append_csv_text(field, text);
    return field;
}

std::string csv_row(const std::vector<std::string>& fields) {
    std::string row;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (i > 0) row += ',';
        row += fields[i];
    }
    row += csv_row_end;
    return row;
}

}  // namespace ashtriage::present
