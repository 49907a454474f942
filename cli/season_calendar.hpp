// season calendar: a command below another.
#pragma once

#include "command.hpp"

namespace ashtriage::cli {

void add_season_calendar(CLI::App& season, Selection& selection);

}  // namespace ashtriage::cli
