// season day: a command below another.
#pragma once

#include <functional>
#include <optional>

#include "command.hpp"
#include "season/hopkins.hpp"

namespace ashtriage::cli {

// `place` is where the trees stand, by the options of the command above.
void add_season_day(CLI::App& season, Selection& selection,
                    std::function<std::optional<season::Location>(const Options&)> place);

}  // namespace ashtriage::cli
