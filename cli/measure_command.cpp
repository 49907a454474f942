// measure: several stems or girths to one DBH, by each rule; slope.
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "command.hpp"
#include "measure/parse.hpp"
#include "measure/plausibility.hpp"
#include "measure/stems.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::cli {

namespace {

struct MeasureOptions {
    std::vector<std::string> stems;
    std::string last_visit;
};

std::string joined_stems(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) {
        // "14 in" may come as one word or two; "+" only where it was written or words stand apart.
        if (!text.empty()) text += ' ';
        text += word;
    }
    return text;
}

struct Diameters {
    std::vector<measure::Length> stems;
    measure::Length root_of_squares;
    measure::Length sum;
    measure::Length largest;
};

Diameters diameters_of(const std::vector<observe::Stem>& stems) {
    Diameters diameters;
    for (const observe::Stem& stem : stems) {
        diameters.stems.push_back(stem.measured == observe::StemMeasure::girth
                                      ? measure::diameter_from_girth(stem.length)
                                      : stem.length);
    }
    using measure::StemRule;
    const auto by = [&](StemRule rule) {
        return measure::combined_diameter(diameters.stems, rule);
    };
    diameters.root_of_squares = by(StemRule::root_of_sum_of_squares);
    diameters.sum = by(StemRule::sum);
    diameters.largest = by(StemRule::largest);
    return diameters;
}

std::string both_units(measure::Length length) {
    return length.with_unit(measure::units::inch, 1) + " (" +
           length.with_unit(measure::units::centimetre, 1) + ")";
}

void print_text(const std::vector<observe::Stem>& stems, const Diameters& diameters,
                const std::vector<measure::DbhQuestion>& questions) {
    for (std::size_t i = 0; i < stems.size(); ++i) {
        const bool girth = stems[i].measured == observe::StemMeasure::girth;
        std::cout << "Stem " << i + 1 << ": "
                  << (girth ? "girth " + both_units(stems[i].length) + ", divided by pi: " : "")
                  << both_units(diameters.stems[i]) << " DBH\n";
    }
    if (stems.size() > 1) {
        std::cout << "As one stem:\n"
                  << "  root of the sum of squares  " << both_units(diameters.root_of_squares)
                  << "  size of the tree\n"
                  << "  sum of the diameters        " << both_units(diameters.sum)
                  << "  what labels commonly dose by\n"
                  << "  largest stem                " << both_units(diameters.largest) << "\n";
    }
    std::cout << "Basal area: ";
    measure::Area basal_area;
    for (const measure::Length stem : diameters.stems) basal_area += measure::basal_area(stem);
    std::cout << basal_area.with_unit(measure::units::square_foot, 3) << "\n";
    for (const measure::DbhQuestion& question : questions) {
        std::cout << present::paragraph(question.text, "? ");
    }
}

ExitCode run(const Options& options, const MeasureOptions& asked) {
    const auto stems = observe::parse_stems(joined_stems(asked.stems));
    const Diameters diameters = diameters_of(stems);
    std::optional<measure::Length> last_visit;
    if (!asked.last_visit.empty()) {
        last_visit = value_of("--last-visit", [&] {
            return measure::parse_length(asked.last_visit, measure::units::inch);
        });
    }
    const auto questions = measure::questions_about_dbh(diameters.root_of_squares, last_visit);

    const auto inches = [](measure::Length length) { return length.in(measure::units::inch); };
    if (options.output_format() == Format::json) {
        present::Json json{{"root_of_sum_of_squares_inches", inches(diameters.root_of_squares)},
                           {"sum_inches", inches(diameters.sum)},
                           {"largest_inches", inches(diameters.largest)},
                           {"questions", present::Json::array()}};
        for (const auto& question : questions) json["questions"].push_back(question.text);
        std::cout << json.dump(2) << "\n";
    } else if (options.output_format() == Format::csv) {
        std::cout << "root_of_sum_of_squares_inches,sum_inches,largest_inches\r\n"
                  << diameters.root_of_squares.text(measure::units::inch, 2) << ","
                  << diameters.sum.text(measure::units::inch, 2) << ","
                  << diameters.largest.text(measure::units::inch, 2) << "\r\n";
    } else {
        print_text(stems, diameters, questions);
    }
    return ExitCode::done;
}

}  // namespace

void add_measure_command(CLI::App& app, Selection& selection) {
    auto asked = std::make_shared<MeasureOptions>();
    CLI::App* command =
        app.add_subcommand("measure", "Stems or girths to one DBH, by each rule in use");
    command
        ->add_option("stems", asked->stems,
                     "The stems, e.g. \"14 in\" or \"10 in + 8 in + girth 25 in\"")
        ->required();
    command->add_option("--last-visit", asked->last_visit,
                        "The DBH of the last visit, to notice a girth taken for a diameter");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
