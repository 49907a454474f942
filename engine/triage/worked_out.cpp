#include "triage/worked_out.hpp"

#include <algorithm>
#include <bit>
#include <string_view>

#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {

namespace {

using packs::RuleSet;
using reason::Interval;
using reason::Observation;
using reason::Value;

const Value* known_value(const Observation& values, std::optional<reason::FactIndex> fact) {
    if (!fact || values[*fact].is_unknown() || values[*fact].is_not_applicable()) return nullptr;
    return &values[*fact];
}

const Interval* known_number(const Observation& values, std::optional<reason::FactIndex> fact) {
    const Value* value = known_value(values, fact);
    return value == nullptr ? nullptr : value->interval();
}

// The five classes of ash canopy condition say no more about dieback than this (Knight et al. 2014,
// GTR NRS-139; classes 2 to 4 from memory): 1 and 2 no dieback, 3 under half, 4 over half, 5 no
// leaves. Class 2 is thinning of an amount the scale does not say.
std::optional<Interval> loss_of_class(reason::LevelIndex canopy_class) {
    switch (canopy_class) {
        case 0:
            return Interval::point(0);
        case 2:
            return Interval{0, 50, true, true};
        case 3:
            return Interval{50, 100, true, true};
        case 4:
            return Interval::point(100);
        default:
            return std::nullopt;
    }
}

}  // namespace

WorkingOut::WorkingOut(const RuleSet& rules) : rules_(&rules) {
    const auto find = [&](std::string_view name) { return rules.model.find_fact(name); };
    canopy_loss_ = find(fact::canopy_loss);
    canopy_measures_ = {find(fact::canopy_dieback), find(fact::canopy_thinning)};
    canopy_class_ = find(fact::canopy_class);
    ratios_ = {{find(fact::shell_per_6_inches), find(fact::shell_thickness), find(fact::dbh), 6.0},
               {find(fact::target_distance_in_heights), find(fact::target_distance),
                find(fact::tree_height), 1.0},
               {find(fact::line_distance_in_heights), find(fact::line_distance),
                find(fact::tree_height), 1.0}};
}

void WorkingOut::fill_in(Observation& values, std::vector<std::string>* notes) const {
    if (canopy_loss_ && values[*canopy_loss_].is_unknown()) fill_in_canopy_loss(values, notes);
    for (const Ratio& ratio : ratios_) {
        if (ratio.ratio && values[*ratio.ratio].is_unknown()) fill_in_ratio(ratio, values);
    }
}

std::string WorkingOut::quoted_value(reason::FactIndex fact, const Value& value) const {
    const reason::Fact& told = rules_->model.facts[fact];
    return packs::plain_name(told.name) + " of " +
           packs::value_text(told, rules_->facts[fact], value);
}

void WorkingOut::fill_in_canopy_loss(Observation& values, std::vector<std::string>* notes) const {
    // Dieback and thinning are different measures and are never added up or converted. A threshold
    // is held against each of them as it was recorded, so the worst one counts.
    std::vector<reason::FactIndex> recorded_as;
    std::optional<Interval> worst;
    for (const Fact& measure : canopy_measures_) {
        const Interval* recorded = known_number(values, measure);
        if (recorded == nullptr) continue;
        if (notes != nullptr) recorded_as.push_back(*measure);
        worst = worst ? Interval::closed(std::max(worst->low, recorded->low),
                                         std::max(worst->high, recorded->high))
                      : *recorded;
    }
    if (worst) {
        values[*canopy_loss_] = Value::range(*worst);
        if (notes == nullptr) return;
        std::vector<std::string> named;
        for (const reason::FactIndex fact : recorded_as) {
            named.push_back(quoted_value(fact, Value::range(*values[fact].interval())));
        }
        notes->push_back(
            named.size() == 1
                ? "The thresholds are stated for canopy loss. Only a " + named.front() +
                      " was recorded and is held against them as it is."
                : "The thresholds are stated for canopy loss. The worse of " + named[0] + " and " +
                      named[1] + " is held against them; the two are not added.");
        return;
    }

    const Value* canopy_class = known_value(values, canopy_class_);
    if (canopy_class == nullptr || std::popcount(*canopy_class->level_set()) != 1) return;
    const auto level =
        static_cast<reason::LevelIndex>(std::countr_zero(*canopy_class->level_set()));
    const auto stretch = loss_of_class(level);
    if (stretch) values[*canopy_loss_] = Value::range(*stretch);
    if (notes == nullptr) return;
    if (!stretch) {
        notes->push_back(
            "Canopy class 2 means thinning without dieback, of an amount the scale does "
            "not say; judge the thinning in percent.");
        return;
    }
    notes->push_back("Canopy loss is known only as far as the canopy class says: " +
                     packs::value_text(rules_->model.facts[*canopy_loss_],
                                       rules_->facts[*canopy_loss_], values[*canopy_loss_]) +
                     ".");
}

// Where the length is known. Where there is no such length (no line, no target near) there is no
// ratio either.
void WorkingOut::fill_in_ratio(const Ratio& ratio, Observation& values) const {
    if (ratio.length && values[*ratio.length].is_not_applicable()) {
        values[*ratio.ratio] = Value::not_applicable();
        return;
    }
    const Interval* above = known_number(values, ratio.length);
    if (above == nullptr || !ratio.divisor || values[*ratio.divisor].is_not_applicable()) return;
    // A divisor that nobody measured is still one that a tree can have.
    const Interval* measured = known_number(values, ratio.divisor);
    const Interval& below =
        measured == nullptr ? rules_->model.facts[*ratio.divisor].range : *measured;
    const Interval& range = rules_->model.facts[*ratio.ratio].range;
    if (below.high <= 0.0) return;
    const Interval exact{ratio.factor * above->low / below.high,
                         below.low > 0.0     ? ratio.factor * above->high / below.low
                         : above->high > 0.0 ? range.high
                                             : 0.0};
    // What is beyond the range of the fact is as good as at its end.
    values[*ratio.ratio] =
        Value::range(Interval::closed(std::clamp(exact.low, range.low, range.high),
                                      std::clamp(exact.high, range.low, range.high)));
}

std::vector<std::string> work_out(const RuleSet& rules, Observation& values) {
    std::vector<std::string> notes;
    WorkingOut(rules).fill_in(values, &notes);
    return notes;
}

PartlyKnownCrown::PartlyKnownCrown(const RuleSet& rules)
    : loss_(rules.model.find_fact(fact::canopy_loss)),
      measures_{rules.model.find_fact(fact::canopy_dieback),
                rules.model.find_fact(fact::canopy_thinning)},
      greatest_loss_(loss_ ? rules.model.facts[*loss_].range.high : 0.0) {}

std::optional<reason::FactIndex> PartlyKnownCrown::missing(const Observation& values) const {
    if (!loss_ || !measures_[0] || !measures_[1]) return std::nullopt;
    const bool dieback = known_number(values, measures_[0]) != nullptr;
    const bool thinning = known_number(values, measures_[1]) != nullptr;
    if (dieback == thinning) return std::nullopt;
    const reason::FactIndex open = *measures_[dieback ? 1 : 0];
    return values[open].is_unknown() ? std::optional(open) : std::nullopt;
}

Observation PartlyKnownCrown::left_open(Observation values) const {
    if (!loss_) return values;
    const Interval* known = values[*loss_].interval();
    if (known == nullptr) return values;
    values[*loss_] = Value::range({known->low, greatest_loss_, known->low_open, false});
    return values;
}

}  // namespace ashtriage::triage
