// What is measured out for one tree by one label card.
//
// Amounts are worked out in whole ticks of the quantities, with no floating arithmetic: the exact
// amount is rounded down to the tick, and what is measured is rounded down again to the marks of
// the measuring device, so a dose never passes what the label allows. Only the carrier is rounded
// up: more water never makes a mix stronger than the label.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "treat/amount.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// Which rate of the card.
enum class RateLevel { low, usual, high };

// stop: against the label, nothing may be applied. warning: allowed, but the reader has to decide.
// note: how a figure was come by.
enum class Severity { stop, warning, note };

// The id of the warning that goes with every dose from an example card.
inline constexpr std::string_view example_finding = "example-card";

struct Finding {
    Severity severity = Severity::note;
    std::string id;  // stable, kebab-case
    std::string text;
};

enum class Part { product, surfactant, carrier };

struct MeasuredAmount {
    Part part = Part::product;
    std::string what;  // "product", "organosilicone surfactant", "water"
    Amount exact;      // what the card asks for
    Amount measured;   // in whole marks of the measuring device
    std::string text;  // as read off the device, unit spelled out: "6.0 US fluid ounces"
    std::string twin;  // the same in the other system of units
};

struct ActiveAmount {
    std::string name;
    measure::Mass mass;
};

// What is to be dosed. Each stem is a DBH; with several the card says which diameter counts, and
// holes and bark are counted on every stem.
struct DoseTask {
    std::vector<measure::Length> stems;
    RateLevel rate = RateLevel::usual;
    std::optional<measure::Area> treated_area;  // of ground, for cards that count by it
};

// One stem of a tree, with its injection holes where the card counts them.
struct DosedStem {
    measure::Length dbh;
    std::optional<int> holes;
};

struct Dose {
    std::vector<DosedStem> stems;        // each one, as it was measured
    std::optional<measure::Length> dbh;  // that the dose was worked out for
    RateLevel rate = RateLevel::usual;
    std::vector<MeasuredAmount> amounts;  // product, surfactant, carrier; none after a stop
    std::optional<measure::Volume>
        finished;                  // all that goes into the sprayer or injector, when liquid
    std::optional<Amount> lowest;  // product, that the label card allows for this tree
    std::optional<Amount> highest;
    std::optional<measure::Mass> active;  // active ingredient in the measured product
    std::vector<ActiveAmount> other_actives;
    std::optional<measure::Area> bark;  // wetted, as a cylinder from the ground up: approximate
    std::optional<int> holes;
    std::optional<Amount> product_per_hole;  // rounded down
    std::vector<Finding> findings;

    bool stopped() const;
    const MeasuredAmount* find(Part part) const;
};

// No stems, a stem of zero, a DBH outside the card's range or table, ground of unknown area where
// the card counts by it: the dose is stopped.
Dose dose_for(const LabelCard& card, const DoseTask& task);
// The same for one stem.
Dose dose_for(const LabelCard& card, measure::Length dbh, RateLevel rate = RateLevel::usual);

// Active ingredient in an amount of product. Round up where it is counted against a limit. Throws
// InputError when the strength is stated for a liquid and the amount is a weight, or the other way
// round.
measure::Mass active_in(const Strength& strength, const Amount& product,
                        measure::Rounding rounding = measure::Rounding::nearest);

// Whether an amount of product falls short of a label's lowest rate by more than a hundredth. Where
// a label gives one rate only, rounding down to the mark of any measure ends a little below it;
// that is no lower rate. The bound is as fine as labels print their figures, and comes from no
// source. Throws InputError when one is a volume and one a weight.
bool below_rate(const Amount& product, const Amount& lowest);

// "1.42 grams (0.0031 pounds)".
std::string active_text(measure::Mass active);

}  // namespace ashtriage::treat
