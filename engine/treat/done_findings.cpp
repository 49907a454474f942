#include "treat/done_findings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "treat/amount_beside.hpp"
#include "treat/dose.hpp"

namespace ashtriage::treat {

namespace {

class Done {
 public:
    Done(const ApplicationRecord& record, const LabelCard& card, const SiteHistory& before,
         const observe::Site& site, const MeasuredDbh& measured)
        : record_(record), card_(card), before_(before), site_(site), measured_(measured) {
        if (record.extent) {
            if (const auto* area = std::get_if<measure::Area>(&record.extent->size)) area_ = *area;
        }
    }

    std::vector<Finding> collect() {
        if (record_.trees.empty()) {
            add("", findings_about(card_, Dose{}, use_of(nullptr)));
            about_trees_that_are_not_listed();
        }
        for (const TreatedTree& tree : record_.trees) about_tree(tree);
        about_the_total();
        about_the_strength_of_the_mix();
        about_the_rate();
        about_licenses();
        about_the_use();
        about_the_day();
        about_the_acre();
        return std::move(findings_);
    }

 private:
    std::optional<measure::Length> measured_dbh(const TreatedTree& tree) const {
        const auto found = tree.tree ? measured_.find(*tree.tree) : measured_.end();
        return found == measured_.end() ? std::nullopt : std::optional(found->second);
    }

    Dose dose_of(const TreatedTree& tree) const {
        const auto dbh = tree.dbh ? tree.dbh : measured_dbh(tree);
        if (!dbh) return {};
        return dose_for(card_, {{*dbh}, RateLevel::usual, area_});
    }

    IntendedUse use_of(const TreatedTree* tree) const {
        IntendedUse use;
        use.on = record_.work_date;
        use.distance_to_water = site_.distance_to_water;
        if (!record_.applicator.license.empty() || !record_.supervisor.license.empty()) {
            use.certified = true;
        }
        if (tree == nullptr) return use;
        use.product = tree->product;
        if (tree->tree) {
            use.others = days_on_tree(before_, *tree->tree, card_);
        }
        return use;
    }

    void about_tree(const TreatedTree& tree) {
        const Dose dose = dose_of(tree);
        // What the dose says of the amounts to measure out is past; whether the tree is of a size
        // that the label allows is not.
        for (const Finding& finding : dose.findings) {
            if (finding.id.starts_with("dbh")) add(tree.label + ": ", {finding});
        }
        add(tree.label + ": ", findings_about(card_, dose, use_of(&tree)));
        about_the_dbh(tree);
    }

    // Taken for larger than it is, a tree gets more than its label allows.
    void about_the_dbh(const TreatedTree& tree) {
        const auto measured = measured_dbh(tree);
        if (!tree.dbh && !measured) {
            findings_.push_back(
                {Severity::warning, "no-dbh",
                 fmt::format("{}: no DBH is given and none is in the book, so the amount could not "
                             "be held against the label.",
                             tree.label)});
        }
        if (!tree.dbh || !measured) return;
        // Two people with a tape, and a year's growth, differ by less. It comes from no source.
        const measure::Length tolerated = *measured / 10;
        if (*tree.dbh <= *measured + tolerated && *tree.dbh >= *measured - tolerated) return;
        const Dose by_the_book = dose_for(card_, {{*measured}, RateLevel::usual, area_});
        findings_.push_back(
            {Severity::warning, "dbh-unlike-the-book",
             fmt::format("{}: the record gives a DBH of {}, and {} was measured on the walk-around"
                         "{}. Measure again, and see that no girth was taken for a diameter.",
                         tree.label, tree.dbh->with_unit(measure::units::inch, 1),
                         measured->with_unit(measure::units::inch, 1),
                         by_the_book.highest
                             ? ", for which the label allows no more than " +
                                   beside(*by_the_book.highest, card_.measure_with.product)
                             : "")});
    }

