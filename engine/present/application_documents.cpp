#include "present/application_documents.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "present/emergency.hpp"
#include "treat/dose.hpp"
#include "treat/record_entries.hpp"

namespace ashtriage::present {

using treat::ApplicationRecord;
using treat::EntryGroup;

namespace units = measure::units;

namespace {

constexpr std::string_view to_be_filled_in = "____________________";

std::string trees_words(const ApplicationRecord& record) {
    const auto number = treat::trees_treated(record);
    const std::string labels = treat::labels_of_trees(record);
    if (!number) return record.crop;
    std::string words = fmt::format("{} ash tree{}", *number, *number == 1 ? "" : "s");
    if (!labels.empty()) words += ": " + labels;
    return words;
}

std::string actives_words(const ApplicationRecord& record) {
    std::vector<std::string> actives;
    for (const treat::AppliedActive& active : record.actives) {
        actives.push_back(active.mass
                              ? active.name + ", " + treat::active_text(*active.mass) + " in all"
                              : active.name);
    }
    return packs::joined(actives, "and");
}

std::string amount_words(const std::optional<treat::Amount>& amount) {
    if (!amount) return {};
    const std::string text = treat::exact_text(*amount);
    if (!treat::is_volume(*amount)) {
        return text + " (" + treat::mass_of(*amount).with_unit(units::avoirdupois_ounce, 2) + ")";
    }
    const bool metric = text.ends_with(" mL");
    return text + " (" +
           treat::volume_of(*amount).with_unit(metric ? units::us_fluid_ounce : units::millilitre,
                                               2) +
           ")";
}

std::string volume_words(const std::optional<measure::Volume>& volume) {
    return volume ? amount_words(treat::Amount{*volume}) : std::string();
}

std::string time_words(const ApplicationRecord& record) {
    std::string words = measure::long_text(record.work_date);
    if (record.started) words += ", from " + treat::text(*record.started);
    if (record.finished) words += " to " + treat::text(*record.finished);
    if (record.utc_offset) words += " (UTC" + treat::text(*record.utc_offset) + ")";
    return words;
}

std::string entry_text(const ApplicationRecord& record, std::string_view name) {
    for (const treat::RecordEntry& entry : treat::record_entries()) {
        if (entry.name == name) return entry.text(record);
    }
    return {};
}

void add_entries(DocumentSection& section, const ApplicationRecord& record, EntryGroup group) {
    for (const treat::RecordEntry& entry : treat::record_entries()) {
        if (entry.group == group) section.add(entry.heading, entry.text(record));
    }
}

DocumentSection trees_of(const ApplicationRecord& record) {
    DocumentSection section{"Trees", {}};
    for (const treat::TreatedTree& tree : record.trees) {
        std::string words;
        const auto add = [&](const std::string& what, const std::string& text) {
            if (text.empty()) return;
            if (!words.empty()) words += "; ";
            words.append(what).append(text);
        };
        if (tree.dbh) add("DBH ", treat::exact_text(*tree.dbh));
        add("product ", amount_words(tree.product));
        add("mix ", volume_words(tree.mix));
        if (tree.rate) add("rate ", treat::text(*tree.rate));
        section.add(tree.label, words.empty() ? "treated" : words);
    }
    return section;
}

std::string names_of(const std::vector<treat::Person>& people) {
    std::vector<std::string> names;
    for (const treat::Person& person : people) names.push_back(person.name);
    return packs::joined(names, "and");
}

enum class Reader { customer, neighbour, health_professional };

DocumentSection from_the_label(const ApplicationShown& shown, Reader reader) {
    DocumentSection section{"From the label, as it was typed in", {}};
    if (shown.card == nullptr || !shown.card->from_label) return section;
    const treat::FromLabel& label = *shown.card->from_label;
    section.add("Signal word", treat::words(label.signal_word));
    section.add("Re-entry", label.re_entry);
    if (reader != Reader::neighbour) section.add("First aid", label.first_aid);
    if (reader == Reader::health_professional) return section;
    for (const std::string& statement : shown.card->pollinators) {
        section.add("Bees and bloom", statement);
    }
    return section;
}

bool still_to_come(const ApplicationShown& shown) {
    return shown.as_of < shown.record.work_date;
}

// What both notices say of the work.
DocumentSection of_the_work(const ApplicationShown& shown) {
    const ApplicationRecord& record = shown.record;
    DocumentSection section{still_to_come(shown) ? "What is planned" : "What was done", {}};
    const auto or_blank = [](const std::string& text) {
        return text.empty() ? std::string(to_be_filled_in) : text;
    };
    section.add("Place", or_blank(record.site_address));
    section.add("Where there", record.location);
    section.add("When", time_words(record));
    section.add("Treated", trees_words(record));
    section.add("Against", or_blank(record.target_pest));
    section.add("How", or_blank(record.method));
    section.add("Product", or_blank(record.product_name));
    section.add("Registration number", or_blank(record.registration_number));
    std::vector<std::string> actives;
    for (const treat::AppliedActive& active : record.actives) actives.push_back(active.name);
    section.add("Active ingredient", or_blank(packs::joined(actives, "and")));
    return section;
}

DocumentSection who_to_ask(const ApplicationRecord& record) {
    DocumentSection section{"Who to ask", {}};
    section.add("Firm", record.firm_name);
    section.add("Address", record.firm_address);
    section.add("License of the firm", record.firm_license);
    section.add("Applicator", record.applicator.name);
    section.add("License", record.applicator.license);
    section.add("Permit", record.permit_number);
    section.add("Telephone", to_be_filled_in);
    return section;
}

constexpr std::string_view notice_rules =
    "Where a notice is asked for, the local rule says how large it is, what it must say, and when "
    "and how long it hangs: check it before this one is used.";

}  // namespace

std::string used_words(const ApplicationRecord& record) {
    std::string words;
    if (record.total_product) {
        words = "Used " + treat::exact_text(*record.total_product) + " of product";
        if (const auto against = treat::used_against_planned(record)) {
            switch (against->used) {
                case treat::AgainstPlan::less:
                    words += ", " + treat::exact_text(against->by) + " less than planned";
                    break;
                case treat::AgainstPlan::as_planned:
                    words += ", as planned";
                    break;
                case treat::AgainstPlan::more:
                    words += ", " + treat::exact_text(against->by) + " MORE than planned";
                    break;
            }
        }
        words += ".";
    }
    if (const auto left = treat::left_over(record)) {
        words += fmt::format(
            "{}Left over: {} of mix; {}", words.empty() ? "" : " ", treat::exact_text(*left),
            *left > measure::Volume{}
                ? "use it up on a labelled site or dispose of it as the label says."
                : "nothing to dispose of.");
    }
    return words;
}

Document customer_copy(const ApplicationShown& shown) {
    const ApplicationRecord& record = shown.record;
    Document document;
    document.title = "Record of a pesticide application: copy for the customer";
    if (!shown.missing.empty()) {
        document.first.emplace_back("This record is not finished: see at the end what is missing.");
    }
    for (const EntryGroup group :
         {EntryGroup::when, EntryGroup::whom_and_where, EntryGroup::what}) {
        DocumentSection section{std::string(words(group)), {}};
        add_entries(section, record, group);
        document.add(std::move(section));
    }
    document.add(trees_of(record));
    DocumentSection product{"Product and amounts", {}};
    add_entries(product, record, EntryGroup::product);
    product.add("Active ingredient", actives_words(record));
    add_entries(product, record, EntryGroup::amount);
    document.add(std::move(product));
    for (const EntryGroup group : {EntryGroup::how, EntryGroup::conditions, EntryGroup::who}) {
        DocumentSection section{std::string(words(group)), {}};
        add_entries(section, record, group);
        if (group == EntryGroup::who) section.add("Assistants", names_of(record.assistants));
        document.add(std::move(section));
    }
    document.add(from_the_label(shown, Reader::customer));
    DocumentSection missing{"Still missing", {}};
    for (const treat::MissingFields& each : shown.missing) missing.add("", each.words);
    document.add(std::move(missing));
    document.last.push_back(
        "Keep this copy. A treated ash is not out of danger: look at it again next year, and never "
        "take a treated tree for one that cannot fail.");
    return document;
}

Document medical_sheet(const ApplicationShown& shown) {
    const ApplicationRecord& record = shown.record;
    Document document;
    document.title = "Medical sheet: somebody may have been exposed to a pesticide";
    document.first.emplace_back(emergency_numbers());
    document.first.emplace_back(
        "Take the label or the container along. A licensed health professional who asks for these "
        "facts gets them at once, whether or not the record is finished.");
    if (!shown.missing.empty()) {
        document.first.emplace_back(
            "THE RECORD IS NOT FINISHED: what is not told here has not been written down yet.");
    }
    DocumentSection product{"What it was", {}};
    product.add("Product", record.product_name);
    product.add("Registration number", record.registration_number);
    product.add("Active ingredient", actives_words(record));
    product.add("Product used, undiluted", amount_words(record.total_product));
    product.add("Mix", volume_words(record.total_mix));
    product.add("Dilution, product : water", entry_text(record, "dilution"));
    product.add("Method", record.method);
    document.add(std::move(product));
    DocumentSection where{"Where and when", {}};
    where.add("When", time_words(record));
    where.add("Place", record.site_address);
    where.add("Where there", record.location);
    where.add("Treated", trees_words(record));
    where.add("Applicator", record.applicator.name);
    document.add(std::move(where));
    DocumentSection label = from_the_label(shown, Reader::health_professional);
    if (label.lines.empty()) {
        label.add("First aid",
                  "no label card was kept with this record: the label on the container says it");
    }
    document.add(std::move(label));
    if (shown.card != nullptr) {
        DocumentSection wear{"Protective equipment that the label asks for", {}};
        for (const std::string& item : shown.card->protective_equipment) wear.add("", item);
        document.add(std::move(wear));
    }
    document.last.push_back(record.id == 0
                                ? "From a sheet that is not in the book yet."
                                : fmt::format("Record number {} of the book.", record.id));
    return document;
}

Document site_notice(const ApplicationShown& shown) {
    Document document;
    document.title =
        still_to_come(shown) ? "Pesticide will be applied here" : "Pesticide has been applied here";
    if (shown.card != nullptr && shown.card->from_label) {
        document.first.push_back("KEEP OFF. The label says: \"" + shown.card->from_label->re_entry +
                                 "\"");
    } else {
        document.first.push_back("KEEP OFF until: " + std::string(to_be_filled_in));
    }
    document.add(of_the_work(shown));
    document.add(who_to_ask(shown.record));
    DocumentSection removal{"This notice", {}};
    removal.add("Take down on", to_be_filled_in);
    document.add(std::move(removal));
    document.last.emplace_back(notice_rules);
    return document;
}

Document neighbour_notice(const ApplicationShown& shown) {
    Document document;
    document.title = still_to_come(shown)
                         ? "To the neighbours: ash trees near you are going to be treated"
                         : "To the neighbours: ash trees near you have been treated";
    document.add(of_the_work(shown));
    document.add(from_the_label(shown, Reader::neighbour));
    document.add(who_to_ask(shown.record));
    document.last.emplace_back(
        "Why: the emerald ash borer kills ash trees that are not treated. Keep children, pets and "
        "what they play with away from the treated trees for as long as the label says.");
    document.last.emplace_back(notice_rules);
    return document;
}

Document whole_record(const ApplicationShown& shown) {
    const ApplicationRecord& record = shown.record;
    Document document;
    document.title = record.id == 0
                         ? fmt::format("Application at {}, not in the book yet", shown.site)
                         : fmt::format("Application {} at {}", record.id, shown.site);
    if (record.correction) {
        document.first.push_back(fmt::format(
            "{} number {}: {}, {}. {}", record.correction->withdraws ? "Withdraws" : "Corrects",
            record.correction->of, record.correction->by, measure::long_text(record.correction->on),
            record.correction->why));
    }
    if (const std::string used = used_words(record); !used.empty()) {
        document.first.push_back(used);
    }
    std::optional<EntryGroup> last;
    for (const treat::RecordEntry& entry : treat::record_entries()) {
        if (last == entry.group) continue;
        last = entry.group;
        DocumentSection section{std::string(words(entry.group)), {}};
        add_entries(section, record, entry.group);
        if (entry.group == EntryGroup::product) {
            section.add("Active ingredient", actives_words(record));
        }
        if (entry.group == EntryGroup::who) {
            section.add("Assistants", names_of(record.assistants));
        }
        if (entry.group == EntryGroup::after) {
            section.add("Photographs", packs::joined(record.photos, "and"));
            section.add("Said not to apply", packs::joined(record.does_not_apply, "and"));
        }
        document.add(std::move(section));
        if (entry.group == EntryGroup::what) document.add(trees_of(record));
    }
    return document;
}

}  // namespace ashtriage::present
