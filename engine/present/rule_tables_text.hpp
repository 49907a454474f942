// Rule tables as plain text, for a terminal or a file.
#pragma once

#include <string>

#include "present/rule_tables.hpp"

namespace ashtriage::present {

// Every table with its rules one below the other, then settings and sources; 80 characters wide.
std::string rule_tables_text(const RuleTables& shown);

// A condition as a list: the first line after `first`, the others as far in, parts indented.
std::string condition_lines(const WordedCondition& condition, std::string_view first);

}  // namespace ashtriage::present