    void about_trees_that_are_not_listed() {
        findings_.push_back(
            {Severity::warning, "trees-not-listed",
             "The trees are not listed one by one: none of them counts as treated, so neither "
             "\"due\" nor the next dose knows of it, and amounts are held against the label for "
             "all together at the most. List them."});
    }

    // Of trees of which only the sum of their DBH is known, by a rate that grows with the DBH
    // alone.
    Dose dose_of_unlisted() const {
        const Per per = card_.rates.per.per;
        const bool grows_with_dbh = per == Per::inch_dbh || per == Per::cm_dbh ||
                                    per == Per::inch_girth || per == Per::cm_girth;
        if (!record_.dbh_sum || !grows_with_dbh || card_.rates.classes.size() != 1) return {};
        LabelCard of_any_size = card_;
        of_any_size.dbh = {};
        of_any_size.limits.per_application.reset();
        return dose_for(of_any_size, {{*record_.dbh_sum}, RateLevel::usual, area_});
    }

    // What concerns the card as a whole comes with every tree and is said once, without a tree.
    void add(const std::string& about, std::vector<Finding> found) {
        for (Finding& finding : found) {
            const bool of_one_tree = finding.id == "above-label" || finding.id == "below-label" ||
                                     finding.id == "too-soon" || finding.id == "too-often" ||
                                     finding.id.starts_with("dbh");
            if (of_one_tree) finding.text = about + finding.text;
            const bool said = std::ranges::any_of(
                findings_, [&](const Finding& each) { return each.text == finding.text; });
            if (!said && finding.severity != Severity::note) findings_.push_back(finding);
        }
    }

    // What the label allows for all of the listed trees together; nothing where it cannot be told
    // of one of them.
    struct Allowed {
        Amount lowest;
        Amount highest;
        measure::Volume finished;  // nothing where the product is applied as it is
    };
    std::optional<Allowed> allowed_for_all() const {
        std::optional<Allowed> all;
        std::vector<Dose> doses;
        if (record_.trees.empty()) doses.push_back(dose_of_unlisted());
        for (const TreatedTree& tree : record_.trees) doses.push_back(dose_of(tree));
        for (const Dose& dose : doses) {
            if (!dose.lowest || !dose.highest) return std::nullopt;
            const Allowed one{*dose.lowest, *dose.highest,
                              dose.finished.value_or(measure::Volume())};
            all = all ? Allowed{sum_of(all->lowest, one.lowest), sum_of(all->highest, one.highest),
                                all->finished + one.finished}
                      : one;
        }
        return all;
    }

    static Amount sum_of(const Amount& a, const Amount& b) {
        if (is_volume(a)) return volume_of(a) + volume_of(b);
        return mass_of(a) + mass_of(b);
    }

    // What the trees got one by one is held against the label with each of them.
    void about_the_total() {
        if (!record_.total_product) return;
        const Amount& used = *record_.total_product;
        if (const auto on_trees = product_on_trees(record_)) {
            if (!measurably_more(used, *on_trees)) return;
            findings_.push_back(
                {Severity::warning, "more-than-on-the-trees",
                 fmt::format(
                     "{} of product was used and the trees got {} of it: correct the one or "
                     "the other, or write down where the rest went.",
                     beside(used, card_.measure_with.product),
                     beside(*on_trees, card_.measure_with.product))});
        }
        const auto allowed = allowed_for_all();
        if (!allowed || is_volume(allowed->highest) != is_volume(used)) return;
        if (measurably_more(used, allowed->highest)) {
            stop("above-label",
                 fmt::format("{} of product in all is more than the {} that the label allows for "
                             "these trees together.",
                             beside(used, card_.measure_with.product),
                             beside(allowed->highest, card_.measure_with.product)));
        } else if (below_rate(used, allowed->lowest)) {
            findings_.push_back(
                {Severity::warning, "below-label",
                 fmt::format("{} of product in all is less than the lowest rate of the label for "
                             "these trees together, {}.",
                             beside(used, card_.measure_with.product),
                             beside(allowed->lowest, card_.measure_with.product))});
        }
    }

