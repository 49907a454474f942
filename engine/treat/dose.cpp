#include "treat/dose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/stems.hpp"
#include "measure/units.hpp"
#include "treat/amount_beside.hpp"

namespace ashtriage::treat {

using measure::Length;
using measure::Mass;
using measure::Rounding;
using measure::Volume;
namespace units = measure::units;

namespace {

void add(Dose& dose, Severity severity, std::string id, std::string text) {
    dose.findings.push_back({severity, std::move(id), std::move(text)});
}

std::string both(Length length, int places = 1) {
    return fmt::format("{} inches ({} cm)", length.text(units::inch, places),
                       length.text(units::centimetre, places));
}

// A DBH beside a limit of the card, with as many places as it takes to tell them apart.
std::string beside(Length dbh, std::string_view is, Length limit) {
    constexpr int most_places = 6;
    int places = 1;
    while (places < most_places && both(dbh, places) == both(limit, places)) ++places;
    return fmt::format("A DBH of {} is {}, {}.", both(dbh, places), is, both(limit, places));
}

const StatedAmount& chosen(const Rate& rate, RateLevel level) {
    switch (level) {
        case RateLevel::low:
            return rate.low;
        case RateLevel::usual:
            return rate.usual;
        case RateLevel::high:
            return rate.high;
    }
    throw measure::InputError("A rate is low, usual or high");
}

constexpr std::string_view other_size =
    " Measure again; if that is its size, choose a product or a method whose label covers it.";

bool within_range(Dose& dose, const DbhRange& range) {
    if (range.from && *dose.dbh < *range.from) {
        add(dose, Severity::stop, "dbh-below-label",
            beside(*dose.dbh, "below the smallest on the label card", *range.from) +
                std::string(other_size));
        return false;
    }
    if (range.to && *dose.dbh > *range.to) {
        add(dose, Severity::stop, "dbh-above-label",
            beside(*dose.dbh, "above the largest on the label card", *range.to) +
                std::string(other_size));
        return false;
    }
    return true;
}

MeasuredAmount measured(Part part, std::string what, const Amount& exact, std::int64_t mark,
                        const StatedAmount& device) {
    const Rounding rounding = part == Part::carrier ? Rounding::up : Rounding::down;
    return {part,
            std::move(what),
            exact,
            at_mark(mark, device),
            mark_text(mark, device),
            twin_text(mark, device, rounding)};
}

// Works out the parts of one dose, in the order in which one rests on another.
class DoseMaker {
 public:
    DoseMaker(const LabelCard& card, const DoseTask& task) : card_(card), task_(task) {
        dose_.rate = task.rate;
    }

    Dose make() {
        if (card_.example) {
            add(dose_, Severity::warning, std::string(example_finding), example_notice(card_));
        }
        if (!measured_stems()) return std::move(dose_);
        if (!within_range(dose_, card_.dbh)) return std::move(dose_);
        if (card_.spray) add_bark();
        if (!sizes_known()) return std::move(dose_);
        if (card_.mix && card_.mix->stated == Mix::Stated::finished) {
            finished_ = volume_of(for_tree(card_.mix->volume, card_.mix->per));
        }
        if (!add_product()) return std::move(dose_);
        if (card_.mix) {
            if (card_.surfactant) add_surfactant();
            if (!add_carrier()) {
                dose_.amounts.clear();
                return std::move(dose_);
            }
        } else if (is_volume(dose_.amounts.front().measured)) {
            dose_.finished = volume_of(dose_.amounts.front().measured);
        }
        if (card_.holes) add_holes();
        return std::move(dose_);
    }

 private:
    bool measured_stems() {
        if (task_.stems.empty() || std::ranges::min(task_.stems) <= Length()) {
            add(dose_, Severity::stop, "dbh-missing",
                "There is no dose without the DBH: measure every stem at 4.5 feet above the "
                "ground.");
            return false;
        }
        for (const Length& stem : task_.stems) dose_.stems.push_back({stem, {}});
        dose_.dbh = measure::combined_diameter(task_.stems, card_.several_stems);
        if (task_.stems.size() > 1) {
            add(dose_, Severity::note, "several-stems",
                fmt::format("{} stems, dosed by {}: {}. Labels differ on this; yours decides.",
                            task_.stems.size(), words(card_.several_stems), both(*dose_.dbh)));
        }
        return true;
    }

