#include "due_properties.hpp"

namespace ashtriage::cli {

std::vector<present::PropertyDue> properties_due(const Options& options, const book::Book& book,
                                                 const present::Knowledge& knowledge,
                                                 const std::string& site) {
    std::vector<observe::Site> sites = book.sites();
    if (!site.empty()) sites = {find_site(book, site)};
    std::vector<present::PropertyDue> properties;
    for (const observe::Site& each : sites) {
        properties.push_back({present::assess_property(book, knowledge, each, options.date()),
                              book::standing(book.applications(each.id))});
    }
    return properties;
}

void add_wave_option(CLI::App& command, std::string& wave) {
    command
        .add_option("--wave", wave,
                    "Where the wave of borers has got to: coming, here or past (default: by what "
                    "each walk-around says of the borer pressure)")
        ->check(CLI::IsMember({"coming", "here", "past"}));
}

std::optional<plan::Wave> wave_named(const std::string& name) {
    if (name.empty()) return std::nullopt;
    if (name == "coming") return plan::Wave::coming;
    return name == "here" ? plan::Wave::here : plan::Wave::past;
}

}  // namespace ashtriage::cli