    // A mix with too little water is stronger than the label, however little of it was applied.
    void about_the_strength_of_the_mix() {
        if (!record_.mixed || !record_.total_product || !card_.mix) return;
        const Amount& used = *record_.total_product;
        const auto allowed = allowed_for_all();
        if (!allowed || is_volume(allowed->highest) != is_volume(used)) return;
        const auto ticks = [](const Amount& amount) {
            return std::visit([](const auto& each) { return static_cast<double>(each.ticks()); },
                              amount);
        };
        // Water is measured to a mark, which may take this much from it. It comes from no source.
        constexpr double measuring = 1.02;
        const double strength = ticks(used) / static_cast<double>(record_.mixed->ticks());
        const double most =
            ticks(allowed->highest) / static_cast<double>(allowed->finished.ticks());
        if (strength <= most * measuring) return;
        stop("mix-above-label",
             fmt::format("{} of product in {} of mix is stronger than the label allows: so much "
                         "product belongs into at least {}.",
                         beside(used, card_.measure_with.product), plain_text(*record_.mixed),
                         plain_text(measure::Volume::from_ticks(
                             static_cast<std::int64_t>(ticks(used) / most)))));
    }

    // The rate as it was written down, where it is counted as the card counts it.
    void about_the_rate() {
        if (!record_.rate || record_.rate->per != card_.rates.per.words) return;
        const Amount rate = amount_of(*record_.rate);
        std::optional<Amount> most;
        for (const RateClass& line : card_.rates.classes) {
            const Amount high = amount_of(line.rate.high);
            if (is_volume(high) != is_volume(rate)) return;
            most = most ? std::max(*most, high) : high;
        }
        if (!most || !measurably_more(rate, *most)) return;
        stop("rate-above-label",
             fmt::format("A rate of {} for each {} was written down, and the label allows {}.",
                         record_.rate->amount, record_.rate->per,
                         beside(*most, card_.measure_with.product)));
    }

    void about_licenses() {
        for (const Person* person : {&record_.applicator, &record_.supervisor}) {
            if (!person->license_expires || *person->license_expires >= record_.work_date) continue;
            findings_.push_back(
                {Severity::warning, "license-ended",
                 fmt::format("The license of {} ended on {}, before the work was done.",
                             person->name, measure::long_text(*person->license_expires))});
        }
    }

    // Another method than that of the card is mostly the wrong card. Another crop or pest than an
    // ash and its borer, which the label does not name, may not be treated.
    void about_the_use() {
        const auto says_otherwise = [](const std::string& text, std::string_view expected) {
            return !text.empty() && packs::normalised(text).find(expected) == std::string::npos;
        };
        const auto is_named = [](const std::vector<std::string>& list, const std::string& text) {
            return std::ranges::any_of(list, [&](const std::string& each) {
                return packs::normalised(each) == packs::normalised(text);
            });
        };
        const auto say = [&](Severity severity, std::string_view what, const std::string& text,
                             std::string_view expected) {
            findings_.push_back(
                {severity, "not-as-the-card",
                 fmt::format("The record gives \"{}\" as the {}, and the card is for {}: make sure "
                             "that it is the card of the product that was used.",
                             text, what, expected)});
        };
        if (says_otherwise(record_.method, words(card_.application)) &&
            says_otherwise(record_.method, packs::plain_name(card_.method))) {
            say(Severity::warning, "method", record_.method, words(card_.application));
        }
        if (!card_.from_label) return;
        const FromLabel& label = *card_.from_label;
        if (says_otherwise(record_.crop, "ash") && !is_named(label.sites, record_.crop)) {
            say(Severity::stop, "crop", record_.crop, "ash");
        }
        if (says_otherwise(record_.target_pest, "ash borer") &&
            !is_named(label.pests, record_.target_pest)) {
            say(label.other_pests_allowed ? Severity::warning : Severity::stop, "pest",
                record_.target_pest, "the emerald ash borer");
        }
    }

