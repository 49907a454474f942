// mix: tank loads, what to carry and wear, and a card for each tree.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "present/mix_sheet.hpp"
#include "work_options.hpp"

namespace ashtriage::cli {

namespace {

struct MixOptions {
    WorkOptions work;
    std::string tank = "1 gal";
    std::string reserve = "10 %";
    std::string water;
    std::string page;
};

ExitCode run(const Options& options, const MixOptions& asked) {
    if (options.output_format() != Format::text) {
        throw measure::InputError(
            "A mix sheet comes as text or as a page", "--format",
            "\"ashtriage dose\" gives the amounts as CSV or JSON; --page writes "
            "a page to print.");
    }
    const present::MixAsked how{
        value_of("--tank", [&] { return measure::parse_volume(asked.tank); }),
        value_of("--reserve", [&] { return measure::parse_percent(asked.reserve); }),
        asked.water,
    };
    const present::PlannedWork work = planned_work(options, asked.work);
    const present::MixSheet sheet = present::mix_sheet(work, how);
    if (asked.page.empty()) {
        std::cout << present::mix_text(sheet);
    } else if (options.dry_run) {
        std::cerr << "Would write " << asked.page << "\n";
    } else {
        write_file(asked.page, present::mix_page(sheet));
        std::cerr << "Wrote " << asked.page << "\n";
    }
    return work.any_stop() ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_mix_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<MixOptions>();
    CLI::App* command = app.add_subcommand(
        "mix", "A day's tank loads, what to carry and wear, and a card for each tree");
    add_work_options(*command, asked->work);
    command->add_option("--tank", asked->tank, "What the sprayer holds")->capture_default_str();
    command
        ->add_option("--reserve", asked->reserve,
                     "How much more to carry than is planned, for what is spilt")
        ->capture_default_str();
    command->add_option("--water", asked->water, "Where the water comes from");
    command->add_option("--page", asked->page, "Write a page to print instead: an HTML file");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
