#include "treat/dose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/stems.hpp"
#include "measure/units.hpp"

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

std::string both(Length length) {
    return fmt::format("{} inches ({} cm)", length.text(units::inch, 1),
                       length.text(units::centimetre, 1));
}

// So much for each inch or centimetre, for the whole diameter.
Amount for_trunk(const StatedAmount& rate, Per per, Length dbh) {
    return multiplied(rate, dbh.ticks(), one(per).ticks());
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

bool within_range(Dose& dose, const DbhRange& range) {
    if (range.from && *dose.dbh < *range.from) {
        add(dose, Severity::stop, "dbh-below-label",
            fmt::format("A DBH of {} is below the smallest on the label card, {}.", both(*dose.dbh),
                        both(*range.from)));
        return false;
    }
    if (range.to && *dose.dbh > *range.to) {
        add(dose, Severity::stop, "dbh-above-label",
            fmt::format("A DBH of {} is above the largest on the label card, {}.", both(*dose.dbh),
                        both(*range.to)));
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

// The product; false when the dose is stopped here.
bool add_product(Dose& dose, const LabelCard& card) {
    const StatedAmount& rate = chosen(card.rate, dose.rate);
    const StatedAmount& device = card.measure_with.product;
    const std::int64_t whole = one(card.rate.per).ticks();
    Amount exact = for_trunk(rate, card.rate.per, *dose.dbh);
    std::int64_t mark = marks(rate, dose.dbh->ticks(), whole, device, Rounding::down);
    if (card.limits.per_application) {
        const Amount most = multiplied(*card.limits.per_application, 1, 1);
        if (most < exact) {
            add(dose, Severity::warning, "held-at-maximum",
                fmt::format("The rate asks for {}, more than the {} that the label card allows for "
                            "one tree: held at that maximum.",
                            plain_text(exact), plain_text(most)));
            exact = most;
            mark = marks(*card.limits.per_application, 1, 1, device, Rounding::down);
        }
    }
    if (mark == 0) {
        add(dose, Severity::stop, "device-too-coarse",
            fmt::format(
                "The dose is {}, less than the smallest mark of the measuring device: use a "
                "finer one.",
                plain_text(exact)));
        return false;
    }
    dose.amounts.push_back(measured(Part::product, "product", exact, mark, device));
    const Amount& amount = dose.amounts.back().measured;
    const Amount lowest = for_trunk(card.rate.low, card.rate.per, *dose.dbh);
    if (amount < lowest) {
        add(dose, Severity::warning, "below-label",
            fmt::format("Measured out, this is below the lowest rate of the label card, {}. It may "
                        "not protect the tree, and some labels and states forbid it; a finer "
                        "measuring device comes closer.",
                        plain_text(lowest)));
    }
    dose.active = active_in(card.strength, amount);
    return true;
}

void add_surfactant(Dose& dose, const LabelCard& card, Volume finished) {
    if (!card.measure_with.surfactant) {
        throw measure::InputError("The card '" + card.key +
                                  "' has a surfactant but nothing to measure it with");
    }
    const StatedAmount device = *card.measure_with.surfactant;
    Amount exact;
    std::int64_t mark = 0;
    if (const auto* share = std::get_if<measure::Percent>(&card.surfactant->amount)) {
        exact = finished.scaled(share->ticks(), 100 * units::percent.ticks, Rounding::down);
        mark = marks(exact, device, Rounding::down);
    } else {
        const auto& per_trunk = std::get<Surfactant::PerTrunk>(card.surfactant->amount);
        exact = for_trunk(per_trunk.amount, per_trunk.per, *dose.dbh);
        mark = marks(per_trunk.amount, dose.dbh->ticks(), one(per_trunk.per).ticks(), device,
                     Rounding::down);
    }
    if (mark == 0) {
        add(dose, Severity::warning, "surfactant-too-little-to-measure",
            fmt::format(
                "The {} comes to {}, less than the smallest mark of its measuring device: use "
                "a finer one.",
                card.surfactant->what, plain_text(exact)));
    }
    dose.amounts.push_back(measured(Part::surfactant, card.surfactant->what, exact, mark, device));
}

void add_mix(Dose& dose, const LabelCard& card) {
    const Volume finished = volume_of(for_trunk(card.mix->finished, card.mix->per, *dose.dbh));
    if (card.surfactant) add_surfactant(dose, card, finished);
    if (!card.measure_with.carrier) {
        throw measure::InputError("The card '" + card.key + "' has " + card.mix->carrier +
                                  " but nothing to measure it with");
    }
    // Amounts at a mark are rounded down to the tick. The carrier is worked out from one tick more
    // of each, so that the part of a tick that is lost never asks for another mark of carrier.
    Volume liquids;
    Volume rounded_off;
    for (const MeasuredAmount& part : dose.amounts) {
        if (!is_volume(part.measured)) continue;
        liquids += volume_of(part.measured);
        rounded_off += Volume::from_ticks(1);
    }
    if (finished <= liquids + rounded_off) {
        throw measure::InputError("The card '" + card.key + "' leaves no room for " +
                                  card.mix->carrier + " in its finished volume");
    }
    const StatedAmount device = *card.measure_with.carrier;
    const std::int64_t mark = marks(finished - liquids - rounded_off, device, Rounding::up);
    dose.amounts.push_back(
        measured(Part::carrier, card.mix->carrier, finished - liquids, mark, device));
    dose.finished = liquids + volume_of(dose.amounts.back().measured);
    if (card.product == ProductForm::dry) {
        add(dose, Severity::note, "bulk-left-out",
            fmt::format("The room that the dry product itself takes up is left out: fill up to the "
                        "finished volume with {}.",
                        card.mix->carrier));
    }
}

double metres(Length length) {
    return length.in(units::metre);
}

void add_bark(Dose& dose, const SprayedBark& spray, const std::vector<Length>& stems) {
    double square_metres = 0.0;
    for (const Length& stem : stems) {
        square_metres += std::numbers::pi * metres(stem) * metres(spray.up_to);
    }
    dose.bark = measure::Area::of(square_metres, units::square_metre);
    add(dose, Severity::note, "bark-is-approximate",
        fmt::format("The bark to wet, from the root flare up to {} feet, is that of a cylinder as "
                    "thick as the DBH: the flare itself adds to it.",
                    spray.up_to.text(units::foot, 1)));
}

// Holes no further apart than the card says, on every stem.
void add_holes(Dose& dose, const Holes& holes, const std::vector<Length>& stems) {
    int count = 0;
    for (const Length& stem : stems) {
        const Length girth = measure::girth_from_diameter(stem);
        const Length covered = girth.rounded_to(holes.spacing, Rounding::up);
        count += static_cast<int>(covered.ticks() / holes.spacing.ticks());
    }
    dose.holes = count;
    dose.product_per_hole = std::visit(
        [&](const auto& product) -> Amount { return product.scaled(1, count, Rounding::down); },
        dose.amounts.front().measured);
}

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

Dose dose_for(const LabelCard& card, const std::vector<Length>& stems, RateLevel rate) {
    Dose dose;
    dose.rate = rate;
    if (card.example)
        add(dose, Severity::warning, std::string(example_finding), example_notice(card));
    if (stems.empty() || *std::min_element(stems.begin(), stems.end()) <= Length()) {
        add(dose, Severity::stop, "dbh-missing",
            "There is no dose without the DBH: measure every stem at 4.5 feet above the ground.");
        return dose;
    }
    dose.dbh = measure::combined_diameter(stems, card.several_stems);
    if (stems.size() > 1) {
        add(dose, Severity::note, "several-stems",
            fmt::format("{} stems, dosed by {}: {}. Labels differ on this; yours decides.",
                        stems.size(), words(card.several_stems), both(*dose.dbh)));
    }
    if (!within_range(dose, card.dbh) || !add_product(dose, card)) return dose;
    if (card.mix) {
        add_mix(dose, card);
    } else if (is_volume(dose.amounts.front().measured)) {
        dose.finished = volume_of(dose.amounts.front().measured);
    }
    if (card.spray) add_bark(dose, *card.spray, stems);
    if (card.holes) add_holes(dose, *card.holes, stems);
    return dose;
}

Dose dose_for(const LabelCard& card, Length dbh, RateLevel rate) {
    return dose_for(card, std::vector<Length>{dbh}, rate);
}

Mass active_in(const Strength& strength, const Amount& product) {
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
                                          Rounding::nearest);
        },
        product);
}

std::string active_text(Mass active) {
    return fmt::format("{} grams ({} pounds)", active.text(units::gram, 2),
                       active.text(units::pound, 4));
}

}  // namespace ashtriage::treat
