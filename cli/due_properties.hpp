// The properties of the book with what was applied on them: for the commands that say what is due.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "knowledge.hpp"
#include "present/due_trees.hpp"

namespace ashtriage::cli {

// Those of the site of that name, or of all sites.
std::vector<present::PropertyDue> properties_due(const Options& options, const book::Book& book,
                                                 const present::Knowledge& knowledge,
                                                 const std::string& site);

// --wave: where the wave of borers has got to.
void add_wave_option(CLI::App& command, std::string& wave);
std::optional<plan::Wave> wave_named(const std::string& name);

}  // namespace ashtriage::cli
