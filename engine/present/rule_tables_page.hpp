// Rule tables as one self-contained page (HTML) that reads on a phone and prints on paper.
#pragma once

#include <string>

#include "present/rule_tables.hpp"

namespace ashtriage::present {

std::string rule_tables_page(const RuleTables& shown);

}  // namespace ashtriage::present
