// season: the window of each method at a place; what is below it has files of its own.
#include <algorithm>
#include <array>
#include <iostream>
#include <memory>
#include <string_view>

#include "command.hpp"
#include "present/season_listing.hpp"
#include "season_calendar.hpp"
#include "season_day.hpp"
#include "season_heat.hpp"
#include "season_year.hpp"

namespace ashtriage::cli {

namespace {

struct SeasonOptions {
    std::string method;
    bool autumn = false;
    YearOptions year;
};

ExitCode run(const Options& options, const SeasonOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    present::SeasonReport report = report_of_year(options, asked.year, knowledge);
    present::add_methods(report, asked.method, asked.autumn);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::season_text(report);
            break;
        case Format::csv:
            std::cout << present::season_csv(report);
            break;
        case Format::json:
            std::cout << present::season_json(report);
            break;
    }
    write_season_page(options, asked.year, report);
    return ExitCode::done;
}

// Those of season itself would be passed over in silence by what is below it; but a day of the
// season takes place where they say, in the year that they tell of.
void refuse_own_options(const CLI::App& command) {
    constexpr std::array<std::string_view, 3> not_of_a_day{"method", "--autumn", "--page"};
    const std::string below = command.get_subcommands().front()->get_name();
    for (const CLI::Option* option : command.get_options()) {
        if (option->count() == 0) continue;
        const auto not_taken = std::ranges::find(not_of_a_day, option->get_name());
        if (below == "day" && not_taken == not_of_a_day.end()) continue;
        throw CLI::ValidationError(
            option->get_name(),
            "says nothing to \"season " + below + "\"; what that can take comes after its name");
    }
}

}  // namespace

void add_season_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<SeasonOptions>();
    CLI::App* command =
        app.add_subcommand("season", "When each method may be applied at a place, from --as-of on");
    command->add_option("method", asked->method, "One method (default: all)");
    add_year_options(*command, asked->year);
    command->add_flag("--autumn", asked->autumn,
                      "Show the autumn window on which sources disagree, too");
    add_season_heat(*command, selection);
    add_season_day(*command, selection, {asked, &asked->year});
    add_season_calendar(*command, selection);
    command->callback([&selection, asked, command] {
        if (!command->get_subcommands().empty()) {  // that one has been selected
            refuse_own_options(*command);
            return;
        }
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
