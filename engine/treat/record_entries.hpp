// The entries of the record of an application one by one, as text: how each is written on a sheet,
// shown and exported, and how a sheet is read back.
//
// Lists (trees, active ingredients, assistants, photographs) are not among them: see
// application_sheet.hpp.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "treat/application_record.hpp"

namespace ashtriage::treat {

enum class EntryGroup { when, whom_and_where, what, product, amount, how, conditions, who, after };

std::string_view words(EntryGroup group);

struct RecordEntry {
    EntryGroup group = EntryGroup::when;
    // On a sheet and as a column: "start_time"; where a record policy can ask for it, the name of
    // the field (record_fields.hpp).
    std::string_view name;
    std::string_view heading;  // for people: "Work began"
    std::string_view form;     // how it is written, for a sheet to be filled in: "07:40"

    std::string (*text)(const ApplicationRecord&) = nullptr;  // empty when it is not given
    // Throws measure::InputError for text that is not of the form.
    void (*read)(ApplicationRecord&, std::string_view) = nullptr;
};

// In the order in which a record is written.
std::span<const RecordEntry> record_entries();

// A volume or a weight. Throws measure::InputError; a bare "oz" is refused, it could be either.
Amount parse_amount(std::string_view text);
// "0.43 fl oz per inch DBH". Throws measure::InputError without a "per".
LabelledRate parse_labelled_rate(std::string_view text);

// Texts that are read back as exactly the same quantity, in the first of the usual units in which
// it is a short decimal.
std::string exact_text(const Amount& amount);
std::string exact_text(measure::Volume volume);
std::string exact_text(measure::Mass mass);
std::string exact_text(measure::Length length);
std::string exact_text(measure::Area area);
std::string exact_text(measure::Temperature temperature);
std::string exact_text(measure::Speed speed);
std::string text(const LabelledRate& rate);

}  // namespace ashtriage::treat
