// Rule tables as Markdown, with tables as GitHub reads them (GitHub Flavored Markdown, "Tables").
#pragma once

#include <string>
#include <string_view>

#include "present/rule_tables.hpp"

namespace ashtriage::present {

// A page with a heading and a table of rules for each table, then settings and sources.
std::string rule_tables_markdown(const RuleTables& shown);

// The text so that none of its characters is taken for markup, a cell's border or an HTML tag.
// Line breaks become blanks.
std::string markdown_text(std::string_view text);

}  // namespace ashtriage::present
