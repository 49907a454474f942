#include "present/text_layout.hpp"

#include <algorithm>
#include <stdexcept>

namespace ashtriage::present {

namespace {

std::string padded(std::string_view text, std::size_t width) {
    std::string cell(text);
    const std::size_t has = width_of(text);
    if (has < width) cell.append(width - has, ' ');
    return cell;
}

// Control characters that came with a text must not reach the terminal.
bool is_blank(char c) {
    return static_cast<unsigned char>(c) <= 0x20 || c == 0x7F;
}

std::string without_trailing_blanks(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

}  // namespace

std::size_t width_of(std::string_view text) {
    // Every byte but the continuation bytes of UTF-8 begins a character.
    return static_cast<std::size_t>(std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string paragraph(std::string_view text, std::string_view first, std::size_t width) {
    const std::string indent(width_of(first), ' ');
    std::string result;
    std::string line(first);
    bool line_has_word = false;
    while (true) {
        const auto start = std::ranges::find_if_not(text, is_blank);
        if (start == text.end()) break;
        const std::string_view word(start, std::find_if(start, text.end(), is_blank));
        text = std::string_view(word.end(), text.end());

        if (line_has_word && width_of(line) + 1 + width_of(word) > width) {
            result += line + '\n';
            line = indent;
            line_has_word = false;
        }
        if (line_has_word) line += ' ';
        line += word;
        line_has_word = true;
    }
    return result + without_trailing_blanks(line) + '\n';
}

std::string underlined(std::string_view heading, char mark) {
    return std::string(heading) + "\n" + std::string(width_of(heading), mark) + "\n";
}

std::string section_heading(std::string_view heading) {
    return "\n" + underlined(heading, '-');
}

void TextTable::add(std::vector<std::string> row) {
    if (row.size() != headings_.size()) {
        throw std::invalid_argument("a table row has another number of cells than headings");
    }
    rows_.push_back(std::move(row));
}

std::string TextTable::text(std::size_t width) const {
    if (rows_.empty()) return {};
    std::vector<std::size_t> widths;
    for (std::size_t column = 0; column < headings_.size(); ++column) {
        std::size_t widest = width_of(headings_[column]);
        for (const auto& row : rows_) widest = std::max(widest, width_of(row[column]));
        widths.push_back(widest);
    }
    std::string result;
    const auto add_line = [&](const std::vector<std::string>& cells) {
        std::string front;
        for (std::size_t column = 0; column + 1 < cells.size(); ++column) {
            front += padded(cells[column], widths[column]) + "  ";
        }
        result += paragraph(cells.back(), front, width);
    };
    add_line(headings_);
    std::vector<std::string> rules;
    for (std::size_t column = 0; column < widths.size(); ++column) {
        const bool last = column + 1 == widths.size();
        rules.emplace_back(last ? width_of(headings_[column]) : widths[column], '-');
    }
    add_line(rules);
    for (const auto& row : rows_) add_line(row);
    return result;
}

}  // namespace ashtriage::present
