// An application as it was done, told so fully that the record stands on its own years later: whom
// for, where, what, how much, how, in what weather, by whom.
//
// Plain values as written down; what is not known yet is empty. A record is never overwritten: a
// correction is a new record that takes the place of an old one. Which fields a law wants is in
// record_policy.hpp.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "observe/records.hpp"
#include "treat/acre_account.hpp"
#include "treat/amount.hpp"
#include "treat/label_card.hpp"
#include "treat/local_time.hpp"

namespace ashtriage::treat {

// Identities in a book. 0: not stored yet.
using ApplicationId = std::int64_t;
using OtherUseId = std::int64_t;
using RaisedAllowanceId = std::int64_t;

// Why a record takes the place of an earlier one of the same kind.
struct Correction {
    std::int64_t of = 0;  // the earlier record
    std::string by;
    measure::Date on{};
    std::string why;
    bool withdraws = false;  // the earlier one should not be there at all: nothing takes its place

    friend bool operator==(const Correction&, const Correction&) = default;
};

// Somebody who took part. Empty where it is not known.
struct Person {
    std::string name;
    std::string address;
    std::string license;  // or certification number: text, never a number
    std::optional<measure::Date> license_expires;

    friend bool operator==(const Person&, const Person&) = default;
};

// A rate in the label's own figures: "0.43 fl oz" and "inch DBH".
struct LabelledRate {
    std::string amount;
    std::string per;

    friend bool operator==(const LabelledRate&, const LabelledRate&) = default;
};

// Undiluted product and the water it was put into.
struct Dilution {
    Amount product;
    measure::Volume water;

    friend bool operator==(const Dilution&, const Dilution&) = default;
};

// What was treated, counted as the label counts it: by ground or, such as a hedge, by its length.
struct Extent {
    std::variant<measure::Area, measure::Length> size;
    std::string unit;  // in which the label counts: "acre", "ft"

    friend bool operator==(const Extent&, const Extent&) = default;
};

struct AppliedActive {
    std::string name;                   // as label cards spell it
    std::optional<measure::Mass> mass;  // in all of the product used; rounded up if worked out

    friend bool operator==(const AppliedActive&, const AppliedActive&) = default;
};

struct TreatedTree {
    std::optional<observe::TreeId> tree;  // none: a tree that is not in the book
    std::string label;                    // as it was at the time
    std::optional<measure::Length> dbh;
    std::optional<Amount> product;       // undiluted
    std::optional<measure::Volume> mix;  // product, surfactant and carrier together
    std::optional<LabelledRate> rate;    // that was used on this tree

    friend bool operator==(const TreatedTree&, const TreatedTree&) = default;
};

struct ApplicationRecord {
    ApplicationId id = 0;
    observe::SiteId site = 0;
    measure::Date written_on{};  // when the first record of this application was written
    std::optional<Correction> correction;

    measure::Date work_date{};  // where the trees stand
    std::optional<LocalTime> started;
    std::optional<LocalTime> finished;
    std::optional<UtcOffset> utc_offset;

    std::string customer_name;
    std::string customer_address;
    std::string site_address;
    std::string location;  // in words, so that an inspector finds it
    std::optional<observe::Position> position;
    std::string map_reference;

    std::string crop;  // the site in the label's sense: "ash tree, ornamental"
    std::string target_pest;
    std::vector<TreatedTree> trees;
    std::optional<int> number_of_trees;      // where they are not listed one by one
    std::optional<measure::Length> dbh_sum;  // likewise
    std::optional<Extent> extent;

    std::string product_name;
    std::string registration_number;  // text, never a number
    std::string establishment_number;
    std::string lot_number;
    std::string label_company;  // that the label names, where a rule asks for it
    std::vector<AppliedActive> actives;
    std::optional<bool> restricted_use;
    std::string label_card;       // its key
    std::string label_card_text;  // the whole card as it was

    std::optional<LabelledRate> rate;
    std::optional<Dilution> dilution;
    std::optional<Amount> planned_product;
    std::optional<Amount> total_product;  // used, undiluted
    std::optional<measure::Volume> mixed;
    std::optional<measure::Volume> total_mix;  // of that, applied

