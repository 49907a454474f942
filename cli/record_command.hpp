// The parts of `record`, and what they share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "command.hpp"
#include "packs/rule_files.hpp"
#include "present/application_documents.hpp"
#include "present/application_listing.hpp"
#include "treat/label_card.hpp"
#include "treat/record_policy.hpp"

namespace ashtriage::cli {

void add_record_new(CLI::App& record, Selection& selection);
void add_record_add(CLI::App& record, Selection& selection);
void add_record_list(CLI::App& record, Selection& selection);
void add_record_missing(CLI::App& record, Selection& selection);
void add_record_export(CLI::App& record, Selection& selection);
void add_record_show(CLI::App& record, Selection& selection);
void add_record_copy(CLI::App& record, Selection& selection);
void add_record_medical(CLI::App& record, Selection& selection);
void add_record_notice(CLI::App& record, Selection& selection);
void add_record_withdraw(CLI::App& record, Selection& selection);

// The rules that records are held against.
struct RecordRules {
    std::vector<packs::RuleFile> files;
    std::vector<packs::Source> sources;
    std::vector<treat::LabelCard> cards;
    treat::RecordPolicies policies;

    // The card of that name, or null for an empty name. Throws measure::InputError with the nearest
    // name.
    const treat::LabelCard* card(const std::string& key) const;
    std::string card_text(const std::string& key) const;
    // The card as it was kept with a record; nothing when there was none, or it can no longer be
    // read.
    std::optional<treat::LabelCard> kept_card(const treat::ApplicationRecord& record) const;
};

RecordRules load_record_rules(const Options& options);

// --policy, with the choice of policies in its help.
void add_policy_option(CLI::App& command, std::string& policy);

// The application of that number. Throws measure::InputError when there is none.
book::RecordedApplication find_application(const book::Book& book, treat::ApplicationId id);

// Why a record does not tell what was done, as it is known now: it was corrected or withdrawn, or
// is itself a withdrawal. Empty when it does.
std::string why_not_standing(const book::Book& book, const book::RecordedApplication& filed);

// The application of that number. Throws measure::InputError when there is none or it does not
// stand.
book::RecordedApplication standing_application(const book::Book& book, treat::ApplicationId id);

// The applications of a site, of all sites for an empty name, held against the policy.
std::vector<present::ListedApplication> listed_applications(const book::Book& book,
                                                            const RecordRules& rules,
                                                            const std::string& policy,
                                                            const std::string& site,
                                                            const measure::Date& as_of);

// Throws measure::InputError for a record number that is not above 0.
treat::ApplicationId number_of(const std::string& text);

}  // namespace ashtriage::cli
