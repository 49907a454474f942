// Which trees are due, as text, CSV or JSON.
#pragma once

#include <string>

#include "present/due_trees.hpp"

namespace ashtriage::present {

std::string due_text(const DueReport& report, const Knowledge& knowledge);
std::string due_csv(const DueReport& report);
std::string due_json(const DueReport& report);

}  // namespace ashtriage::present
