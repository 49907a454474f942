#include "treat/check_label_card.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "measure/units.hpp"
#include "treat/dose.hpp"

namespace ashtriage::treat {

using measure::Mass;
namespace units = measure::units;

namespace {

using CardComplaints = std::vector<Complaint>;

bool given(const Amount& amount) {
    return std::visit([](const auto& quantity) { return quantity.ticks() > 0; }, amount);
}

bool given(const StatedAmount& amount) {
    return given(amount_of(amount));
}

void check_rate(const Rate& rate, CardComplaints& complaints) {
    if (!given(rate.low) || !given(rate.usual) || !given(rate.high)) return;
    const Amount low = amount_of(rate.low);
    const Amount usual = amount_of(rate.usual);
    const Amount high = amount_of(rate.high);
    if (low <= usual && usual <= high) return;
    complaints.push_back(
        {"rate", "rate-out-of-order",
         fmt::format("the rate runs from {} over {} to {}; expected low, usual and "
                     "high to rise or be equal",
                     plain_text(low), plain_text(usual), plain_text(high)),
         "check each figure and its unit against the label"});
}

void check_rates(const LabelCard& card, CardComplaints& complaints) {
    for (const RateClass& line : card.rates.classes) check_rate(line.rate, complaints);
    if (card.rates.classes.empty()) {
        complaints.push_back({"rate", "no-classes", "the rate has an empty list of classes",
                              "add a line for each DBH class of the label's table"});
    }
    const bool by_mix = card.rates.per.per == Per::finished_mix;
    if (by_mix && (!card.mix || card.mix->stated != Mix::Stated::finished ||
                   card.mix->per.per == Per::finished_mix)) {
        complaints.push_back({"rate", "rate-without-mix",
                              "the rate is per finished mix, and the card does not say how much "
                              "finished mix a tree takes",
                              "add 'mix' with 'finished' per bark area, per inch DBH or per tree"});
    }
    const auto needs_bark = [](const Basis& basis) { return basis.per == Per::bark_area; };
    const bool by_bark = needs_bark(card.rates.per) || (card.mix && needs_bark(card.mix->per));
    if (by_bark && !card.spray) {
        complaints.push_back({"rate", "bark-without-height",
                              "an amount is per bark area, and the card does not say how high the "
                              "bark is sprayed",
                              "add 'spray: {up_to: ...}'"});
    }
}

// Of a table by tree a larger class never takes less: a line that does is a slip of the pen.
void check_classes(const LabelCard& card, CardComplaints& complaints) {
    if (card.rates.per.per != Per::tree) return;
    for (std::size_t line = 1; line < card.rates.classes.size(); ++line) {
        const StatedAmount& smaller = card.rates.classes[line - 1].rate.high;
        const StatedAmount& larger = card.rates.classes[line].rate.high;
        if (!given(smaller) || !given(larger) || is_volume(smaller) != is_volume(larger)) continue;
        if (amount_of(smaller) <= amount_of(larger)) continue;
        complaints.push_back(
            {"rate", "classes-fall",
             fmt::format("a class of larger trees takes {}, less than the {} of the "
                         "class before it",
                         plain_text(amount_of(larger)), plain_text(amount_of(smaller))),
             "check each line of the table against the label"});
    }
}

// What the smallest tree of the card takes at the lowest rate; nothing where that is not known.
std::optional<Amount> least_for_a_tree(const LabelCard& card) {
    if (card.rates.classes.empty()) return std::nullopt;
    const StatedAmount& low = card.rates.classes.front().rate.low;
    const Basis& per = card.rates.per;
    if (per.per == Per::tree) return amount_of(low);
    const bool by_dbh = per.per == Per::inch_dbh || per.per == Per::cm_dbh;
    if (!by_dbh || !card.dbh.from || !given(low)) return std::nullopt;
    return multiplied(low, card.dbh.from->ticks(), per.ticks);
}

void check_most_for_a_tree(const LabelCard& card, CardComplaints& complaints) {
    const auto least = least_for_a_tree(card);
    if (!card.limits.per_application || !least) return;
    const Amount most = amount_of(*card.limits.per_application);
    if (is_volume(most) != is_volume(*least) || !given(most) || most >= *least) return;
    complaints.push_back({"limits", "maximum-below-minimum",
                          fmt::format("the most for one application, {}, is less than the lowest "
                                      "rate asks for the smallest tree, {}",
                                      plain_text(most), plain_text(*least)),
                          "check both figures and their units against the label"});
}

// Bounds for the density of a liquid product in grams per millilitre: light solvents lie near the
// lower, thick suspensions well below the upper. They are there to catch a slip of the pen or of a
// unit, and come from no source.
constexpr double lightest_liquid = 0.7;
constexpr double heaviest_liquid = 1.6;
// A percentage on a dry product's label is rounded when it is printed.
constexpr double printed_rounding = 0.01;

void check_liquid(const Strength& strength, CardComplaints& complaints) {
    const double grams_per_millilitre =
        strength.active.in(units::gram) / volume_of(strength.per).in(units::millilitre);
    if (!strength.percent_by_weight) {
        if (grams_per_millilitre > heaviest_liquid) {
            complaints.push_back(
                {"strength", "strength-above-whole",
                 fmt::format("the strength is {:.3g} g of active ingredient in each "
                             "mL, more than any liquid holds",
                             grams_per_millilitre),
                 "check the two amounts and their units against the label"});
        }
        return;
    }
    const double share = strength.percent_by_weight->in(units::percent) / 100.0;
    const double density = grams_per_millilitre / share;
    if (density >= lightest_liquid && density <= heaviest_liquid) return;
    complaints.push_back(
        {"strength", "strength-contradiction",
         fmt::format("the strength is stated twice and does not agree: {} in {} and {} % by weight "
                     "would make a product of {:.3g} g per mL",
                     plain_text(strength.active), plain_text(strength.per),
                     strength.percent_by_weight->text(units::percent, 2), density),
         "copy both from the label again, or leave percent_by_weight out"});
}

void check_dry(const Strength& strength, CardComplaints& complaints) {
    const double stated = strength.active / mass_of(strength.per);
    if (stated > 1.0) {
        complaints.push_back(
            {"strength", "strength-above-whole",
             fmt::format("the strength is {} of active ingredient in {} of product, "
                         "more than the whole",
                         plain_text(strength.active), plain_text(strength.per)),
             "check the two amounts and their units against the label"});
        return;
    }
    if (!strength.percent_by_weight) return;
    const double percent = strength.percent_by_weight->in(units::percent) / 100.0;
    if (std::abs(stated - percent) <= printed_rounding * percent) return;
    complaints.push_back(
        {"strength", "strength-contradiction",
         fmt::format(
             "the strength is stated twice and does not agree: {} in {} is {:.4g} %, not {} "
             "% by weight",
             plain_text(strength.active), plain_text(strength.per), 100.0 * stated,
             strength.percent_by_weight->text(units::percent, 2)),
         "copy both from the label again, or leave percent_by_weight out"});
}

void check_strength(const Strength& strength, CardComplaints& complaints) {
    if (strength.active <= Mass() || !given(strength.per)) return;
    if (strength.percent_by_weight && strength.percent_by_weight->ticks() <= 0) return;
    if (is_volume(strength.per)) {
        check_liquid(strength, complaints);
    } else {
        check_dry(strength, complaints);
    }
}

void check_dbh(const DbhRange& dbh, CardComplaints& complaints) {
    if (!dbh.from || !dbh.to || *dbh.from <= *dbh.to) return;
    complaints.push_back(
        {"dbh", "dbh-out-of-order",
         fmt::format("the smallest DBH, {} inches, is above the largest, {} inches",
                     dbh.from->text(units::inch, 1), dbh.to->text(units::inch, 1)),
         "exchange 'from' and 'to'"});
}

// Trees to try the card on: one in each class, within the card's range.
std::vector<measure::Length> trial_dbhs(const LabelCard& card) {
    std::vector<measure::Length> dbhs;
    for (const RateClass& line : card.rates.classes) {
        measure::Length dbh = line.to.value_or(measure::Length::from_ticks(units::inch.ticks * 10));
        if (card.dbh.from) dbh = std::max(dbh, *card.dbh.from);
        if (card.dbh.to) dbh = std::min(dbh, *card.dbh.to);
        dbhs.push_back(dbh);
    }
    return dbhs;
}

// Labels ask for a tenth of a percent to a few percent, as far as memory goes: more is a slipped
// decimal point. A bound of our own that comes from no source.
constexpr std::int64_t most_percent_surfactant = 10;

void check_surfactant(const LabelCard& card, CardComplaints& complaints) {
    if (!card.surfactant) return;
    const auto* share = std::get_if<measure::Percent>(&card.surfactant->share);
    if (share != nullptr && *share > measure::Percent::from_ticks(measure::units::percent.ticks *
                                                                  most_percent_surfactant)) {
        complaints.push_back(
            {"surfactant", "surfactant-share",
             fmt::format("{} of the finished volume is surfactant; expected {} % at the most",
                         share->with_unit(measure::units::percent, 2), most_percent_surfactant),
             "check the decimal point against the label"});
    }
    if (card.mix) return;
    complaints.push_back({"surfactant", "surfactant-without-mix",
                          "there is a surfactant but no mix to put it in",
                          "add 'mix' with the carrier and the finished volume"});
}

void check_devices(const LabelCard& card, CardComplaints& complaints) {
    const auto check = [&](bool needed, bool present, std::string_view what) {
        if (needed && !present) {
            complaints.push_back(
                {"measure_with", "device-missing", fmt::format("'measure_with' has no '{}'", what),
                 "give the smallest mark of what it is measured with, such as 1 mL"});
        } else if (present && !needed) {
            complaints.push_back({"measure_with", "device-unused",
                                  fmt::format("'measure_with' has a '{}', and the card has none to "
                                              "measure",
                                              what),
                                  "leave it out, or add what is measured with it"});
        }
    };
    check(card.surfactant.has_value(), card.measure_with.surfactant.has_value(), "surfactant");
    check(card.mix.has_value(), card.measure_with.carrier.has_value(), "carrier");
}

void check_application(const LabelCard& card, CardComplaints& complaints) {
    const bool sprayed = card.application == Application::basal_trunk_spray;
    if (sprayed && !card.spray) {
        complaints.push_back({"application", "spray-height-missing",
                              "a basal trunk spray needs the height up to which bark is sprayed",
                              "add 'spray: {up_to: ...}'"});
    }
    if (!sprayed && card.spray) {
        complaints.push_back(
            {"spray", "not-for-this-application",
             fmt::format("a height of spraying does not belong to a {}", words(card.application)),
             "leave 'spray' out"});
    }
    if (card.holes && card.application != Application::trunk_injection) {
        complaints.push_back({"holes", "not-for-this-application",
                              fmt::format("injection holes around the trunk do not belong to a {}",
                                          words(card.application)),
                              "leave 'holes' out"});
    }
}

void check_conditions(const Conditions& conditions, CardComplaints& complaints) {
    const auto& from = conditions.temperature_from;
    const auto& to = conditions.temperature_to;
    if (!from || !to || *from < *to) return;
    complaints.push_back({"conditions", "temperature-out-of-order",
                          "the lowest temperature is not below the highest",
                          "exchange 'from' and 'to'"});
}

}  // namespace

std::vector<Complaint> complaints_about(const LabelCard& card) {
    CardComplaints complaints;
    check_rates(card, complaints);
    check_classes(card, complaints);
    check_most_for_a_tree(card, complaints);
    check_strength(card.strength, complaints);
    for (const OtherActive& other : card.other_actives) check_strength(other.strength, complaints);
    check_dbh(card.dbh, complaints);
    check_devices(card, complaints);
    check_application(card, complaints);
    check_conditions(card.conditions, complaints);
    check_surfactant(card, complaints);
    return complaints;
}

namespace {

bool same_rates(const Rates& a, const Rates& b) {
    const auto same_line = [](const RateClass& x, const RateClass& y) {
        return x.to == y.to && amount_of(x.rate.low) == amount_of(y.rate.low) &&
               amount_of(x.rate.usual) == amount_of(y.rate.usual) &&
               amount_of(x.rate.high) == amount_of(y.rate.high);
    };
    return a.per.per == b.per.per && a.per.ticks == b.per.ticks &&
           std::ranges::equal(a.classes, b.classes, same_line);
}

bool same_amount(const std::optional<StatedAmount>& a, const std::optional<StatedAmount>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    return amount_of(*a) == amount_of(*b);
}

bool same_limits(const LabelCard& a, const LabelCard& b) {
    return same_amount(a.limits.per_application, b.limits.per_application) &&
           a.limits.applications_per_year == b.limits.applications_per_year &&
           a.limits.again_after_months == b.limits.again_after_months &&
           a.limits.again_after_days == b.limits.again_after_days && a.dbh.from == b.dbh.from &&
           a.dbh.to == b.dbh.to;
}

// Zeros that lead a part of a registration number are written or left out: 00123-045 is 123-45.
std::string without_leading_zeros(std::string_view number) {
    std::string plain;
    bool leading = true;
    for (const char letter : number) {
        if (letter == '0' && leading) continue;
        leading = letter == '-';
        plain += letter;
    }
    return plain;
}

// What two cards of one label contradict each other in; empty when they agree. Different methods
// may well have different rates and limits; what an acre may take in a year is one for all.
std::string contradiction(const LabelCard& a, const LabelCard& b) {
    if (active_in(a.strength, b.strength.per) != b.strength.active) return "strength";
    if (a.limits.active_per_acre_per_year != b.limits.active_per_acre_per_year) return "limits";
    if (a.from_label->restricted_use != b.from_label->restricted_use) return "restricted_use";
    if (a.from_label->signal_word != b.from_label->signal_word) return "signal_word";
    if (a.application != b.application) return {};
    if (!same_rates(a.rates, b.rates)) return "rate";
    return same_limits(a, b) ? "" : "limits";
}

}  // namespace

std::vector<CardComplaint> complaints_between(const std::vector<LabelCard>& cards) {
    std::vector<CardComplaint> complaints;
    for (std::size_t second = 0; second < cards.size(); ++second) {
        for (std::size_t first = 0; first < second; ++first) {
            const auto& a = cards[first].from_label;
            const auto& b = cards[second].from_label;
            if (!a || !b ||
                without_leading_zeros(a->registration_number) !=
                    without_leading_zeros(b->registration_number)) {
                continue;
            }
            const std::string what =
                is_volume(cards[first].strength.per) == is_volume(cards[second].strength.per)
                    ? contradiction(cards[first], cards[second])
                    : "strength";
            if (what.empty()) continue;
            complaints.push_back(
                {second,
                 {what, "cards-contradict",
                  fmt::format("the cards '{}' and '{}' have the registration number {} and "
                              "different entries for '{}'",
                              cards[first].key, cards[second].key, b->registration_number, what),
                  "one label has one rate and one set of limits for one method: hold both cards "
                  "against it"}});
        }
    }
    return complaints;
}

std::vector<Complaint> complaints_about_mix(const LabelCard& card) {
    for (const measure::Length& dbh : trial_dbhs(card)) {
        const Dose dose =
            dose_for(card, {{dbh}, RateLevel::high, measure::Area::from_ticks(units::acre.ticks)});
        if (std::ranges::none_of(dose.findings, [](const Finding& finding) {
                return finding.id == "mix-too-small";
            })) {
            continue;
        }
        return {
            {"mix", "mix-too-small",
             fmt::format("at the highest rate, product and surfactant for a DBH of {} inches leave "
                         "no room for {} in the finished mix",
                         dbh.text(units::inch, 1), card.mix->carrier),
             "the finished volume holds product, surfactant and carrier together"}};
    }
    return {};
}

}  // namespace ashtriage::treat
