#include "plan/tank_loads.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "measure/input_error.hpp"
#include "treat/exact_ratio.hpp"

namespace ashtriage::plan {

using measure::Rounding;
using measure::Volume;
using treat::Amount;
using treat::MeasuredAmount;
using treat::Part;
using treat::StatedAmount;

namespace {

__extension__ using Wide = __int128;

Amount amount_like(const Amount& amount, std::int64_t ticks) {
    if (treat::is_volume(amount)) return Volume::from_ticks(ticks);
    return measure::Mass::from_ticks(ticks);
}

// So much of a part in so much finished mix.
struct Ratio {
    std::int64_t amount = 0;
    std::int64_t finished = 1;

    Amount in(Volume mix, const Amount& kind) const {
        return amount_like(kind,
                           treat::exact_ratio({amount, mix.ticks()}, {finished}, Rounding::down));
    }
};

bool weaker(const Ratio& a, const Ratio& b) {
    return static_cast<Wide>(a.amount) * b.finished < static_cast<Wide>(b.amount) * a.finished;
}

class Loader {
 public:
    Loader(const treat::LabelCard& card, const std::vector<DosedTree>& trees, Volume capacity)
        : card_(card), trees_(trees), capacity_(capacity) {}

    std::vector<TankLoad> load() {
        for (std::size_t tree = 0; tree < trees_.size(); ++tree) {
            const Volume finished = trees_[tree].dose.finished.value();
            if (finished > capacity_) {
                close();
                divide(tree);
                continue;
            }
            // Rounding up the carrier may take a load of several past what its trees add up to.
            if (!open_.empty() &&
                (!of_one_strength(with(tree)) || filled(with(tree)).finished > capacity_)) {
                close();
            }
            open_ = with(tree);
        }
        close();
        return std::move(loads_);
    }

 private:
    std::vector<LoadShare> with(std::size_t tree) const {
        std::vector<LoadShare> shares = open_;
        shares.push_back({tree, 1, 1, trees_[tree].dose.finished.value()});
        return shares;
    }

    void close() {
        if (!open_.empty()) loads_.push_back(filled(open_));
        open_.clear();
    }

    // The weakest of what the card asks for the trees of a load.
    Ratio ratio(const TankLoad& load, Part part) const {
        std::vector<Ratio> ratios;
        for (const LoadShare& share : load.shares) {
            const treat::Dose& dose = trees_[share.tree].dose;
            ratios.push_back({treat::ticks_of(dose.find(part)->exact), dose.finished->ticks()});
        }
        return *std::ranges::min_element(ratios, weaker);
    }

    // Whether no tree of a load would come short of its dose by a mark of its measure.
    bool of_one_strength(std::vector<LoadShare> shares) const {
        TankLoad load;
        load.shares = std::move(shares);
        return of_one_strength(load, Part::product, card_.measure_with.product) &&
               (!card_.surfactant ||
                of_one_strength(load, Part::surfactant, *card_.measure_with.surfactant));
    }

    bool of_one_strength(const TankLoad& load, Part part, const StatedAmount& device) const {
        const Ratio weakest = ratio(load, part);
        const std::int64_t mark = treat::ticks_of(treat::at_mark(1, device));
        return std::ranges::all_of(load.shares, [&](const LoadShare& share) {
            const Amount& asked = trees_[share.tree].dose.find(part)->exact;
            const Amount given = weakest.in(share.finished, asked);
            return treat::ticks_of(asked) - treat::ticks_of(given) < mark;
        });
    }

    const MeasuredAmount& sample(const TankLoad& load, Part part) const {
        return *trees_[load.shares.front().tree].dose.find(part);
    }

    void add(TankLoad& load, Part part, const Amount& exact, const StatedAmount& device,
             Rounding rounding) const {
        const std::int64_t mark = treat::marks(exact, device, rounding);
        load.amounts.push_back({part, sample(load, part).what, exact, treat::at_mark(mark, device),
                                treat::mark_text(mark, device),
                                treat::twin_text(mark, device, rounding)});
    }

    TankLoad filled(std::vector<LoadShare> shares) const {
        TankLoad load;
        load.shares = std::move(shares);
        Volume wanted;
        for (const LoadShare& share : load.shares) wanted += share.finished;
        if (!add_as_one_by_one(load, Part::product, card_.measure_with.product, wanted)) {
            add(load, Part::product, ratio(load, Part::product).in(wanted, exact_of(load)),
                card_.measure_with.product, Rounding::down);
        }
        if (card_.surfactant &&
            !add_as_one_by_one(load, Part::surfactant, *card_.measure_with.surfactant, wanted)) {
            add_surfactant(load, wanted);
        }
        return with_carrier(std::move(load), wanted);
    }

