// season: the window of each method at a place; heat, below it, has a file of its own.
#include <iostream>
#include <memory>

#include "command.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "season_day.hpp"
#include "season_heat.hpp"
#include "triage/sheet_entries.hpp"

namespace ashtriage::cli {

namespace {

struct SeasonOptions {
    std::string method;
    std::string site;
    std::string latitude;
    std::string longitude;
    std::string elevation;
};

// Whether there is a book with one site only, which then need not be named.
bool one_site_at_hand(const Options& options) {
    std::error_code error;
    if (!std::filesystem::exists(options.book_path(), error)) return false;
    return book::Book::open(options.book_path(), book::Mode::read_only).sites().size() == 1;
}

// The place given on the command line, else that of the named site or of the only one.
std::optional<season::Location> location_of(const Options& options, const SeasonOptions& asked) {
    if (asked.latitude.empty() != asked.longitude.empty()) {
        throw measure::InputError("Latitude and longitude go together",
                                  asked.latitude.empty() ? "--latitude" : "--longitude",
                                  "Give both or neither.");
    }
    std::optional<season::Location> location;
    if (!asked.latitude.empty()) {
        location = season::Location{
            value_of("--latitude", [&] { return triage::parse_degrees(asked.latitude, 90); }),
            value_of("--longitude", [&] { return triage::parse_degrees(asked.longitude, 180); }),
            std::nullopt};
        if (!asked.elevation.empty()) {
            location->elevation =
                value_of("--elevation", [&] { return measure::parse_length(asked.elevation); });
        }
    } else if (!asked.site.empty() || one_site_at_hand(options)) {
        const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
        if (const auto position = find_site(book, asked.site).position) {
            location =
                season::Location{position->latitude, position->longitude, position->elevation};
        }
    }
    return location;
}

std::vector<const season::MethodSeason*> chosen_methods(const season::Seasons& seasons,
                                                        const std::string& name) {
    if (!name.empty()) return {&seasons.method(name)};
    std::vector<const season::MethodSeason*> methods;
    for (const season::MethodSeason& method : seasons.methods) methods.push_back(&method);
    return methods;
}

std::string_view state_name(season::WindowState state) {
    switch (state) {
        case season::WindowState::open_now:
            return "open_now";
        case season::WindowState::opens_later_this_year:
            return "opens_later_this_year";
        case season::WindowState::passed_so_next_year:
            return "passed_so_next_year";
        case season::WindowState::none_here:
            break;
    }
    return "none_here";
}

void print_text(const season::MethodSeason& method, const season::NextWindow& next) {
    std::cout << present::paragraph(method.title)
              << present::paragraph(present::window_words(next), "  ");
    if (!method.why_never.empty()) std::cout << present::paragraph(method.why_never, "  - ");
    for (const season::Need& need : method.needs) {
        std::cout << present::paragraph(need.text, "  - ");
    }
    std::cout << "\n";
}

ExitCode run(const Options& options, const SeasonOptions& asked) {
    const present::Knowledge knowledge = load_knowledge(options);
    const auto location = location_of(options, asked);
    present::Json json = present::Json::array();
    std::string csv = present::csv_row({"method", "state", "opens", "best_until", "closes"});
    std::vector<std::string> cautions;
    for (const season::MethodSeason* method : chosen_methods(knowledge.seasons, asked.method)) {
        const auto next =
            season::next_window(knowledge.seasons, method->method, location, options.date());
        const auto date = [&](measure::Date season::Window::*day) {
            return next.window ? measure::text((*next.window).*day) : std::string{};
        };
        json.push_back({{"method", method->method},
                        {"state", state_name(next.state)},
                        {"opens", date(&season::Window::opens)},
                        {"best_until", date(&season::Window::best_until)},
                        {"closes", date(&season::Window::closes)}});
        csv += present::csv_row({method->method, std::string(state_name(next.state)),
                                 date(&season::Window::opens), date(&season::Window::best_until),
                                 date(&season::Window::closes)});
        if (options.output_format() == Format::text) print_text(*method, next);
        if (next.window) cautions = next.window->cautions;
    }
    if (options.output_format() == Format::json) std::cout << json.dump(2) << "\n";
    if (options.output_format() == Format::csv) std::cout << csv;
    if (options.output_format() != Format::text) return ExitCode::done;
    for (const std::string& caution : cautions) std::cout << present::paragraph(caution);
    for (const season::NotOffered& left_out : knowledge.seasons.not_offered) {
        std::cout << present::paragraph("Not offered: " + left_out.title + ". " + left_out.why);
    }
    return ExitCode::done;
}

}  // namespace

void add_season_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<SeasonOptions>();
    CLI::App* command =
        app.add_subcommand("season", "When each method may be applied at a place, from --as-of on");
    command->add_option("method", asked->method, "One method (default: all)");
    command->add_option("--site", asked->site,
                        "Take the place from a site of the book (default: its only site)");
    command->add_option("--latitude", asked->latitude, "Decimal degrees, north positive");
    command->add_option("--longitude", asked->longitude, "Decimal degrees, west negative");
    command->add_option("--elevation", asked->elevation, "Above sea level, e.g. \"700 ft\"");
    add_season_heat(*command, selection);
    add_season_day(*command, selection,
                   [asked](const Options& options) { return location_of(options, *asked); });
    command->callback([&selection, asked, command] {
        if (!command->get_subcommands().empty()) return;  // that one has been selected
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