    // How large the tree is in what an amount is counted by, in ticks; nothing when that is not
    // known.
    std::optional<std::int64_t> size(Per per) const {
        switch (per) {
            case Per::inch_dbh:
            case Per::cm_dbh:
                return dose_.dbh->ticks();
            case Per::inch_girth:
            case Per::cm_girth:
                return measure::girth_from_diameter(*dose_.dbh).ticks();
            case Per::tree:
                return 1;
            case Per::treated_area:
                return task_.treated_area ? std::optional(task_.treated_area->ticks())
                                          : std::nullopt;
            case Per::bark_area:
                return dose_.bark ? std::optional(dose_.bark->ticks()) : std::nullopt;
            case Per::finished_mix:
                return finished_ ? std::optional(finished_->ticks()) : std::nullopt;
        }
        return std::nullopt;
    }

    bool sizes_known() {
        bool by_area = card_.rates.per.per == Per::treated_area;
        if (card_.mix && card_.mix->per.per == Per::treated_area) by_area = true;
        if (!by_area || (task_.treated_area && *task_.treated_area > measure::Area())) return true;
        add(dose_, Severity::stop, "area-missing",
            "The label card counts by the ground that is treated, and its area is not given: "
            "measure the ground under this tree that is to be treated, and give it (--area).");
        return false;
    }

    Amount for_tree(const StatedAmount& amount, const Basis& per) const {
        return multiplied(amount, size(per.per).value(), per.ticks);
    }
    std::int64_t marks_for_tree(const StatedAmount& amount, const Basis& per,
                                const StatedAmount& device, Rounding rounding) const {
        return marks(amount, size(per.per).value(), per.ticks, device, rounding);
    }

    // False when the dose is stopped here.
    bool add_product() {
        const Rate* line = card_.rates.for_dbh(*dose_.dbh);
        if (line == nullptr) {
            add(dose_, Severity::stop, "dbh-beyond-table",
                fmt::format("The table of rates on the label card ends below a DBH of {}.{}",
                            both(*dose_.dbh), other_size));
            return false;
        }
        const StatedAmount& rate = chosen(*line, dose_.rate);
        const StatedAmount& device = card_.measure_with.product;
        const Basis& per = card_.rates.per;
        Amount exact = for_tree(rate, per);
        std::int64_t mark = marks_for_tree(rate, per, device, Rounding::down);
        if (card_.limits.per_application) {
            const Amount most = multiplied(*card_.limits.per_application, 1, 1);
            if (most < exact) {
                add(dose_, Severity::warning, "held-at-maximum",
                    fmt::format("The rate asks for {}, more than the {} that the label card allows "
                                "for one tree: held at that maximum.",
                                treat::beside(exact, card_.measure_with.product),
                                treat::beside(most, card_.measure_with.product)));
                exact = most;
                mark = marks(*card_.limits.per_application, 1, 1, device, Rounding::down);
            }
        }
        if (mark == 0) {
            add(dose_, Severity::stop, "device-too-coarse",
                fmt::format("The dose is {}, less than the smallest mark of the measuring device: "
                            "use a finer one.",
                            treat::beside(exact, card_.measure_with.product)));
            return false;
        }
        dose_.amounts.push_back(measured(Part::product, "product", exact, mark, device));
        const Amount& amount = dose_.amounts.back().measured;
        dose_.lowest = for_tree(line->low, per);
        dose_.highest = for_tree(line->high, per);
        if (card_.limits.per_application) {
            dose_.highest =
                std::min(*dose_.highest, multiplied(*card_.limits.per_application, 1, 1));
        }
        about_the_lowest_rate(amount);
        dose_.active = active_in(card_.strength, amount);
        for (const OtherActive& other : card_.other_actives) {
            dose_.other_actives.push_back({other.name, active_in(other.strength, amount)});
        }
        return true;
    }

