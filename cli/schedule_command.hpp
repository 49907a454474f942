// The parts of `schedule`.
#pragma once

#include <memory>

#include "command.hpp"
#include "known_year.hpp"

namespace ashtriage::cli {

// `year` is what the options of the command above say of the year.
void add_schedule_crews(CLI::App& schedule, Selection& selection,
                        const std::shared_ptr<const KnownYearOptions>& year);

}  // namespace ashtriage::cli
