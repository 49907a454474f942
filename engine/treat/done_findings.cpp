#include "treat/done_findings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/units.hpp"
#include "treat/dose.hpp"

namespace ashtriage::treat {

namespace {

class Done {
 public:
    Done(const ApplicationRecord& record, const LabelCard& card, const SiteHistory& before,
         const observe::Site& site)
        : record_(record), card_(card), before_(before), site_(site) {
        if (record.extent) {
            if (const auto* area = std::get_if<measure::Area>(&record.extent->size)) area_ = *area;
        }
    }

    std::vector<Finding> collect() {
        if (record_.trees.empty()) {
            add("", findings_about(card_, Dose{}, use_of(nullptr)));
        }
        for (const TreatedTree& tree : record_.trees) about_tree(tree);
        about_the_total();
        about_the_day();
        about_the_acre();
        return std::move(findings_);
    }

 private:
    Dose dose_of(const TreatedTree& tree) const {
        if (!tree.dbh) return {};
        return dose_for(card_, {{*tree.dbh}, RateLevel::usual, area_});
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
            use.earlier = earlier_on_tree(before_, *tree->tree, card_.active_ingredient);
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

    // Where the amounts of the trees were not written down one by one.
    void about_the_total() {
        if (!record_.total_product || product_on_trees(record_)) return;
        Amount most = *record_.total_product;
        bool first = true;
        for (const TreatedTree& tree : record_.trees) {
            const Dose dose = dose_of(tree);
            if (!dose.highest || is_volume(*dose.highest) != is_volume(most)) return;
            if (first) {
                most = *dose.highest;
            } else if (is_volume(most)) {
                most = volume_of(most) + volume_of(*dose.highest);
            } else {
                most = mass_of(most) + mass_of(*dose.highest);
            }
            first = false;
        }
        if (first || !measurably_more(*record_.total_product, most)) return;
        findings_.push_back(
            {Severity::stop, "above-label",
             fmt::format("{} of product in all is more than the {} that the label allows for these "
                         "trees together.",
                         plain_text(*record_.total_product), plain_text(most))});
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
    std::optional<measure::Area> area_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> findings_about_done(const ApplicationRecord& record, const LabelCard& card,
                                         const SiteHistory& before, const observe::Site& site) {
    return Done(record, card, before, site).collect();
}

}  // namespace ashtriage::treat
