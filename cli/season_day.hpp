// season day: a command below another.
#pragma once

#include <memory>

#include "command.hpp"
#include "season_year.hpp"

namespace ashtriage::cli {

// `year` is what the options of the command above say of the place and the year.
void add_season_day(CLI::App& season, Selection& selection,
                    const std::shared_ptr<const YearOptions>& year);

}  // namespace ashtriage::cli