    // As much as the trees take one by one, if no tree gets more than its dose from the mix of all.
    bool add_as_one_by_one(TankLoad& load, Part part, const StatedAmount& device,
                           Volume wanted) const {
        std::int64_t marks = 0;
        for (const LoadShare& share : load.shares) {
            const Amount& measured = trees_[share.tree].dose.find(part)->measured;
            marks += treat::marks(measured, device, Rounding::nearest);
        }
        const Amount all = treat::at_mark(marks, device);
        for (const LoadShare& share : load.shares) {
            const Amount& dose = trees_[share.tree].dose.find(part)->exact;
            if (static_cast<Wide>(treat::ticks_of(all)) * share.finished.ticks() >
                static_cast<Wide>(treat::ticks_of(dose)) * wanted.ticks()) {
                return false;
            }
        }
        add_marks(load, part, marks, device);
        return true;
    }

    void add_marks(TankLoad& load, Part part, std::int64_t marks,
                   const StatedAmount& device) const {
        const Amount amount = treat::at_mark(marks, device);
        load.amounts.push_back({part, sample(load, part).what, amount, amount,
                                treat::mark_text(marks, device),
                                treat::twin_text(marks, device, Rounding::down)});
    }

    void add_surfactant(TankLoad& load, Volume wanted) const {
        add(load, Part::surfactant, ratio(load, Part::surfactant).in(wanted, Amount(Volume())),
            *card_.measure_with.surfactant, Rounding::down);
    }

    const Amount& exact_of(const TankLoad& load) const { return sample(load, Part::product).exact; }

    TankLoad with_carrier(TankLoad load, Volume wanted) const {
        Volume liquids;
        for (const MeasuredAmount& part : load.amounts) {
            if (treat::is_volume(part.measured)) liquids += treat::volume_of(part.measured);
        }
        // Amounts at a mark are rounded down to the tick: that tick never asks for another mark.
        const Volume lost = Volume::from_ticks(static_cast<std::int64_t>(load.amounts.size()));
        const Volume rest = std::max(wanted - liquids - lost, Volume());
        add(load, Part::carrier, rest, *card_.measure_with.carrier, Rounding::up);
        load.finished = liquids + treat::volume_of(load.amounts.back().measured);
        share_out(load, wanted);
        return load;
    }

    // What rounding up the carrier adds goes to the trees too: left in the tank, it would take part
    // of their product with it.
    static void share_out(TankLoad& load, Volume wanted) {
        if (load.finished <= wanted) return;
        for (LoadShare& share : load.shares) {
            share.finished =
                share.finished.scaled(load.finished.ticks(), wanted.ticks(), Rounding::down);
        }
    }

    // A tree that takes more than a tank: the product at hand for it is shared out over the parts,
    // and each part gets the water that belongs to its product.
    void divide(std::size_t tree) {
        const treat::Dose& dose = trees_[tree].dose;
        const std::int64_t whole = dose.finished->ticks();
        const StatedAmount& device = card_.measure_with.product;
        const std::int64_t all_marks =
            treat::marks(dose.find(Part::product)->measured, device, Rounding::nearest);
        int parts =
            static_cast<int>(measure::multiply_divide(whole, 1, capacity_.ticks(), Rounding::up));
        for (;; ++parts) {
            std::vector<TankLoad> made;
            bool fits = true;
            for (int part = 0; part < parts; ++part) {
                const std::int64_t marks =
                    all_marks * (part + 1) / parts - all_marks * part / parts;
                const Volume share = Volume::from_ticks(
                    measure::multiply_divide(whole, marks, all_marks, Rounding::up));
                TankLoad load;
                load.shares.push_back({tree, part + 1, parts, share});
                add_marks(load, Part::product, marks, device);
                if (card_.surfactant) add_surfactant(load, share);
                made.push_back(with_carrier(std::move(load), share));
                fits = fits && marks > 0 && made.back().finished <= capacity_;
            }
            // Past one mark a part there is nothing left to share out.
            if (fits || parts >= all_marks) {
                if (!fits) {
                    throw measure::InputError(
                        "The tank is too small for the measuring device: not even its smallest "
                        "mark of product can be mixed in it",
                        {}, "Use a larger tank or a finer measuring device.");
                }
                std::ranges::move(made, std::back_inserter(loads_));
                return;
            }
        }
    }

    const treat::LabelCard& card_;
    const std::vector<DosedTree>& trees_;
    Volume capacity_;
    std::vector<LoadShare> open_;  // of the load that is being put together
    std::vector<TankLoad> loads_;
};

}  // namespace

std::vector<TankLoad> tank_loads(const treat::LabelCard& card, const std::vector<DosedTree>& trees,
                                 Volume capacity) {
    if (capacity <= Volume()) {
        throw measure::InputError("The capacity of the tank must be more than zero");
    }
    if (!card.mix) return {};
    return Loader(card, trees, capacity).load();
}

}  // namespace ashtriage::plan