    std::string method;
    std::optional<CountedUse> counted_as;  // toward the yearly amount on an acre
    std::string equipment;
    std::string mix_load_place;

    std::optional<measure::Temperature> air_temperature;
    std::optional<measure::Speed> wind_speed;
    std::string wind_from;  // "NW", "calm", "variable"
    std::string soil_state;
    std::string rain_forecast;
    std::string bloom_state;

    Person applicator;
    Person supervisor;
    std::vector<Person> assistants;  // not certified, under supervision
    std::string assistant_training;  // where its record is kept
    std::string firm_name;
    std::string firm_address;
    std::string firm_license;
    std::string permit_number;

    std::optional<measure::Date> customer_copy_given_on;
    std::vector<std::string> photos;  // names of files
    std::string notes;
    // Names of fields (record_fields.hpp) that, as the writer says, do not apply: the dilution of a
    // product that is used as it is, assistants where there were none.
    std::vector<std::string> does_not_apply;

    friend bool operator==(const ApplicationRecord&, const ApplicationRecord&) = default;
};

// Another use of the same active ingredient on a site, which counts toward the yearly amount.
struct OtherUse {
    OtherUseId id = 0;
    observe::SiteId site = 0;
    std::string active_ingredient;  // as label cards spell it
    measure::Mass mass;
    measure::Date date{};
    std::string what;  // "turf, grubs", "shrubs along the drive"
    CountedUse counted_as = CountedUse::other;
    std::optional<Correction> correction;

    friend bool operator==(const OtherUse&, const OtherUse&) = default;
};

// A local label that allows more on an acre than the card does, with the person who has seen it.
struct RaisedAllowance {
    RaisedAllowanceId id = 0;
    observe::SiteId site = 0;
    std::string active_ingredient;  // as label cards spell it
    measure::Mass per_acre;         // in a calendar year
    std::string reference;          // of the label, such as its number
    std::string jurisdiction;
    measure::Date expires{};  // the last day it holds
    std::string confirmed_by;
    measure::Date confirmed_on{};
    std::optional<Correction> correction;

    friend bool operator==(const RaisedAllowance&, const RaisedAllowance&) = default;
};

// Of the listed trees, for a reader: "A-1, A-2 and A-7"; empty without a list.
std::string labels_of_trees(const ApplicationRecord& record);

// How many trees and how much DBH together: counted from the list where there is one, else as
// stated. Nothing when it is not known of all of them.
std::optional<int> trees_treated(const ApplicationRecord& record);
std::optional<measure::Length> dbh_treated(const ApplicationRecord& record);
// The product that the listed trees got; nothing when there is no list or an amount is missing.
// Throws InputError when some amounts are volumes and some weights, or the sum cannot be held.
std::optional<Amount> product_on_trees(const ApplicationRecord& record);

// Amounts are kept to the nearest tick, so that two halves of a fluid ounce are a tick more than a
// whole one. A microlitre or a microgram, far below any measuring device, is no difference. Throws
// InputError when one is a volume and one a weight.
bool measurably_more(const Amount& amount, const Amount& than);

enum class AgainstPlan { less, as_planned, more };

struct UsedAgainstPlanned {
    AgainstPlan used = AgainstPlan::as_planned;
    Amount by;  // how much less or more

    friend bool operator==(const UsedAgainstPlanned&, const UsedAgainstPlanned&) = default;
};

// Nothing when either is not known. Throws InputError when one is a volume and one a weight.
std::optional<UsedAgainstPlanned> used_against_planned(const ApplicationRecord& record);
// Mix that was made and not applied; nothing when either is not known.
std::optional<measure::Volume> left_over(const ApplicationRecord& record);

// As measured out, to the nearest tick. Throws InputError when the text is no amount.
Amount amount_of(const LabelledRate& rate);

// What the record puts on the acre account: a row for each active ingredient, none for a record
// that withdraws another. Nothing, which is not none, while the record does not say how much
// active ingredient was used or how it counts: the account cannot be told.
std::optional<std::vector<SpentActive>> spent_by(const ApplicationRecord& record);
SpentActive spent_by(const OtherUse& use);
RaisedLimit limit_of(const RaisedAllowance& allowance);

}  // namespace ashtriage::treat
