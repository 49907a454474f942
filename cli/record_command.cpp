// record: applications as they were done.
#include "record_command.hpp"

#include <algorithm>

#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "packs/problem.hpp"
#include "packs/read_rule_set.hpp"
#include "treat/read_label_card.hpp"
#include "treat/read_record_policies.hpp"

namespace ashtriage::cli {

const treat::LabelCard* RecordRules::card(const std::string& key) const {
    if (key.empty()) return nullptr;
    const auto found = std::ranges::find(cards, key, &treat::LabelCard::key);
    if (found != cards.end()) return &*found;
    std::vector<std::string> known;
    for (const treat::LabelCard& each : cards) known.push_back(each.key);
    throw measure::InputError("There is no label card \"" + key + "\"", {},
                              packs::nearest_hint(key, known));
}

std::string RecordRules::card_text(const std::string& key) const {
    const packs::RuleFile* file = packs::find_rule_file(files, "labels/" + key + ".yaml");
    return file == nullptr ? std::string() : file->text;
}

std::optional<treat::LabelCard> RecordRules::kept_card(
    const treat::ApplicationRecord& record) const {
    if (record.label_card_text.empty()) return std::nullopt;
    packs::Problems problems;
    const packs::RuleFile file{"labels/" + record.label_card + ".yaml", record.label_card_text, {}};
    problems.add_file(file.name, file.text);
    treat::LabelCard card = treat::read_label_card(file, sources, problems);
    if (!problems.empty()) return std::nullopt;
    return card;
}

RecordRules load_record_rules(const Options& options) {
    RecordRules rules;
    rules.files = packs::rule_files(options.rules);
    rules.sources = packs::read_rule_set(rules.files, options.preset).sources;
    rules.cards = treat::read_label_cards(rules.files, rules.sources);
    rules.policies = treat::read_record_policies(rules.files, rules.sources);
    return rules;
}

void add_policy_option(CLI::App& command, std::string& policy) {
    command
        .add_option("--policy", policy,
                    "Whose rule on records is asked: an entry of records.yaml, such as minnesota")
        ->capture_default_str();
}

book::RecordedApplication find_application(const book::Book& book, treat::ApplicationId id) {
    if (auto found = book.find_application(id)) return *found;
    throw measure::InputError("There is no application number " + std::to_string(id), {},
                              "\"ashtriage record list --all\" lists them.");
}

std::string why_not_standing(const book::Book& book, const book::RecordedApplication& filed) {
    const std::string id = std::to_string(filed.record.id);
    if (filed.superseded_by) {
        const std::string by = std::to_string(*filed.superseded_by);
        const auto later = book.find_application(*filed.superseded_by);
        const bool withdrawn =
            later && later->record.correction && later->record.correction->withdraws;
        return withdrawn ? "Number " + id + " was withdrawn by number " + by
                         : "Number " + id + " was corrected by number " + by;
    }
    if (filed.stands()) return {};
    return "Number " + id + " only withdraws number " + std::to_string(filed.record.correction->of);
}

book::RecordedApplication standing_application(const book::Book& book, treat::ApplicationId id) {
    book::RecordedApplication filed = find_application(book, id);
    if (const std::string why = why_not_standing(book, filed); !why.empty()) {
        throw measure::InputError(why, {}, "\"ashtriage record list\" lists those in force.");
    }
    return filed;
}

std::vector<present::ListedApplication> listed_applications(const book::Book& book,
                                                            const RecordRules& rules,
                                                            const std::string& policy,
                                                            const std::string& site,
                                                            const measure::Date& as_of) {
    const treat::RecordPolicy& asked = value_of(
        "--policy", [&]() -> const treat::RecordPolicy& { return rules.policies.policy(policy); });
    std::vector<observe::Site> sites = book.sites();
    if (!site.empty()) sites = {find_site(book, site)};
    std::vector<present::ListedApplication> listed;
    for (const observe::Site& each : sites) {
        for (const book::RecordedApplication& filed : book.applications(each.id)) {
            std::vector<treat::ApplicationRecord> versions;
            for (const auto& version : book.application_history(filed.record.id)) {
                versions.push_back(version.record);
            }
            listed.push_back({each.name, filed, treat::missing_in(filed.record, asked),
                              treat::reminders(versions, asked, rules.policies, as_of)});
        }
    }
    return listed;
}

treat::ApplicationId number_of(const std::string& text) {
    constexpr double most = 1e12;
    const double number = measure::require_number(text);
    if (!(number >= 1 && number <= most)) {
        throw measure::InputError("\"" + text + "\" is not the number of a record");
    }
    return static_cast<treat::ApplicationId>(number);
}

void add_record_command(CLI::App& app, Selection& selection) {
    CLI::App* record = app.add_subcommand(
        "record", "Applications as they were done, and what the law still wants written down");
    record->require_subcommand(1);
    add_record_new(*record, selection);
    add_record_add(*record, selection);
    add_record_list(*record, selection);
    add_record_missing(*record, selection);
    add_record_show(*record, selection);
    add_record_copy(*record, selection);
    add_record_medical(*record, selection);
    add_record_notice(*record, selection);
    add_record_withdraw(*record, selection);
    add_record_export(*record, selection);
}

}  // namespace ashtriage::cli
