// season calendar: when borer and plants are where in their year.
#include "season_calendar.hpp"

#include <iostream>
#include <memory>

#include "present/season_calendar.hpp"
#include "season_year.hpp"

namespace ashtriage::cli {

namespace {

ExitCode run(const Options& options, const YearOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    present::SeasonReport report = report_of_year(options, asked, knowledge);
    present::add_methods(report);
    switch (options.output_format()) {
        case Format::text:
            std::cout << present::season_calendar_text(report);
            break;
        case Format::csv:
            std::cout << present::season_calendar_csv(report);
            break;
        case Format::json:
            std::cout << present::season_calendar_json(report);
            break;
    }
    write_season_page(options, asked, report);
    return ExitCode::done;
}

}  // namespace

void add_season_calendar(CLI::App& season, Selection& selection) {
    auto asked = std::make_shared<YearOptions>();
    CLI::App* command = season.add_subcommand(
        "calendar", "When the borer and the plants around it are where in their year");
    command->fallthrough();
    add_year_options(*command, *asked);
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
