#include "present/application_listing.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/text_layout.hpp"
#include "treat/record_entries.hpp"

namespace ashtriage::present {

namespace {

std::string state_of(const ListedApplication& listed) {
    const auto& record = listed.filed.record;
    if (listed.filed.superseded_by) {
        return fmt::format("superseded by {}", *listed.filed.superseded_by);
    }
    if (record.correction && record.correction->withdraws) {
        return fmt::format("withdraws {}", record.correction->of);
    }
    if (!listed.missing.empty()) return fmt::format("{} missing", listed.missing.size());
    return "complete";
}

std::string duty_words(const treat::Reminder& reminder) {
    std::string what;
    switch (reminder.duty.kind) {
        case treat::DutyKind::write_down:
            what = "the record has to be complete";
            break;
        case treat::DutyKind::copy_to_customer:
            what = "the customer has to have a copy";
            break;
        case treat::DutyKind::keep:
            what = "the record has to be kept";
            break;
    }
    return fmt::format(
        "{}{} by {}{}", reminder.overdue ? "OVERDUE: " : "", what,
        measure::long_text(reminder.duty.due),
        reminder.duty.from_strictest ? " (the policy does not say; the strictest stands in)" : "");
}

// Where the trees stand is where a customer lives, more often than not.
bool names_a_customer(const treat::RecordEntry& entry) {
    if (entry.name == "site_address" || entry.name == "position") return true;
    return entry.name.starts_with("customer_") && entry.name != "customer_copy_given_on";
}

bool left_out(const treat::RecordEntry& entry, CustomerNames names) {
    return names == CustomerNames::left_out && names_a_customer(entry);
}

Json text_or_null(const std::string& text) {
    return text.empty() ? Json() : Json(text);
}

Json trees_json(const treat::ApplicationRecord& record) {
    Json trees = Json::array();
    for (const treat::TreatedTree& tree : record.trees) {
        trees.push_back(
            {{"tree", tree.label},
             {"dbh", text_or_null(tree.dbh ? treat::exact_text(*tree.dbh) : "")},
             {"product", text_or_null(tree.product ? treat::exact_text(*tree.product) : "")},
             {"mix", text_or_null(tree.mix ? treat::exact_text(*tree.mix) : "")},
             {"rate", text_or_null(tree.rate ? treat::text(*tree.rate) : "")}});
    }
    return trees;
}

Json actives_json(const treat::ApplicationRecord& record) {
    Json actives = Json::array();
    for (const treat::AppliedActive& active : record.actives) {
        actives.push_back(
            {{"name", active.name},
             {"mass", text_or_null(active.mass ? treat::exact_text(*active.mass) : "")}});
    }
    return actives;
}

// Whoever adds up a table of records need not count the trees of each.
treat::ApplicationRecord with_totals(treat::ApplicationRecord record) {
    record.number_of_trees = treat::trees_treated(record);
    record.dbh_sum = treat::dbh_treated(record);
    return record;
}

Json correction_json(const treat::ApplicationRecord& record) {
    if (!record.correction) return nullptr;
    return {{"of", record.correction->of},
            {"by", record.correction->by},
            {"date", measure::text(record.correction->on)},
            {"why", record.correction->why},
            {"withdraws", record.correction->withdraws}};
}

}  // namespace

bool any_overdue(const std::vector<ListedApplication>& applications) {
    return std::ranges::any_of(applications, [](const ListedApplication& listed) {
        return listed.filed.stands() &&
               std::ranges::any_of(listed.reminders, &treat::Reminder::overdue);
    });
}

std::string applications_text(const std::vector<ListedApplication>& applications, bool all) {
    TextTable table({"No.", "Date", "Site", "Record", "What"});
    bool any = false;
    for (const ListedApplication& listed : applications) {
        if (!all && !listed.filed.stands()) continue;
        any = true;
        const treat::ApplicationRecord& record = listed.filed.record;
        std::vector<std::string> actives;
        for (const treat::AppliedActive& active : record.actives) actives.push_back(active.name);
        std::vector<std::string> what;
        for (const std::string& part :
             {packs::joined(actives, "and"), record.method, treat::labels_of_trees(record)}) {
            if (!part.empty()) what.push_back(part);
        }
        table.add({std::to_string(record.id), measure::text(record.work_date), listed.site,
                   state_of(listed), fmt::format("{}", fmt::join(what, "; "))});
    }
    return any ? table.text() : paragraph("No application is recorded.");
}

std::string missing_text(const std::vector<ListedApplication>& applications,
                         const treat::RecordPolicy& policy, const measure::Date& as_of) {
    std::string text = paragraph(
        fmt::format("Held against: {}, as of {}.", policy.jurisdiction, measure::long_text(as_of)));
    if (const std::string note = treat::age_note(policy, as_of); !note.empty()) {
        text += paragraph(note);
    }
    for (const ListedApplication& listed : applications) {
        if (!listed.filed.stands() || (listed.missing.empty() && listed.reminders.empty())) {
            continue;
        }
        const treat::ApplicationRecord& record = listed.filed.record;
        text += "\n" + paragraph(fmt::format("Application {} of {} at {}", record.id,
                                             measure::long_text(record.work_date), listed.site));
        for (const treat::Reminder& reminder : listed.reminders) {
            text += paragraph(duty_words(reminder), "  ");
        }
        for (const treat::MissingFields& missing : listed.missing) {
            text += paragraph(missing.words, "  missing: ");
        }
    }
    const bool open = std::ranges::any_of(applications, [](const ListedApplication& listed) {
        return listed.filed.stands() && (!listed.missing.empty() || !listed.reminders.empty());
    });
    return open ? text : text + paragraph("Nothing is missing and nothing is due.");
}

std::string applications_csv(const std::vector<ListedApplication>& applications,
                             CustomerNames names) {
    std::vector<std::string> header{"id",       "site",         "state",
                                    "corrects", "corrected_by", "corrected_why"};
    for (const treat::RecordEntry& entry : treat::record_entries()) {
        if (!left_out(entry, names)) header.emplace_back(entry.name);
    }
    header.insert(header.end(), {"trees", "active_ingredients", "assistants", "photos"});
    std::string csv = csv_row(header);
    for (const ListedApplication& listed : applications) {
        const treat::ApplicationRecord record = with_totals(listed.filed.record);
        std::vector<std::string> row{std::to_string(record.id), csv_text_field(listed.site),
                                     csv_text_field(state_of(listed))};
        row.push_back(record.correction ? std::to_string(record.correction->of) : "");
        row.push_back(csv_text_field(record.correction ? record.correction->by : ""));
        row.push_back(csv_text_field(record.correction ? record.correction->why : ""));
        for (const treat::RecordEntry& entry : treat::record_entries()) {
            if (left_out(entry, names)) continue;
            // A western longitude or offset begins with a minus sign and is no formula.
            const std::string text = entry.text(record);
            const bool plain = entry.name == "utc_offset" || entry.name == "position";
            row.push_back(plain ? csv_plain_field(text) : csv_text_field(text));
        }
        std::vector<std::string> trees;
        for (const treat::TreatedTree& tree : record.trees) {
            std::string words = tree.label;
            if (tree.dbh) words += ", DBH " + treat::exact_text(*tree.dbh);
            if (tree.product) words += ", product " + treat::exact_text(*tree.product);
            trees.push_back(std::move(words));
        }
        std::vector<std::string> actives;
        for (const treat::AppliedActive& active : record.actives) {
            actives.push_back(active.name +
                              (active.mass ? " " + treat::exact_text(*active.mass) : ""));
        }
        std::vector<std::string> assistants;
        for (const treat::Person& person : record.assistants) assistants.push_back(person.name);
        for (const std::vector<std::string>& list : {trees, actives, assistants, record.photos}) {
            row.push_back(csv_text_field(fmt::format("{}", fmt::join(list, "; "))));
        }
        csv += csv_row(row);
    }
    return csv;
}

Json applications_json(const std::vector<ListedApplication>& applications, CustomerNames names) {
    Json json = Json::array();
    for (const ListedApplication& listed : applications) {
        const treat::ApplicationRecord record = with_totals(listed.filed.record);
        Json each{{"id", record.id}, {"site", listed.site}, {"state", state_of(listed)}};
        each["correction"] = correction_json(record);
        for (const treat::RecordEntry& entry : treat::record_entries()) {
            if (!left_out(entry, names)) {
                each[std::string(entry.name)] = text_or_null(entry.text(record));
            }
        }
        each["trees"] = trees_json(record);
        each["active_ingredients"] = actives_json(record);
        each["assistants"] = Json::array();
        for (const treat::Person& person : record.assistants) {
            each["assistants"].push_back(person.name);
        }
        each["photos"] = record.photos;
        each["does_not_apply"] = record.does_not_apply;
        each["missing"] = Json::array();
        for (const treat::MissingFields& missing : listed.missing) {
            each["missing"].push_back(missing.words);
        }
        json.push_back(std::move(each));
    }
    return json;
}

}  // namespace ashtriage::present
