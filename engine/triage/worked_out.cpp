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

const Value* known_value(const RuleSet& rules, const Observation& values, std::string_view fact) {
    const auto index = rules.model.find_fact(fact);
    if (!index || values[*index].is_unknown() || values[*index].is_not_applicable()) return nullptr;
    return &values[*index];
}

const Interval* known_number(const RuleSet& rules, const Observation& values,
                             std::string_view fact) {
    const Value* value = known_value(rules, values, fact);
    return value == nullptr ? nullptr : value->interval();
}

// The fact to fill in, unless the rule set has none of that name or it is known already.
std::optional<reason::FactIndex> wanted(const RuleSet& rules, const Observation& values,
                                        std::string_view fact) {
    const auto index = rules.model.find_fact(fact);
    if (!index || !values[*index].is_unknown()) return std::nullopt;
    return index;
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

std::string quoted_value(const RuleSet& rules, std::string_view fact, const Value& value) {
    const auto index = *rules.model.find_fact(fact);
    return packs::plain_name(fact) + " of " +
           packs::value_text(rules.model.facts[index], rules.facts[index], value);
}

void work_out_canopy_loss(const RuleSet& rules, Observation& values,
                          std::vector<std::string>& notes) {
    const auto loss = wanted(rules, values, fact::canopy_loss);
    if (!loss) return;

    // Dieback and thinning are different measures and are never added up or converted. A threshold
    // is held against each of them as it was recorded, so the worst one counts.
    std::vector<std::string> named;
    std::optional<Interval> worst;
    for (const std::string_view measure : {fact::canopy_dieback, fact::canopy_thinning}) {
        const Interval* recorded = known_number(rules, values, measure);
        if (recorded == nullptr) continue;
        named.push_back(quoted_value(rules, measure, Value::range(*recorded)));
        worst = worst ? Interval::closed(std::max(worst->low, recorded->low),
                                         std::max(worst->high, recorded->high))
                      : *recorded;
    }
    if (worst) {
        values[*loss] = Value::range(*worst);
        notes.push_back(named.size() == 1
                            ? "The thresholds are stated for canopy loss. Only a " + named.front() +
                                  " was recorded and is held against them as it is."
                            : "The thresholds are stated for canopy loss. The worse of " +
                                  named[0] + " and " + named[1] +
                                  " is held against them; the two are not added.");
        return;
    }

    const Value* canopy_class = known_value(rules, values, fact::canopy_class);
    if (canopy_class == nullptr || std::popcount(*canopy_class->level_set()) != 1) return;
    const auto level =
        static_cast<reason::LevelIndex>(std::countr_zero(*canopy_class->level_set()));
    const auto stretch = loss_of_class(level);
    if (!stretch) {
        notes.push_back(
            "Canopy class 2 means thinning without dieback, of an amount the scale does "
            "not say; judge the thinning in percent.");
        return;
    }
    values[*loss] = Value::range(*stretch);
    notes.push_back("Canopy loss is known only as far as the canopy class says: " +
                    packs::value_text(rules.model.facts[*loss], rules.facts[*loss], values[*loss]) +
                    ".");
}

// One length over another, where both are known and the divisor cannot be zero. Where there is no
// such length (no line, no target near) there is no ratio either.
void work_out_ratio(const RuleSet& rules, Observation& values, std::string_view ratio,
                    std::string_view length, std::string_view divisor, double factor) {
    const auto wanted_ratio = wanted(rules, values, ratio);
    const auto measured = rules.model.find_fact(length);
    if (wanted_ratio && measured && values[*measured].is_not_applicable()) {
        values[*wanted_ratio] = Value::not_applicable();
        return;
    }
    const Interval* above = known_number(rules, values, length);
    const Interval* below = known_number(rules, values, divisor);
    if (!wanted_ratio || above == nullptr || below == nullptr || below->low <= 0.0) return;
    const Interval exact{factor * above->low / below->high, factor * above->high / below->low};
    // What is beyond the range of the fact is as good as at its end.
    const Interval& range = rules.model.facts[*wanted_ratio].range;
    values[*wanted_ratio] =
        Value::range(Interval::closed(std::clamp(exact.low, range.low, range.high),
                                      std::clamp(exact.high, range.low, range.high)));
}

}  // namespace

std::vector<std::string> work_out(const RuleSet& rules, Observation& values) {
    std::vector<std::string> notes;
    work_out_canopy_loss(rules, values, notes);
    work_out_ratio(rules, values, fact::shell_per_6_inches, fact::shell_thickness, fact::dbh, 6.0);
    work_out_ratio(rules, values, fact::target_distance_in_heights, fact::target_distance,
                   fact::tree_height, 1.0);
    work_out_ratio(rules, values, fact::line_distance_in_heights, fact::line_distance,
                   fact::tree_height, 1.0);
    return notes;
}

}  // namespace ashtriage::triage
