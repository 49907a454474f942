#include "present/label_words.hpp"

#include <fmt/format.h>

#include <string_view>
#include <vector>

#include "measure/units.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {

namespace units = measure::units;
using treat::LabelCard;

namespace {

void add(std::string& text, std::string_view name, const std::string& value) {
    if (!value.empty()) text += paragraph(value, fmt::format("  {}: ", name));
}

void add(std::string& text, std::string_view heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    text += fmt::format("{}\n", heading);
    for (const std::string& line : lines) text += paragraph(line, "  - ");
}

std::string strength_words(const treat::Strength& strength) {
    std::string words = fmt::format("{} in {} of product", treat::plain_text(strength.active),
                                    treat::plain_text(strength.per));
    if (strength.percent_by_weight) {
        words +=
            fmt::format(" ({} % by weight)", strength.percent_by_weight->text(units::percent, 2));
    }
    return words;
}

void add_amounts(std::string& text, const LabelCard& card) {
    add(text, "strength", strength_words(card.strength));
    for (const treat::OtherActive& other : card.other_actives) {
        add(text, "also contains", other.name + ", " + strength_words(other.strength));
    }
    for (const treat::RateClass& line : card.rates.classes) {
        std::string words = rate_words(line.rate, card.rates.per);
        if (line.to) words += ", DBH to " + line.to->with_unit(units::inch, 1);
        add(text, "rate", words);
    }
    if (card.mix) {
        const bool finished = card.mix->stated == treat::Mix::Stated::finished;
        add(text, finished ? "finished mix" : card.mix->carrier,
            fmt::format("{} for each {}{}", treat::stated_text(card.mix->volume),
                        card.mix->per.words,
                        finished ? ", filled up with " + card.mix->carrier : ""));
    }
    if (card.surfactant) {
        const auto* share = std::get_if<measure::Percent>(&card.surfactant->share);
        const auto* amount = std::get_if<treat::Surfactant::Amount>(&card.surfactant->share);
        add(text, card.surfactant->what,
            share != nullptr
                ? share->with_unit(units::percent, 2) + " of the finished mix by volume"
                : fmt::format("{} for each {}", treat::stated_text(amount->amount),
                              amount->per.words));
    }
}

// How it is brought to the tree and measured out.
void add_manner(std::string& text, const LabelCard& card) {
    add(text, "several stems", "dosed by " + std::string(treat::words(card.several_stems)));
    if (card.spray) {
        add(text, "sprayed from the root flare up to", card.spray->up_to.with_unit(units::foot, 1));
    }
    if (card.holes) {
        add(text, "injection holes apart",
            "no more than " + card.holes->spacing.with_unit(units::inch, 2));
        if (card.holes->depth) {
            add(text, "injection holes deep", card.holes->depth->with_unit(units::inch, 2));
        }
    }
    add(text, "product measured to", treat::stated_text(card.measure_with.product));
    if (card.measure_with.surfactant) {
        add(text, "surfactant measured to", treat::stated_text(*card.measure_with.surfactant));
    }
    if (card.measure_with.carrier) {
        add(text, card.mix->carrier + " measured to",
            treat::stated_text(*card.measure_with.carrier));
    }
    for (const treat::StatedAmount& size : card.containers) {
        add(text, "sold in", treat::stated_text(size));
    }
}

void add_limits(std::string& text, const LabelCard& card) {
    const treat::Limits& limits = card.limits;
    if (card.dbh.from) add(text, "smallest DBH", card.dbh.from->with_unit(units::inch, 1));
    if (card.dbh.to) add(text, "largest DBH", card.dbh.to->with_unit(units::inch, 1));
    if (limits.per_application)
        add(text, "most for one tree", treat::stated_text(*limits.per_application));
    if (limits.applications_per_year) {
        add(text, "applications a year", std::to_string(*limits.applications_per_year));
    }
    if (limits.again_after_months) {
        add(text, "again after", fmt::format("{} months", *limits.again_after_months));
    }
    if (limits.again_after_days) {
        add(text, "again after", fmt::format("{} days", *limits.again_after_days));
    }
    if (limits.active_per_acre_per_year) {
        add(text, "most active ingredient",
            limits.active_per_acre_per_year->with_unit(units::pound, 3) + " per acre and year");
        std::string counted;
        for (const treat::CountedUse use : limits.counted) {
            counted += (counted.empty() ? "" : ", ") + std::string(treat::words(use));
        }
        add(text, "toward it count", counted);
    }
}

void add_label(std::string& text, const treat::FromLabel& label) {
    text += "From the label\n";
    add(text, "product", label.product_name);
    add(text, "registration number", label.registration_number);
    add(text, "signal word", std::string(treat::words(label.signal_word)));
    add(text, "restricted use", label.restricted_use ? "yes" : "no");
    add(text, "re-entry", label.re_entry);
    add(text, "first aid", label.first_aid);
    for (const std::string& site : label.sites) add(text, "site", site);
    add(text, "covers an ash here", label.sites_cover_ash ? "yes" : "no");
    for (const std::string& pest : label.pests) add(text, "pest", pest);
    add(text, "covers the emerald ash borer", label.pests_cover_borer ? "yes" : "no");
    add(text, "storage and disposal", label.storage_and_disposal);
    add(text, "label date", label.label_date);
    if (label.special_need) {
        add(text, "special label",
            fmt::format("{}, {}, until {}", label.special_need->jurisdiction,
                        label.special_need->reference,
                        measure::long_text(label.special_need->expires)));
    }
    add(text, "card checked on", measure::long_text(label.checked_on));
    add(text, "Binding: must and must not", label.mandatory);
    add(text, "Advice: should and should not", label.advisory);
}

}  // namespace

