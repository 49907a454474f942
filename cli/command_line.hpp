// The command line as a whole: all commands, the options that go with any of them, and what a
// person is told who wrote it otherwise.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <vector>

#include "command.hpp"

namespace ashtriage::cli {

std::unique_ptr<CLI::App> command_line(Options& options, Selection& selection);

// One line on what was wrong and, where a command or an option was misspelt, the nearest one.
std::string usage_message(const CLI::App& app, const CLI::ParseError& error,
                          const std::vector<std::string>& words);

}  // namespace ashtriage::cli
