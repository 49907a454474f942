// The fields of the record of an application by name, as record policies ask for them.
#pragma once

#include <span>
#include <string_view>

#include "treat/application_record.hpp"

namespace ashtriage::treat {

struct RecordField {
    std::string_view name;   // in rule files: "start_time"
    std::string_view words;  // for people: "the time at which the work began"
    // There are applications without it: the dilution of a product that is used as it is.
    bool may_not_apply = false;
    bool (*given)(const ApplicationRecord&) = nullptr;
};

// In the order in which a record is written. When a copy was given to the customer is not among
// them: that is a duty with a day of its own.
std::span<const RecordField> record_fields();

// Null for a name that is none.
const RecordField* find_record_field(std::string_view name);

// The writer says that there is nothing to fill in.
bool said_not_to_apply(const ApplicationRecord& record, const RecordField& field);

}  // namespace ashtriage::treat
