// record new: the sheet of an application, filled in as far as the plan or an earlier record goes.
#include <algorithm>
#include <iostream>
#include <memory>
#include <set>

#include "book/application_filing.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "packs/words.hpp"
#include "present/planned_application.hpp"
#include "present/text_layout.hpp"
#include "record_command.hpp"
#include "treat/application_sheet.hpp"
#include "work_options.hpp"

namespace ashtriage::cli {

namespace {

struct NewOptions {
    WorkOptions work;
    std::string of;
    std::string by;
    std::string because;
    std::string to;
};

ExitCode deliver(const Options& options, const NewOptions& asked,
                 const treat::ApplicationSheet& sheet) {
    const std::string text = treat::application_sheet(sheet);
    if (asked.to.empty()) {
        std::cout << text;
        return ExitCode::done;
    }
    std::error_code error;
    if (std::filesystem::exists(asked.to, error)) {
        throw measure::InputError("There is a file of this name already", asked.to,
                                  "Choose another name: what was written down is not overwritten.");
    }
    if (options.dry_run) {
        std::cerr << "Would write " << asked.to << "\n";
        return ExitCode::done;
    }
    write_file(asked.to, text);
    std::cout << present::paragraph("Wrote " + asked.to +
                                    ". Fill it in from the day of the work, then:")
              << "  ashtriage record add " << shell_word(asked.to) << "\n";
    return ExitCode::done;
}

// A sheet that corrects an earlier record begins as that record.
ExitCode correct(const Options& options, const NewOptions& asked) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const auto id = value_of("--of", [&] { return number_of(asked.of); });
    const book::RecordedApplication filed =
        value_of("--of", [&] { return standing_application(book, id); });
    treat::ApplicationSheet sheet{book.find_site(filed.record.site)->name, filed.record};
    sheet.record.correction = treat::Correction{id, asked.by, options.date(), asked.because, false};
    if (const auto card = load_record_rules(options).kept_card(filed.record)) {
        book::leave_actives_to_be_worked_out(sheet.record, *card);
    }
    return deliver(options, asked, sheet);
}

// The one card of the planned work.
const treat::LabelCard& card_of(const present::PlannedWork& work) {
    std::set<std::string> keys;
    for (const present::PlannedTree& planned : work.trees) keys.insert(planned.card.key);
    if (keys.size() == 1) return work.trees.front().card;
    if (keys.empty()) {
        std::string why;
        for (const present::LeftOut& out : work.left_out)
            why += " " + out.label + ": " + out.why + ".";
        throw measure::InputError("There is no tree to be treated" +
                                  (why.empty() ? std::string() : ":" + why));
    }
    throw measure::InputError("These trees are treated by more than one label card: " +
                                  packs::joined({keys.begin(), keys.end()}, "and"),
                              {}, "Write a sheet for each: name it with --card, and its trees.");
}

ExitCode plan(const Options& options, const NewOptions& asked) {
    const present::PlannedWork work = planned_work(options, asked.work);
    const bool examples_only =
        !work.trees.empty() &&
        std::ranges::all_of(work.trees, [](const auto& planned) { return planned.card.example; });
    if (examples_only) {
        std::cerr << present::paragraph(
            "STOP: \"" + work.trees.front().card.key +
            "\" is an EXAMPLE card and nobody's label: nothing can be recorded by it. Copy your "
            "own "
            "label onto a card of your own (\"ashtriage labels new\").");
        return ExitCode::finding;
    }
    const treat::LabelCard& card = card_of(work);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    const auto record =
        present::planned_application(work, book.find_client(work.site.client).value(), card);
    bool left_out = false;
    for (const present::PlannedTree& planned : work.trees) {
        if (!planned.stopped()) continue;
        left_out = true;
        std::cerr << present::paragraph("not on the sheet. " + present::stops_of(planned),
                                        planned.tree.label + ": ");
    }
    for (const present::LeftOut& out : work.left_out) {
        std::cerr << present::paragraph("not on the sheet: " + out.why + ".", out.label + ": ");
    }
    if (record.trees.empty()) {
        std::cerr << present::paragraph("STOP: none of these trees may be treated by \"" +
                                        card.key + "\", so there is no sheet.");
        return ExitCode::finding;
    }
    const ExitCode code = deliver(options, asked, {work.site.name, record});
    return left_out ? ExitCode::finding : code;
}

}  // namespace

void add_record_new(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<NewOptions>();
    CLI::App* command = record.add_subcommand(
        "new", "A sheet to fill in: from the plan for these trees, or to correct a record");
    command->fallthrough();
    add_work_options(*command, asked->work);
    command->add_option("--of", asked->of, "The number of a record that the sheet is to correct");
    command->add_option("--by", asked->by, "With --of: who corrects");
    command->add_option("--because", asked->because, "With --of: why");
    command->add_option("--to", asked->to, "Write the sheet to this new file");
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) {
            return asked->of.empty() ? plan(options, *asked) : correct(options, *asked);
        };
    });
}

}  // namespace ashtriage::cli