std::vector<std::string> condition_words(const LabelCard& card) {
    std::vector<std::string> lines;
    const auto add = [&](std::string_view name, std::string_view value) {
        if (!value.empty()) lines.push_back(fmt::format("{}: {}", name, value));
    };
    const treat::Conditions& conditions = card.conditions;
    if (conditions.season) {
        add("season", fmt::format("{:02}-{:02} to {:02}-{:02} (month-day)",
                                  conditions.season->from.month, conditions.season->from.day,
                                  conditions.season->to.month, conditions.season->to.day));
    }
    if (conditions.wind_to) add("wind to", conditions.wind_to->with_unit(units::mile_per_hour, 1));
    if (conditions.temperature_from) {
        add("temperature from", conditions.temperature_from->with_unit(units::fahrenheit, 0));
    }
    if (conditions.temperature_to) {
        add("temperature to", conditions.temperature_to->with_unit(units::fahrenheit, 0));
    }
    if (conditions.rain_free_hours) {
        add("without rain for", fmt::format("{} hours", *conditions.rain_free_hours));
    }
    std::string soil;
    for (const treat::SoilState state : conditions.soil) {
        soil += (soil.empty() ? "" : " or ") + std::string(treat::words(state));
    }
    add("soil", soil);
    if (conditions.dry_bark) add("bark", "dry");
    if (conditions.not_in_bloom) add("bloom", "not while in bloom");
    for (const treat::Buffer& buffer : card.buffers) {
        add("distance to " + buffer.from_what,
            "at least " + buffer.at_least.with_unit(units::foot, 0));
    }
    if (card.never_food_trees) add("food trees", "never");
    for (const std::string& other : card.never_mix_with) add("never mix with", other);
    return lines;
}

std::string rate_words(const treat::Rate& rate, const treat::Basis& per) {
    std::string words =
        fmt::format("{} of product for each {}", treat::stated_text(rate.usual), per.words);
    if (treat::amount_of(rate.low) != treat::amount_of(rate.usual)) {
        words += ", lowest " + treat::stated_text(rate.low);
    }
    if (treat::amount_of(rate.high) != treat::amount_of(rate.usual)) {
        words += ", highest " + treat::stated_text(rate.high);
    }
    return words;
}

std::optional<treat::LabelledRate> labelled_rate(const LabelCard& card, measure::Length dbh,
                                                 treat::RateLevel level) {
    const treat::Rate* rate = card.rates.for_dbh(dbh);
    if (rate == nullptr) return std::nullopt;
    const treat::StatedAmount& amount = level == treat::RateLevel::low    ? rate->low
                                        : level == treat::RateLevel::high ? rate->high
                                                                          : rate->usual;
    return treat::LabelledRate{treat::stated_text(amount), card.rates.per.words};
}

std::string label_text(const LabelCard& card) {
    std::string text = card.title + "\n";
    if (card.example) text += paragraph(treat::example_notice(card));
    add(text, "card", card.key);
    add(text, "method", std::string(treat::words(card.application)));
    add(text, "active ingredient", card.active_ingredient);
    add(text, "formulation", card.formulation);
    add_amounts(text, card);
    add_manner(text, card);
    add_limits(text, card);
    for (const std::string& condition : condition_words(card)) text += paragraph(condition, "  ");
    add(text, "Wear", card.protective_equipment);
    add(text, "Mixing order", card.mixing_order);
    add(text, "Bees and bloom", card.pollinators);
    std::vector<std::string> cautions;
    for (const treat::Caution& caution : card.cautions) cautions.push_back(caution.text);
    add(text, "Cautions", cautions);
    if (card.from_label) add_label(text, *card.from_label);
    return text;
}

}  // namespace ashtriage::present
