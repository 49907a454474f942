// Plain text for a terminal or a file: paragraphs wrapped to a width, and tables whose columns line
// up. Widths count characters, not bytes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::present {

inline constexpr std::size_t page_width = 80;

// How many characters a UTF-8 text has.
std::size_t width_of(std::string_view text);

// The text broken at blanks and control characters into lines of at most `width` characters, the
// first after `first`, the others after as many blanks. A word that is too long for a line gets one
// to itself. Ends with a line break.
std::string paragraph(std::string_view text, std::string_view first = {},
                      std::size_t width = page_width);

// A heading with a line of `mark` under it.
std::string underlined(std::string_view heading, char mark);
// The heading of a section, after an empty line.
std::string section_heading(std::string_view heading);

// A table of cells: each column as wide as its widest cell, two blanks between, the last column
// wrapped to what is left of the width. Nothing for no rows.
class TextTable {
 public:
    explicit TextTable(std::vector<std::string> headings) : headings_(std::move(headings)) {}

    // Throws std::invalid_argument unless the row has a cell for each heading.
    void add(std::vector<std::string> row);
    std::string text(std::size_t width = page_width) const;

 private:
    std::vector<std::string> headings_;
    std::vector<std::vector<std::string>> rows_;
};

}  // namespace ashtriage::present
