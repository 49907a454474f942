// What a rule asks of the record of an application: which fields, by when it is written, how long
// it is kept, when the customer gets a copy. And what of that is still open for a given record.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "treat/application_record.hpp"
#include "treat/record_fields.hpp"

namespace ashtriage::treat {

// Which products a rule is for. What is not known counts as all.
enum class ForProducts { all, restricted_use, not_known };

// A number of days or years with where it comes from.
struct SourcedNumber {
    int number = 0;
    SourceKeys sources;
};

// One or more lists of fields, of which one must be complete.
struct RequiredFields {
    std::vector<std::vector<const RecordField*>> either;
};

struct RecordPolicy {
    std::string key;           // "minnesota"
    std::string jurisdiction;  // "Minnesota, Stat. 18B.37 subd. 2"
    std::string about;
    ForProducts applies_to = ForProducts::all;
    // Nothing: the rule does not say, or nobody has read it there.
    std::optional<SourcedNumber> written_within_days;  // after the work; 0: the same day
    std::optional<SourcedNumber> kept_years;           // from the day of the work
    std::optional<SourcedNumber> customer_copy_within_days;
    ForProducts customer_copy_for = ForProducts::all;
    std::vector<RequiredFields> required;
    SourceKeys required_sources;
    // When somebody last held the policy against the rule in force; nothing: nobody yet.
    std::optional<measure::Date> checked_on;
};

struct RecordPolicies {
    std::string edition;
    std::vector<int> remind_after_days;  // the work, rising
    SourceKeys remind_sources;
    std::vector<RecordPolicy> policies;

    // Throws InputError for a key that is none, with the nearest one.
    const RecordPolicy& policy(std::string_view key) const;
    // The one that holds where no other is chosen, and that fills the gaps of the others.
    const RecordPolicy& strictest() const { return policy(strictest_key); }

    static constexpr std::string_view strictest_key = "strictest";
};

// False only for a rule on restricted-use products and a product that is known to be for general
// use: then nothing is missing and no duty arises.
bool applies(const RecordPolicy& policy, const ApplicationRecord& record);

struct MissingFields {
    std::vector<const RecordField*> fields;  // fill these in, and the requirement is met
    std::string words;  // "the wind speed"; for a choice all of it: "either ... or ..."
};

// What the record still lacks under the policy, in the order of the policy. A field that is said
// not to apply is not missing.
std::vector<MissingFields> missing_in(const ApplicationRecord& record, const RecordPolicy& policy);

enum class DutyKind { write_down, copy_to_customer, keep };

struct Duty {
    DutyKind kind = DutyKind::write_down;
    measure::Date
        due{};  // the last day in time; for DutyKind::keep the last day to keep the record
    bool from_strictest = false;  // the policy does not say, and the strictest stands in
    std::optional<measure::Date> done_on;
};

// By when what is due. `versions` are a record and its corrections, oldest first: the record is
// written down on the day of the first version that lacks nothing. Empty when the policy does not
// apply or the last version withdraws the record. Throws InputError without any version.
std::vector<Duty> duties(std::span<const ApplicationRecord> versions, const RecordPolicy& policy,
                         const RecordPolicies& policies);

struct Reminder {
    Duty duty;
    int day = 0;                         // after the work: the latest day of reminding reached
    bool overdue = false;                // the last day in time has passed
    std::vector<MissingFields> missing;  // for DutyKind::write_down
};

// What is still open on the day, once the first day of reminding has come.
std::vector<Reminder> reminders(std::span<const ApplicationRecord> versions,
                                const RecordPolicy& policy, const RecordPolicies& policies,
                                const measure::Date& as_of);

// That nobody has held the policy against the rule in force, or not for more than a year; empty
// within the year.
std::string age_note(const RecordPolicy& policy, const measure::Date& as_of);

}  // namespace ashtriage::treat
