// What may be said of a day's work: which trees, by which card, at which rate.
#pragma once

#include <string>
#include <vector>

#include "command.hpp"
#include "present/planned_work.hpp"

namespace ashtriage::cli {

struct WorkOptions {
    std::vector<std::string> trees;
    std::string site;
    std::string card;
    std::string rate = "usual";
    std::string area;
    std::vector<std::string> mixed_with;
    bool certified = false;
    bool food_tree = false;
};

void add_work_options(CLI::App& command, WorkOptions& asked);

treat::RateLevel rate_named(const std::string& name);

// What is asked for, read. Throws measure::InputError naming the option.
present::WorkAsked work_asked(const WorkOptions& asked);

// The work at the site of the book. Throws measure::InputError and book::BookError.
present::PlannedWork planned_work(const Options& options, const WorkOptions& asked);

}  // namespace ashtriage::cli
