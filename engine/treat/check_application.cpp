#include "treat/check_application.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/nearest_name.hpp"
#include "measure/parse.hpp"
#include "observe/complaints.hpp"
#include "treat/record_fields.hpp"

namespace ashtriage::treat {

using observe::check_line;
using observe::check_needed_line;
using observe::Complaints;

namespace {

constexpr std::string_view leave_out = "Leave an amount out when it is not known.";

template <class Quantity>
void check_above_zero(const std::optional<Quantity>& quantity, const std::string& called,
                      Complaints& complaints) {
    if (quantity && *quantity <= Quantity{}) complaints.add(called + " is not above 0", leave_out);
}

void check_amount(const std::optional<Amount>& amount, const std::string& called,
                  Complaints& complaints) {
    if (!amount) return;
    const bool above = is_volume(*amount) ? volume_of(*amount) > measure::Volume{}
                                          : mass_of(*amount) > measure::Mass{};
    if (!above) complaints.add(called + " is not above 0", leave_out);
}

void check_date(const measure::Date& date, const std::string& called, Complaints& complaints) {
    if (!date.ok()) complaints.add(called + " is not a date of the calendar");
}

void check_not_before(const measure::Date& later, const std::string& called,
                      const measure::Date& earlier, const std::string& than,
                      Complaints& complaints) {
    if (later.ok() && earlier.ok() && later < earlier) {
        complaints.add(fmt::format("{}, {}, is before {}, {}", called, measure::text(later), than,
                                   measure::text(earlier)),
                       "Check the dates.");
    }
}

void check_correction(const std::optional<Correction>& correction, Complaints& complaints) {
    if (!correction) return;
    if (correction->of <= 0) {
        complaints.add("it corrects another record and does not say which",
                       "Give the number of the record that it takes the place of.");
    }
    check_needed_line(correction->by, "the name of who corrects", complaints);
    check_needed_line(correction->why, "the reason for the correction", complaints);
    check_date(correction->on, "the day of the correction", complaints);
}

void check_active_name(const std::string& name, Complaints& complaints) {
    check_needed_line(name, "the name of an active ingredient", complaints);
    // Amounts of one active ingredient are added up by its name, which therefore has one spelling.
    if (std::ranges::any_of(name, [](char c) { return c >= 'A' && c <= 'Z'; })) {
        complaints.add(fmt::format("the active ingredient '{}' is not in small letters", name),
                       "Spell it as label cards do, such as dinotefuran.");
    }
}

void check_when(const ApplicationRecord& record, Complaints& complaints) {
    check_date(record.work_date, "the date of the work", complaints);
    check_date(record.written_on, "the day of writing", complaints);
    check_not_before(record.written_on, "the day of writing", record.work_date, "the work",
                     complaints);
    const auto out_of_day = [](const std::optional<LocalTime>& time) {
        return time && (time->minutes < 0 || time->minutes >= 24 * 60);
    };
    if (out_of_day(record.started) || out_of_day(record.finished)) {
        complaints.add("a time is not one of the day");
    }
    if (record.utc_offset &&
        (record.utc_offset->minutes < -12 * 60 || record.utc_offset->minutes > 14 * 60)) {
        complaints.add("its distance from UTC is not between -12:00 and +14:00");
    }
    if (record.started && record.finished && *record.finished < *record.started) {
        complaints.add(
            fmt::format("the work ended at {}, before it began at {}", text(*record.finished),
                        text(*record.started)),
            "Check the times; for work that went on after midnight write a record for each day.");
    }
    if (record.customer_copy_given_on) {
        check_date(*record.customer_copy_given_on, "the day of the customer's copy", complaints);
        check_not_before(*record.customer_copy_given_on, "the day of the customer's copy",
                         record.work_date, "the work", complaints);
    }
    if (record.correction) {
        check_not_before(record.correction->on, "the day of the correction", record.written_on,
                         "the day of writing", complaints);
    }
}

void check_lines(const ApplicationRecord& record, Complaints& complaints) {
    const std::array<std::pair<const std::string&, const char*>, 23> lines{
        {{record.customer_name, "the name of the customer"},
         {record.location, "the location"},
         {record.map_reference, "the map reference"},
         {record.crop, "what was treated"},
         {record.target_pest, "the pest"},
         {record.product_name, "the name of the product"},
         {record.registration_number, "the registration number"},
         {record.establishment_number, "the establishment number"},
         {record.lot_number, "the lot number"},
         {record.label_company, "the company on the label"},
         {record.label_card, "the name of the label card"},
         {record.method, "the method"},
         {record.equipment, "the equipment"},
         {record.mix_load_place, "the place of mixing and loading"},
         {record.wind_from, "where the wind came from"},
         {record.soil_state, "the state of the soil"},
         {record.rain_forecast, "the forecast of rain"},
         {record.bloom_state, "what was in bloom"},
         {record.assistant_training, "the proof of training"},
         {record.firm_name, "the name of the firm"},
         {record.firm_license, "the license of the firm"},
         {record.permit_number, "the number of the permit"},
         {record.supervisor.license, "the supervisor's license"}}};
    for (const auto& [line, called] : lines) check_line(line, called, complaints);
    for (const std::string& photo : record.photos) {
        check_needed_line(photo, "the name of a photograph", complaints);
    }
}

void check_person(const Person& person, const std::string& who, Complaints& complaints) {
    check_line(person.name, "the name of the " + who, complaints);
    check_line(person.license, "the license of the " + who, complaints);
    if (person.license_expires) {
        check_date(*person.license_expires, "the last day of the license of the " + who,
                   complaints);
    }
}

void check_people(const ApplicationRecord& record, Complaints& complaints) {
    check_person(record.applicator, "applicator", complaints);
    check_person(record.supervisor, "supervisor", complaints);
    for (const Person& assistant : record.assistants) {
        check_needed_line(assistant.name, "the name of an assistant", complaints);
        check_person(assistant, "assistant", complaints);
    }
}

void check_rate(const std::optional<LabelledRate>& rate, Complaints& complaints) {
    if (!rate) return;
    check_needed_line(rate->per, "what the rate is counted by", complaints);
    try {
        amount_of(*rate);
    } catch (const measure::InputError& error) {
        complaints.add(
            fmt::format("the rate '{}' is not an amount ({})", rate->amount, error.what()),
            error.hint());
    }
}

void check_trees(const ApplicationRecord& record, Complaints& complaints) {
    std::set<std::string_view> labels;
    std::set<observe::TreeId> ids;
    for (const TreatedTree& tree : record.trees) {
        const std::string named = fmt::format("tree '{}'", tree.label);
        check_needed_line(tree.label, "the label of a tree", complaints);
        if (!labels.insert(tree.label).second || (tree.tree && !ids.insert(*tree.tree).second)) {
            complaints.add(named + " is listed more than once");
        }
        check_above_zero(tree.dbh, "the DBH of " + named, complaints);
        check_above_zero(tree.mix, "the mix on " + named, complaints);
        check_amount(tree.product, "the product on " + named, complaints);
        check_rate(tree.rate, complaints);
    }
    if (record.number_of_trees && *record.number_of_trees <= 0) {
        complaints.add("the number of trees is not above 0");
    }
    check_above_zero(record.dbh_sum, "the sum of DBH", complaints);
    constexpr std::string_view count_again = "Check the list, or leave the sum to be counted.";
    if (record.number_of_trees && record.number_of_trees != trees_treated(record)) {
        complaints.add(fmt::format("it lists {} trees and gives their number as {}",
                                   record.trees.size(), *record.number_of_trees),
                       count_again);
    }
    const auto dbh = dbh_treated(record);
    if (record.dbh_sum && dbh && *dbh != *record.dbh_sum) {
        complaints.add("the DBH of its trees does not add up to the sum that it gives",
                       count_again);
    }
}

bool is_measured_so(const Amount& amount, bool volume) {
    return is_volume(amount) == volume;
}

// All amounts of one product are volumes, or all are weights.
bool amounts_agree(const ApplicationRecord& record) {
    std::vector<Amount> amounts;
    if (record.total_product) amounts.push_back(*record.total_product);
    if (record.planned_product) amounts.push_back(*record.planned_product);
    if (record.dilution) amounts.push_back(record.dilution->product);
    for (const TreatedTree& tree : record.trees) {
        if (tree.product) amounts.push_back(*tree.product);
    }
    return std::ranges::all_of(amounts, [&](const Amount& amount) {
        return is_measured_so(amount, is_volume(amounts.front()));
    });
}

// What is known of the single trees is never more than the whole.
void check_sums(const ApplicationRecord& record, Complaints& complaints) {
    measure::Volume mix;
    for (const TreatedTree& tree : record.trees) mix += tree.mix.value_or(measure::Volume{});
    if (record.total_mix && measurably_more(mix, *record.total_mix)) {
        complaints.add("its trees got more mix than it gives in all");
    }
    if (record.mixed && record.total_mix && measurably_more(*record.total_mix, *record.mixed)) {
        complaints.add("more mix was applied than was made");
    }
    const auto on_trees = product_on_trees(record);
    if (on_trees && record.total_product && measurably_more(*on_trees, *record.total_product)) {
        complaints.add("its trees got more product than it gives in all");
    }
}

void check_amounts(const ApplicationRecord& record, Complaints& complaints) {
    check_amount(record.total_product, "the total of the product", complaints);
    check_amount(record.planned_product, "the planned amount of the product", complaints);
    check_above_zero(record.mixed, "the mix that was made", complaints);
    check_above_zero(record.total_mix, "the mix that was applied", complaints);
    if (record.dilution) {
        check_amount(record.dilution->product, "the product of the dilution", complaints);
        check_above_zero(std::optional(record.dilution->water), "the water of the dilution",
                         complaints);
    }
    check_rate(record.rate, complaints);
    std::set<std::string_view> actives;
    for (const AppliedActive& active : record.actives) {
        check_active_name(active.name, complaints);
        check_above_zero(active.mass, fmt::format("the amount of {}", active.name), complaints);
        if (!actives.insert(active.name).second) {
            complaints.add(fmt::format("the active ingredient '{}' is given twice", active.name));
        }
    }
    if (!amounts_agree(record)) {
        complaints.add("one amount of the product is a volume and another a weight",
                       "Give all of them as they are measured out.");
        return;
    }
    try {
        check_sums(record, complaints);
    } catch (const measure::InputError&) {  // a sum that nothing can hold
        complaints.add("its amounts are larger than any property can take");
    }
}

void check_extent(const std::optional<Extent>& extent, Complaints& complaints) {
    if (!extent) return;
    const bool is_area = std::holds_alternative<measure::Area>(extent->size);
    const bool above = is_area ? std::get<measure::Area>(extent->size) > measure::Area{}
                               : std::get<measure::Length>(extent->size) > measure::Length{};
    const bool unit_fits =
        is_area ? measure::find_unit<measure::AreaDimension>(extent->unit) != nullptr
                : measure::find_unit<measure::LengthDimension>(extent->unit) != nullptr;
    if (!above) complaints.add("what was treated has no size", leave_out);
    if (!unit_fits) {
        complaints.add(
            fmt::format("'{}' is not a unit of {}", extent->unit, is_area ? "area" : "length"));
    }
}

void check_does_not_apply(const ApplicationRecord& record, Complaints& complaints) {
    std::vector<std::string_view> names;
    for (const RecordField& field : record_fields()) {
        if (field.may_not_apply) names.push_back(field.name);
    }
    std::set<std::string_view> seen;
    for (const std::string& name : record.does_not_apply) {
        const RecordField* field = find_record_field(name);
        if (field == nullptr || !field->may_not_apply) {
            const auto nearest = measure::nearest_name(name, names);
            complaints.add(
                fmt::format("'{}' is not a field that can be said not to apply", name),
                nearest && field == nullptr ? fmt::format("Did you mean '{}'?", *nearest) : "");
        } else if (field->given(record)) {
            complaints.add(fmt::format("{} is given and is said not to apply", field->words));
        }
        if (!seen.insert(name).second) {
            complaints.add(fmt::format("'{}' is said twice not to apply", name));
        }
    }
}

}  // namespace

void check(const ApplicationRecord& record) {
    Complaints complaints;
    check_when(record, complaints);
    check_correction(record.correction, complaints);
    check_lines(record, complaints);
    observe::check_position(record.position, complaints);
    check_trees(record, complaints);
    check_extent(record.extent, complaints);
    check_amounts(record, complaints);
    if (record.wind_speed && *record.wind_speed < measure::Speed{}) {
        complaints.add("its wind speed is below 0");
    }
    check_people(record, complaints);
    check_does_not_apply(record, complaints);
    complaints.throw_if_any(record.work_date.ok()
                                ? "The application of " + measure::text(record.work_date)
                                : std::string("An application"));
}

void check(const OtherUse& use) {
    Complaints complaints;
    check_active_name(use.active_ingredient, complaints);
    check_above_zero(std::optional(use.mass), "its amount of active ingredient", complaints);
    check_date(use.date, "its date", complaints);
    check_needed_line(use.what, "what was treated", complaints);
    check_correction(use.correction, complaints);
    complaints.throw_if_any(fmt::format("The other use of '{}'", use.active_ingredient));
}

void check(const RaisedAllowance& allowance) {
    Complaints complaints;
    check_active_name(allowance.active_ingredient, complaints);
    check_above_zero(std::optional(allowance.per_acre), "its amount per acre", complaints);
    check_needed_line(allowance.reference, "its reference", complaints);
    check_needed_line(allowance.jurisdiction, "where it is in force", complaints);
    check_needed_line(allowance.confirmed_by, "the name of who confirms it", complaints);
    check_date(allowance.expires, "its last day", complaints);
    check_date(allowance.confirmed_on, "the day of the confirmation", complaints);
    check_not_before(allowance.expires, "its last day", allowance.confirmed_on,
                     "the day of the confirmation", complaints);
    check_correction(allowance.correction, complaints);
    complaints.throw_if_any(
        fmt::format("The raised allowance of '{}'", allowance.active_ingredient));
}

}  // namespace ashtriage::treat
