// Writing CSV (RFC 4180) that a spreadsheet cannot mistake for a formula.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::present {

// A field of free text: quoted where needed, and with a leading apostrophe where its first
// character (or the first after a line break) would make a spreadsheet read it as a formula.
std::string csv_text_field(std::string_view text);

// A field that is a number, a date or a code: quoted where needed and otherwise left alone, so that
// a western longitude keeps its minus sign.
std::string csv_plain_field(std::string_view text);

// The same, added to a row that is being written.
void append_csv_text(std::string& row, std::string_view text);
void append_csv_plain(std::string& row, std::string_view text);

// What ends a row.
inline constexpr std::string_view csv_row_end = "\r\n";

// Fields that are already written, joined and ended with CRLF.
std::string csv_row(const std::vector<std::string>& fields);

}  // namespace ashtriage::present
