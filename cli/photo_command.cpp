// photo: when and where a picture was taken.
#include <fmt/format.h>

#include <iostream>
#include <memory>

#include "command.hpp"
#include "measure/units.hpp"
#include "photo/photo_facts.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

namespace {

std::string time_text(std::chrono::seconds since_midnight) {
    const auto minutes = since_midnight.count() / 60;
    return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

ExitCode run(const Options& options, const std::string& file) {
    const photo::PhotoFacts facts = photo::read_photo_facts(std::filesystem::path(file));
    if (options.output_format() == Format::json) {
        present::Json json{{"date", nullptr},
                           {"time", nullptr},
                           {"latitude", nullptr},
                           {"longitude", nullptr},
                           {"left_out", facts.left_out}};
        if (facts.taken) {
            json["date"] = measure::text(facts.taken->date);
            json["time"] = time_text(facts.taken->since_midnight);
        }
        if (facts.position) {
            json["latitude"] = facts.position->latitude;
            json["longitude"] = facts.position->longitude;
        }
        std::cout << json.dump(2) << "\n";
        return ExitCode::done;
    }
    std::cout << "Taken: "
              << (facts.taken ? measure::long_text(facts.taken->date) + ", " +
                                    time_text(facts.taken->since_midnight) + " local time"
                              : std::string("not stated"))
              << "\nWhere: "
              << (facts.position ? fmt::format("latitude {:.6f}, longitude {:.6f}",
                                               facts.position->latitude, facts.position->longitude)
                                 : std::string("not stated"))
              << "\n";
    if (facts.altitude) {
        std::cout << "Elevation: " << facts.altitude->with_unit(measure::units::foot, 0) << "\n";
    }
    for (const std::string& reason : facts.left_out) std::cout << present::paragraph(reason, "- ");
    return ExitCode::done;
}

}  // namespace

void add_photo_command(CLI::App& app, Selection& selection) {
    auto file = std::make_shared<std::string>();
    CLI::App* command = app.add_subcommand("photo", "When and where a picture was taken");
    command->add_option("file", *file, "A JPEG picture")->required();
    command->callback([&selection, file] {
        selection.action = [file](const Options& options) { return run(options, *file); };
    });
}

}  // namespace ashtriage::cli