    void about_the_lowest_rate(const Amount& amount) {
        if (below_rate(amount, *dose_.lowest)) {
            add(dose_, Severity::warning, "below-label",
                fmt::format("Measured out, this is below the lowest rate of the label card, {}. It "
                            "may not protect the tree, and some labels and states forbid it; a "
                            "finer measuring device comes closer.",
                            treat::beside(*dose_.lowest, card_.measure_with.product)));
        } else if (amount < *dose_.lowest) {
            add(dose_, Severity::note, "rounded-to-the-mark",
                fmt::format(
                    "Rounded down to the mark, this is less than a hundredth below the rate "
                    "of the label card, {}.",
                    treat::beside(*dose_.lowest, card_.measure_with.product)));
        }
    }

    // What the surfactant is a share of, when the carrier is stated: all but the surfactant.
    Volume without_surfactant() const {
        Volume liquids = volume_of(for_tree(card_.mix->volume, card_.mix->per));
        const Amount& product = dose_.amounts.front().measured;
        if (is_volume(product)) liquids += volume_of(product);
        return liquids;
    }

    void add_surfactant() {
        const StatedAmount device = device_for(card_.measure_with.surfactant, "a surfactant");
        const Surfactant& surfactant = *card_.surfactant;
        Amount exact;
        std::int64_t mark = 0;
        if (const auto* share = std::get_if<measure::Percent>(&surfactant.share)) {
            const std::int64_t whole = 100 * units::percent.ticks;
            exact = finished_ ? finished_->scaled(share->ticks(), whole, Rounding::down)
                              : without_surfactant().scaled(share->ticks(), whole - share->ticks(),
                                                            Rounding::down);
            mark = marks(exact, device, Rounding::down);
        } else {
            const auto& amount = std::get<Surfactant::Amount>(surfactant.share);
            exact = for_tree(amount.amount, amount.per);
            mark = marks_for_tree(amount.amount, amount.per, device, Rounding::down);
        }
        if (mark == 0) {
            add(dose_, Severity::warning, "surfactant-too-little-to-measure",
                fmt::format("The {} comes to {}, less than the smallest mark of its measuring "
                            "device: use a finer one.",
                            surfactant.what, treat::beside(exact, device)));
        }
        dose_.amounts.push_back(measured(Part::surfactant, surfactant.what, exact, mark, device));
    }

    StatedAmount device_for(const std::optional<StatedVolume>& device,
                            std::string_view what) const {
        if (device) return *device;
        throw measure::InputError(
            fmt::format("The card '{}' has {} but nothing to measure it with", card_.key, what));
    }

    // False when the dose is stopped here.
    bool add_carrier() {
        const StatedAmount device = device_for(card_.measure_with.carrier, card_.mix->carrier);
        Volume liquids;
        for (const MeasuredAmount& part : dose_.amounts) {
            if (is_volume(part.measured)) liquids += volume_of(part.measured);
        }
        if (finished_) {
            // Amounts at a mark are rounded down to the tick. The carrier is worked out from one
            // tick more of each, so that the part of a tick that is lost never asks for another
            // mark of carrier.
            const auto parts = static_cast<std::int64_t>(dose_.amounts.size());
            const Volume taken = liquids + Volume::from_ticks(parts);
            if (*finished_ <= taken) {
                add(dose_, Severity::stop, "mix-too-small",
                    fmt::format(
                        "Product and surfactant fill the finished volume of the label card: "
                        "no room is left for {}.",
                        card_.mix->carrier));
                return false;
            }
            const std::int64_t mark = marks(*finished_ - taken, device, Rounding::up);
            dose_.amounts.push_back(
                measured(Part::carrier, card_.mix->carrier, *finished_ - liquids, mark, device));
        } else {
            const std::int64_t mark =
                marks_for_tree(card_.mix->volume, card_.mix->per, device, Rounding::up);
            dose_.amounts.push_back(measured(Part::carrier, card_.mix->carrier,
                                             for_tree(card_.mix->volume, card_.mix->per), mark,
                                             device));
        }
        dose_.finished = liquids + volume_of(dose_.amounts.back().measured);
        if (card_.product == ProductForm::dry) {
            add(dose_, Severity::note, "bulk-left-out",
                "The room that the dry product itself takes up is left out." +
                    (finished_ ? fmt::format(" Fill up to the finished volume with {}.",
                                             card_.mix->carrier)
                               : std::string()));
        }
        return true;
    }

