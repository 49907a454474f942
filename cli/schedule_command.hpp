// The parts of `schedule`.
#pragma once

#include "command.hpp"

namespace ashtriage::cli {

void add_schedule_crews(CLI::App& schedule, Selection& selection);

}  // namespace ashtriage::cli
