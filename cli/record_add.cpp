// record add: a filled-in sheet into the book.
#include <algorithm>
#include <iostream>
#include <memory>

#include "book/application_filing.hpp"
#include "book/site_history.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "present/text_layout.hpp"
#include "present/treated_trees.hpp"
#include "record_command.hpp"
#include "treat/application_sheet.hpp"
#include "treat/done_findings.hpp"

namespace ashtriage::cli {

namespace {

struct AddOptions {
    std::string file;
    std::string policy{treat::RecordPolicies::strictest_key};
};

void print_findings(const std::vector<treat::Finding>& findings) {
    for (const treat::Finding& finding : findings) {
        std::cout << present::paragraph(
            finding.text, finding.severity == treat::Severity::stop ? "STOP: " : "WARNING: ");
    }
}

// As it was measured by the day of the work; several stems as the card counts them.
treat::MeasuredDbh measured_dbh(const present::PropertyAssessment& property,
                                const treat::LabelCard& card) {
    treat::MeasuredDbh measured;
    for (const present::TreeAssessment& tree : property.trees) {
        const treat::Dose dose =
            treat::dose_for(card, {tree.facts.diameters, treat::RateLevel::usual, {}});
        if (dose.dbh) measured[tree.tree.id] = *dose.dbh;
    }
    return measured;
}

// Trees of the book that the record names, by what was known of them on the day of the work.
void add_findings_about_trees(const present::PropertyAssessment& property,
                              const treat::ApplicationRecord& record,
                              std::vector<treat::Finding>& findings) {
    for (const treat::TreatedTree& treated : record.trees) {
        if (!treated.tree) continue;
        const auto walked = std::ranges::find_if(
            property.trees,
            [&](const present::TreeAssessment& each) { return each.tree.id == *treated.tree; });
        if (walked == property.trees.end()) {
            findings.push_back(present::treated_without_walk(treated.label));
        } else if (const auto finding = present::finding_about_treated(*walked)) {
            findings.push_back(*finding);
        }
    }
}

// The card of the product, where its registration number tells; empty where it does not.
std::string card_hint(const treat::ApplicationRecord& record,
                      const std::vector<treat::LabelCard>& cards) {
    const auto card = std::ranges::find_if(cards, [&](const treat::LabelCard& each) {
        return each.from_label && !record.registration_number.empty() &&
               each.from_label->registration_number == record.registration_number;
    });
    if (card == cards.end()) return {};
    return " The registration number is that of the card \"" + card->key +
           "\": name it as label_card.";
}

// ", to be complete by 2 June 2026"; empty where the policy asks for nothing.
std::string complete_by(const treat::ApplicationRecord& record, const treat::RecordPolicy& policy,
                        const treat::RecordPolicies& policies) {
    const auto duties = treat::duties({&record, 1}, policy, policies);
    const auto write_down =
        std::ranges::find(duties, treat::DutyKind::write_down, &treat::Duty::kind);
    return write_down == duties.end()
               ? ""
               : ", to be complete by " + measure::long_text(write_down->due);
}

ExitCode run(const Options& options, const AddOptions& asked) {
    const RecordRules rules = load_record_rules(options);
    const treat::ApplicationSheet sheet =
        treat::read_application_sheet(read_file(asked.file), asked.file);
    auto book = book::Book::open(options.book_path());
    treat::ApplicationRecord record;
    std::vector<treat::Finding> findings;
    const auto file_it = [&] {
        const treat::LabelCard* card = rules.card(sheet.record.label_card);
        record = book::application_of(book, sheet, card, rules.card_text(sheet.record.label_card));
        if (record.work_date > options.date()) {
            throw measure::InputError(
                "The work is dated " + measure::text(record.work_date) + ", which is still to come",
                asked.file,
                "Record an application when it is done. For a notice "
                "beforehand: \"ashtriage record notice --from SHEET\".");
        }
        const auto corrected =
            record.correction ? std::optional{record.correction->of} : std::nullopt;
        const present::PropertyAssessment property = present::assess_property(
            book, load_knowledge(options), *book.find_site(record.site), record.work_date);
        if (card != nullptr) {
            findings = treat::findings_about_done(record, *card,
                                                  book::site_history(book, record.site, corrected),
                                                  property.site, measured_dbh(property, *card));
        }
        add_findings_about_trees(property, record, findings);
        record.id = book.add(record);
    };
    try {
        options.dry_run ? book.rehearse(file_it) : book.in_transaction(file_it);
    } catch (const measure::InputError& error) {
        throw error.where().empty() ? error.at(asked.file) : error;
    }
    std::cout << present::paragraph(
        options.dry_run ? std::string("Nothing is wrong with the sheet; it would be recorded.")
                        : "Recorded as application number " + std::to_string(record.id) + ".");
    if (const std::string used = present::used_words(record); !used.empty()) {
        std::cout << present::paragraph(used);
    }
    if (sheet.record.label_card.empty()) {
        std::cout << present::paragraph(
            "no label card is named on the sheet, so nothing could be held against the label." +
                card_hint(record, rules.cards),
            "WARNING: ");
    }
    print_findings(findings);
    const treat::RecordPolicy& policy = rules.policies.policy(asked.policy);
    const auto missing = treat::missing_in(record, policy);
    if (!missing.empty()) {
        std::cout << present::paragraph("Still missing under \"" + policy.key + "\" (" +
                                        policy.jurisdiction + ")" +
                                        complete_by(record, policy, rules.policies) + ":");
        for (const treat::MissingFields& each : missing) {
            std::cout << present::paragraph(each.words, "  - ");
        }
    }
    return treat::any_stop(findings) ? ExitCode::finding : ExitCode::done;
}

}  // namespace

void add_record_add(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<AddOptions>();
    CLI::App* command = record.add_subcommand(
        "add", "Take a filled-in sheet into the book, and hold it against the label");
    command->fallthrough();
    command->add_option("sheet", asked->file, "The sheet (\"ashtriage record new\"), or -")
        ->required();
    add_policy_option(*command, asked->policy);
    command->callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return run(options, *asked); };
    });
}

}  // namespace ashtriage::cli