    void add_bark() {
        // Lengths count nanometres and areas 1e-8 square metres: 1e10 square nanometres.
        constexpr std::int64_t square_nanometres = 10'000'000'000;
        std::int64_t bark = 0;
        for (const Length& stem : task_.stems) {
            bark += measure::multiply_divide(measure::girth_from_diameter(stem).ticks(),
                                             card_.spray->up_to.ticks(), square_nanometres,
                                             Rounding::nearest);
        }
        dose_.bark = measure::Area::from_ticks(bark);
        add(dose_, Severity::note, "bark-is-approximate",
            fmt::format("The bark to wet, from the root flare up to {} feet, is that of a cylinder "
                        "as thick as the DBH: the flare itself adds to it.",
                        card_.spray->up_to.text(units::foot, 1)));
    }

    // Holes no further apart than the card says, on every stem.
    void add_holes() {
        int count = 0;
        for (DosedStem& stem : dose_.stems) {
            const Length girth = measure::girth_from_diameter(stem.dbh);
            const Length covered = girth.rounded_to(card_.holes->spacing, Rounding::up);
            stem.holes = static_cast<int>(covered.ticks() / card_.holes->spacing.ticks());
            count += *stem.holes;
        }
        dose_.holes = count;
        dose_.product_per_hole = std::visit(
            [&](const auto& product) -> Amount { return product.scaled(1, count, Rounding::down); },
            dose_.amounts.front().measured);
        if (dose_.stems.size() > 1 && card_.several_stems != measure::StemRule::sum) {
            add(dose_, Severity::warning, "shared-among-stems",
                fmt::format(
                    "The label card doses this tree by {}, and that amount is shared among "
                    "the holes of all {} stems, less for each inch than a single stem gets: "
                    "read in the label whether every stem is dosed on its own.",
                    words(card_.several_stems), dose_.stems.size()));
        }
    }

    const LabelCard& card_;
    const DoseTask& task_;
    Dose dose_;
    std::optional<Volume> finished_;  // as the card states it
};

}  // namespace

bool Dose::stopped() const {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.severity == Severity::stop; });
}

const MeasuredAmount* Dose::find(Part part) const {
    const auto found = std::find_if(amounts.begin(), amounts.end(),
                                    [&](const MeasuredAmount& each) { return each.part == part; });
    return found == amounts.end() ? nullptr : &*found;
}

Dose dose_for(const LabelCard& card, const DoseTask& task) {
    return DoseMaker(card, task).make();
}

Dose dose_for(const LabelCard& card, Length dbh, RateLevel rate) {
    return dose_for(card, {{dbh}, rate, {}});
}

Mass active_in(const Strength& strength, const Amount& product, Rounding rounding) {
    if (is_volume(strength.per) != is_volume(product)) {
        throw measure::InputError(
            "The strength is stated for a liquid and the amount is a weight, or the other way "
            "round",
            {}, "State the strength by volume for a liquid and by weight for a dry product.");
    }
    return std::visit(
        [&](const auto& amount) {
            using Q = std::decay_t<decltype(amount)>;
            return strength.active.scaled(amount.ticks(), std::get<Q>(strength.per).ticks(),
                                          rounding);
        },
        product);
}

bool below_rate(const Amount& product, const Amount& lowest) {
    const auto short_of = [](const auto& amount, const auto& least) {
        return amount < least.scaled(99, 100, Rounding::down);
    };
    if (is_volume(lowest)) return short_of(volume_of(product), volume_of(lowest));
    return short_of(mass_of(product), mass_of(lowest));
}

std::string active_text(Mass active) {
    return fmt::format("{} grams ({} pounds)", active.text(units::gram, 2),
                       active.text(units::pound, 4));
}

}  // namespace ashtriage::treat
