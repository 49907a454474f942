#include "present/csv_text.hpp"

namespace ashtriage::present {

namespace {

// First characters that spreadsheets take for the start of a formula.
constexpr std::string_view formula_starts = "=+-@\t\r";

}  // namespace

std::string csv_plain_field(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string field = "\"";
    for (const char c : text) {
        if (c == '"') field += '"';
        field += c;
    }
    return field + '"';
}

std::string csv_text_field(std::string_view text) {
    std::string guarded;
    if (text.starts_with('\n')) guarded += '\'';
    bool at_start = true;
    for (const char c : text) {
        if (at_start && formula_starts.find(c) != std::string_view::npos) guarded += '\'';
        guarded += c;
        at_start = c == '\n' || c == '\r';
    }
    return csv_plain_field(guarded);
}

std::string csv_row(const std::vector<std::string>& fields) {
    std::string row;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (i > 0) row += ',';
        row += fields[i];
    }
    return row + "\r\n";
}

}  // namespace ashtriage::present
