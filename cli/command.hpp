// A command: its words and options on the command line, and what it does.
//
// Parsing only selects: a command's function puts its action into `Selection`, and main runs it
// after the whole command line has been understood.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <vector>

#include "exit_code.hpp"
#include "options.hpp"

namespace ashtriage::cli {

using Action = std::function<ExitCode(const Options&)>;

struct Selection {
    Action action;
    std::vector<std::string> formats = {"text", "csv", "json"};  // what its --format can be
};

void add_account_command(CLI::App& app, Selection& selection);
void add_book_command(CLI::App& app, Selection& selection);
void add_demo_command(CLI::App& app, Selection& selection);
void add_doctor_command(CLI::App& app, Selection& selection);
void add_dose_command(CLI::App& app, Selection& selection);
void add_due_command(CLI::App& app, Selection& selection);
void add_explain_command(CLI::App& app, Selection& selection);
void add_flags_command(CLI::App& app, Selection& selection);
void add_labels_command(CLI::App& app, Selection& selection);
void add_measure_command(CLI::App& app, Selection& selection);
void add_methods_command(CLI::App& app, Selection& selection);
void add_mix_command(CLI::App& app, Selection& selection);
void add_photo_command(CLI::App& app, Selection& selection);
void add_record_command(CLI::App& app, Selection& selection);
void add_report_command(CLI::App& app, Selection& selection);
void add_risk_command(CLI::App& app, Selection& selection);
void add_rules_command(CLI::App& app, Selection& selection);
void add_schedule_command(CLI::App& app, Selection& selection);
void add_season_command(CLI::App& app, Selection& selection);
void add_triage_command(CLI::App& app, Selection& selection);
void add_walk_command(CLI::App& app, Selection& selection);

}  // namespace ashtriage::cli