    void stop(std::string id, std::string text) {
        findings_.push_back({Severity::stop, std::move(id), std::move(text)});
    }

    // The weather and the soil as they were written down. What was not is asked for elsewhere.
    void about_the_day() {
        const Conditions& asked = card_.conditions;
        if (asked.wind_to && record_.wind_speed && *record_.wind_speed > *asked.wind_to) {
            stop("wind-above-label",
                 fmt::format("The wind was {}, and the label allows it up to {}.",
                             record_.wind_speed->with_unit(measure::units::mile_per_hour, 1),
                             asked.wind_to->with_unit(measure::units::mile_per_hour, 1)));
        }
        const auto degrees = [](const measure::Temperature& temperature) {
            return temperature.with_unit(measure::units::fahrenheit, 1);
        };
        const auto& air = record_.air_temperature;
        if (air && asked.temperature_from && *air < *asked.temperature_from) {
            stop("temperature-below-label",
                 fmt::format("The air was at {}, and the label allows it from {} on.",
                             degrees(*air), degrees(*asked.temperature_from)));
        }
        if (air && asked.temperature_to && *air > *asked.temperature_to) {
            stop("temperature-above-label",
                 fmt::format("The air was at {}, and the label allows it up to {}.", degrees(*air),
                             degrees(*asked.temperature_to)));
        }
        const std::string bloom = packs::normalised(record_.bloom_state);
        const bool something =
            !bloom.empty() && !bloom.starts_with("no");  // "none", "nothing near"
        if (asked.not_in_bloom && something) {
            findings_.push_back(
                {Severity::warning, "in-bloom",
                 fmt::format("In bloom was \"{}\", and the label does not allow the product where "
                             "the tree or what flowers in its root zone is.",
                             record_.bloom_state)});
        }
        for (const SoilState state :
             {SoilState::dry, SoilState::moist, SoilState::saturated, SoilState::frozen}) {
            if (asked.soil.empty() || asked.soil.contains(state)) continue;
            if (record_.soil_state != words(state)) continue;
            stop("soil-not-as-the-label-asks",
                 fmt::format("The soil was {}, and the label does not allow that.", words(state)));
        }
    }

    void about_the_acre() {
        if (!card_.limits.active_per_acre_per_year) return;
        const std::string untold =
            untold_words(before_, card_.active_ingredient, record_.work_date.year());
        const auto spent = spent_by(record_);
        if (!untold.empty() || !spent || !site_.area) {
            findings_.push_back(
                {Severity::warning, "acre-not-known",
                 fmt::format("Whether the acre takes this much {} in the year cannot be told: {}.",
                             card_.active_ingredient,
                             !untold.empty() ? untold
                             : !site_.area   ? "the area of the site is not known"
                                             : "this record does not say how much was used")});
            return;
        }
        SiteHistory with = before_;
        with.spent.insert(with.spent.end(), spent->begin(), spent->end());
        const auto account =
            acre_account(card_, site_.area, record_.work_date, with.spent, {}, with.raised);
        if (account->over() > measure::Mass{}) {
            findings_.push_back(
                {Severity::stop, "over-the-acre",
                 fmt::format(
                     "With this application {} of {} was used on the site in {}, {} more "
                     "than it may take: apply no more of it there this year.",
                     account->used.with_unit(measure::units::gram, 2), card_.active_ingredient,
                     account->year,
                     account->over().with_unit(measure::units::gram, 2, measure::Rounding::up))});
        }
    }

    const ApplicationRecord& record_;
    const LabelCard& card_;
    const SiteHistory& before_;
    const observe::Site& site_;
    const MeasuredDbh& measured_;
    std::optional<measure::Area> area_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> findings_about_done(const ApplicationRecord& record, const LabelCard& card,
                                         const SiteHistory& before, const observe::Site& site,
                                         const MeasuredDbh& measured) {
    return Done(record, card, before, site, measured).collect();
}

}  // namespace ashtriage::treat
