#include "treat/record_policy.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <limits>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"

namespace ashtriage::treat {

namespace {

using Alternative = std::vector<const RecordField*>;

bool is_for(ForProducts products, const ApplicationRecord& record) {
    return products != ForProducts::restricted_use || record.restricted_use != false;
}

bool settled(const ApplicationRecord& record, const RecordField& field) {
    return field.given(record) || said_not_to_apply(record, field);
}

Alternative lacking(const ApplicationRecord& record, const Alternative& fields) {
    Alternative missing;
    for (const RecordField* field : fields) {
        if (!settled(record, *field)) missing.push_back(field);
    }
    return missing;
}

// One of several lists is not complete by what does not apply alone: something must be told.
bool complete(const ApplicationRecord& record, const RequiredFields& required,
              const Alternative& fields) {
    if (!lacking(record, fields).empty()) return false;
    return required.either.size() == 1 ||
           std::ranges::any_of(fields,
                               [&](const RecordField* field) { return field->given(record); });
}

std::string words_of(const RequiredFields& required) {
    std::string words;
    for (const Alternative& fields : required.either) {
        std::string together;
        for (const RecordField* field : fields) {
            together += fmt::format("{}{}", together.empty() ? "" : " and ", field->words);
        }
        words += (words.empty() ? "" : ", or ") + together;
    }
    return required.either.size() == 1 ? words : "either " + words;
}

// The list that takes the fewest entries to complete.
MissingFields least_missing(const ApplicationRecord& record, const RequiredFields& required) {
    MissingFields missing{{}, words_of(required)};
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const Alternative& fields : required.either) {
        const Alternative these = lacking(record, fields);
        if (these.empty() || these.size() >= fewest) continue;
        fewest = these.size();
        missing.fields = these;
    }
    // Every list is said not to apply: the first one is as good as any.
    if (missing.fields.empty()) missing.fields = required.either.front();
    return missing;
}

measure::Date written_on(const ApplicationRecord& version) {
    return version.correction ? version.correction->on : version.written_on;
}

// What the policy says or, where it does not, the strictest.
struct Chosen {
    int number = 0;
    bool from_strictest = false;
};

Chosen chosen(const std::optional<SourcedNumber>& of_policy,
              const std::optional<SourcedNumber>& of_strictest) {
    if (of_policy) return {of_policy->number, false};
    if (!of_strictest) {
        throw measure::InputError("The strictest record policy does not say what others leave open",
                                  {}, "Complete it in records.yaml.");
    }
    return {of_strictest->number, true};
}

Duty duty_to_write(std::span<const ApplicationRecord> versions, const RecordPolicy& policy,
                   const RecordPolicy& strictest) {
    const Chosen days = chosen(policy.written_within_days, strictest.written_within_days);
    Duty duty{DutyKind::write_down, measure::add_days(versions.back().work_date, days.number),
              days.from_strictest, std::nullopt};
    // A later version that lacks something again leaves the duty open.
    if (!missing_in(versions.back(), policy).empty()) return duty;
    const auto complete = std::ranges::find_if(versions, [&](const ApplicationRecord& version) {
        return missing_in(version, policy).empty();
    });
    duty.done_on = written_on(*complete);
    return duty;
}

Duty duty_to_copy(const ApplicationRecord& last, const RecordPolicy& policy,
                  const RecordPolicy& strictest) {
    const Chosen days =
        chosen(policy.customer_copy_within_days, strictest.customer_copy_within_days);
    return {DutyKind::copy_to_customer, measure::add_days(last.work_date, days.number),
            days.from_strictest, last.customer_copy_given_on};
}

Duty duty_to_keep(const ApplicationRecord& last, const RecordPolicy& policy,
                  const RecordPolicy& strictest) {
    const Chosen years = chosen(policy.kept_years, strictest.kept_years);
    // Rather a day too long than one too short.
    return {DutyKind::keep,
            measure::add_years(last.work_date, years.number, measure::LeapDay::march_1),
            years.from_strictest, std::nullopt};
}

}  // namespace

const RecordPolicy& RecordPolicies::policy(std::string_view key) const {
    const auto found = std::ranges::find(policies, key, &RecordPolicy::key);
    if (found != policies.end()) return *found;
    std::vector<std::string> keys;
    for (const RecordPolicy& each : policies) keys.push_back(each.key);
    throw measure::InputError(fmt::format("there is no record policy '{}'", key), {},
                              packs::nearest_hint(key, keys));
}

bool applies(const RecordPolicy& policy, const ApplicationRecord& record) {
    return is_for(policy.applies_to, record);
}

std::vector<MissingFields> missing_in(const ApplicationRecord& record, const RecordPolicy& policy) {
    std::vector<MissingFields> missing;
    if (!applies(policy, record)) return missing;
    for (const RequiredFields& required : policy.required) {
        const bool met = std::ranges::any_of(required.either, [&](const Alternative& fields) {
            return complete(record, required, fields);
        });
        if (!met) missing.push_back(least_missing(record, required));
    }
    return missing;
}

std::vector<Duty> duties(std::span<const ApplicationRecord> versions, const RecordPolicy& policy,
                         const RecordPolicies& policies) {
    if (versions.empty()) throw measure::InputError("There is no record to have duties for");
    const ApplicationRecord& last = versions.back();
    const bool withdrawn = last.correction && last.correction->withdraws;
    if (withdrawn || !applies(policy, last)) return {};
    const RecordPolicy& strictest = policies.strictest();
    std::vector<Duty> all{duty_to_write(versions, policy, strictest)};
    if (is_for(policy.customer_copy_for, last)) {
        all.push_back(duty_to_copy(last, policy, strictest));
    }
    all.push_back(duty_to_keep(last, policy, strictest));
    return all;
}

std::vector<Reminder> reminders(std::span<const ApplicationRecord> versions,
                                const RecordPolicy& policy, const RecordPolicies& policies,
                                const measure::Date& as_of) {
    std::vector<Reminder> open;
    for (const Duty& duty : duties(versions, policy, policies)) {
        if (duty.kind == DutyKind::keep || duty.done_on) continue;
        const int passed = measure::days_between(versions.back().work_date, as_of);
        const auto next = std::ranges::upper_bound(policies.remind_after_days, passed);
        if (next == policies.remind_after_days.begin()) continue;
        Reminder reminder{duty, *(next - 1), as_of > duty.due, {}};
        if (duty.kind == DutyKind::write_down) {
            reminder.missing = missing_in(versions.back(), policy);
        }
        open.push_back(std::move(reminder));
    }
    return open;
}

std::string age_note(const RecordPolicy& policy, const measure::Date& as_of) {
    if (!policy.checked_on) {
        return fmt::format(
            "Nobody has held the record policy '{}' against the rule in force yet: do so before "
            "relying on it.",
            policy.key);
    }
    const measure::Date year_later =
        measure::add_years(*policy.checked_on, 1, measure::LeapDay::february_28);
    if (as_of <= year_later) return {};
    return fmt::format(
        "The record policy '{}' was last held against the rule in force on {}, more than a year "
        "ago: check it again.",
        policy.key, measure::long_text(*policy.checked_on));
}

}  // namespace ashtriage::treat
