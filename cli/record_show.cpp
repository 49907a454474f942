// record show, copy, medical and notice: one record as it is handed on; record withdraw.
#include <functional>
#include <iostream>
#include <memory>

#include "files.hpp"
#include "measure/input_error.hpp"
#include "present/text_layout.hpp"
#include "record_command.hpp"
#include "treat/application_sheet.hpp"

namespace ashtriage::cli {

namespace {

struct ShowOptions {
    std::string number;
    std::string from;
    std::string page;
    std::string policy{treat::RecordPolicies::strictest_key};
    std::string whom = "site";
    std::string given;
    std::string by;
    std::string because;
};

// A record and the card that was kept with it.
struct Shown {
    present::ApplicationShown application;
    std::optional<treat::LabelCard> card;
    std::string not_standing;  // why it does not tell what was done; empty when it does
};

// From the book by its number, or from a sheet that is not in it yet.
std::shared_ptr<Shown> shown(const Options& options, const ShowOptions& asked) {
    const RecordRules rules = load_record_rules(options);
    auto shown = std::make_shared<Shown>();
    present::ApplicationShown& application = shown->application;
    if (!asked.from.empty()) {
        const auto sheet = treat::read_application_sheet(read_file(asked.from), asked.from);
        application.record = sheet.record;
        application.site = sheet.site;
        if (const treat::LabelCard* card = rules.card(sheet.record.label_card)) {
            if (card->example) {
                throw measure::InputError(
                    "\"" + card->key +
                        "\" is an EXAMPLE card and nobody's label: nothing can be told by it",
                    asked.from, "Name a card of your own (\"ashtriage labels new\").");
            }
            shown->card = *card;
        }
    } else {
        if (asked.number.empty()) {
            throw measure::InputError("Which record?", {},
                                      "Give its number (\"ashtriage record list\"), or a sheet "
                                      "with --from.");
        }
        const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
        const book::RecordedApplication filed =
            find_application(book, value_of("number", [&] { return number_of(asked.number); }));
        application.record = filed.record;
        shown->not_standing = why_not_standing(book, filed);
        application.site = book.find_site(application.record.site)->name;
        shown->card = rules.kept_card(application.record);
    }
    if (shown->card) application.card = &*shown->card;
    application.missing = treat::missing_in(
        application.record, value_of("--policy", [&]() -> const treat::RecordPolicy& {
            return rules.policies.policy(asked.policy);
        }));
    application.as_of = options.date();
    return shown;
}

using Write = std::function<present::Document(const present::ApplicationShown&)>;

ExitCode deliver(const Options& options, const ShowOptions& asked, const Write& write) {
    const auto about = shown(options, asked);
    present::Document document = write(about->application);
    if (!about->not_standing.empty()) {
        document.first.insert(document.first.begin(), "NOT IN FORCE: " + about->not_standing);
    }
    if (asked.page.empty()) {
        std::cout << present::document_text(document);
    } else if (options.dry_run) {
        std::cerr << "Would write " << asked.page << "\n";
    } else {
        write_file(asked.page, present::document_page(document));
        std::cerr << "Wrote " << asked.page << "\n";
    }
    return ExitCode::done;
}

ExitCode show(const Options& options, const ShowOptions& asked) {
    if (options.output_format() == Format::text) {
        return deliver(options, asked, present::whole_record);
    }
    const auto about = shown(options, asked);
    const std::vector<present::ListedApplication> only{
        {about->application.site, {about->application.record, {}}, about->application.missing, {}}};
    std::cout << (options.output_format() == Format::json
                      ? present::applications_json(only, present::CustomerNames::included).dump(2) +
                            "\n"
                      : present::applications_csv(only, present::CustomerNames::included));
    return ExitCode::done;
}

// A record with one thing changed, in the place of the record.
ExitCode supersede(const Options& options, const ShowOptions& asked,
                   const std::function<void(treat::ApplicationRecord&)>& change,
                   const std::string& because) {
    auto book = book::Book::open(options.book_path());
    const auto id = value_of("number", [&] { return number_of(asked.number); });
    const auto file_it = [&] {
        treat::ApplicationRecord record = standing_application(book, id).record;
        record.correction = treat::Correction{id, asked.by, options.date(), because, false};
        change(record);
        return book.add(record);
    };
    const treat::ApplicationId added =
        options.dry_run ? book.rehearse(file_it) : book.in_transaction(file_it);
    std::cout << present::paragraph(
        options.dry_run ? std::string("Nothing stands against it; it would be recorded.")
                        : "Recorded as number " + std::to_string(added) + ", in the place of " +
                              std::to_string(id) + ".");
    return ExitCode::done;
}

// What is handed to others tells what was done as it is known now, and nothing else.
void refuse_unless_standing(const Options& options, const ShowOptions& asked) {
    if (!asked.from.empty() || asked.number.empty()) return;
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    static_cast<void>(
        standing_application(book, value_of("number", [&] { return number_of(asked.number); })));
}

ExitCode copy(const Options& options, const ShowOptions& asked) {
    refuse_unless_standing(options, asked);
    if (asked.given.empty()) return deliver(options, asked, present::customer_copy);
    const measure::Date given =
        value_of("--given", [&] { return measure::parse_date(asked.given); });
    if (given > options.date()) {
        throw measure::InputError(asked.given + " is still to come", "--given",
                                  "Say so on the day on which the customer has got it.");
    }
    return supersede(
        options, asked,
        [&](treat::ApplicationRecord& record) { record.customer_copy_given_on = given; },
        "The customer was given a copy.");
}

ExitCode notice(const Options& options, const ShowOptions& asked) {
    refuse_unless_standing(options, asked);
    return deliver(options, asked,
                   asked.whom == "neighbours" ? present::neighbour_notice : present::site_notice);
}

ExitCode withdraw(const Options& options, const ShowOptions& asked) {
    return supersede(
        options, asked,
        [](treat::ApplicationRecord& record) { record.correction->withdraws = true; },
        asked.because);
}

CLI::App& add_part(CLI::App& record, Selection& selection, const std::string& name,
                   const std::string& about, const std::shared_ptr<ShowOptions>& asked,
                   ExitCode (*run)(const Options&, const ShowOptions&)) {
    CLI::App* command = record.add_subcommand(name, about);
    command->fallthrough();
    command->add_option("number", asked->number, "The number of the record");
    command->callback([&selection, asked, run] {
        selection.action = [asked, run](const Options& options) { return run(options, *asked); };
    });
    return *command;
}

void add_page_options(CLI::App& command, const std::shared_ptr<ShowOptions>& asked) {
    command.add_option("--from", asked->from, "A sheet that is not in the book yet, instead");
    command.add_option("--page", asked->page, "Write a page to print instead: an HTML file");
    add_policy_option(command, asked->policy);
}

ExitCode medical(const Options& options, const ShowOptions& asked) {
    return deliver(options, asked, present::medical_sheet);
}

}  // namespace

void add_record_show(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ShowOptions>();
    add_page_options(add_part(record, selection, "show", "One record in full, used against planned",
                              asked, show),
                     asked);
}

void add_record_copy(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ShowOptions>();
    CLI::App& command =
        add_part(record, selection, "copy", "The customer's copy of a record", asked, copy);
    add_page_options(command, asked);
    command.add_option("--given", asked->given,
                       "Write into the record that the customer got a copy on this day");
    command.add_option("--by", asked->by, "With --given: who says so");
}

void add_record_medical(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ShowOptions>();
    add_page_options(
        add_part(record, selection, "medical",
                 "For a health professional: what somebody was exposed to", asked, medical),
        asked);
}

void add_record_notice(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ShowOptions>();
    CLI::App& command =
        add_part(record, selection, "notice", "A notice to post at the site, or for the neighbours",
                 asked, notice);
    add_page_options(command, asked);
    command.add_option("--for", asked->whom, "site or neighbours")
        ->check(CLI::IsMember({"site", "neighbours"}))
        ->capture_default_str();
}

void add_record_withdraw(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ShowOptions>();
    CLI::App& command = add_part(
        record, selection, "withdraw",
        "Say that a recorded application never was; the record itself stays", asked, withdraw);
    command.add_option("--by", asked->by, "Who withdraws it")->required();
    command.add_option("--because", asked->because, "Why")->required();
}

}  // namespace ashtriage::cli
