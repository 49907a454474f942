// Facts that follow from others. Each is worked out only when nobody entered it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "reason/value.hpp"

namespace ashtriage::triage {

// The facts that follow and what they follow from, found once in a rule set, for many trees.
class WorkingOut {
 public:
    // The rule set must outlive the object.
    explicit WorkingOut(const packs::RuleSet& rules);

    // As work_out(). `notes` may be null when nobody asks how it was done.
    void fill_in(reason::Observation& values, std::vector<std::string>* notes) const;

 private:
    using Fact = std::optional<reason::FactIndex>;

    // One length over another, times a factor.
    struct Ratio {
        Fact ratio;
        Fact length;
        Fact divisor;
        double factor = 1.0;
    };

    void fill_in_canopy_loss(reason::Observation& values, std::vector<std::string>* notes) const;
    void fill_in_ratio(const Ratio& ratio, reason::Observation& values) const;
    std::string quoted_value(reason::FactIndex fact, const reason::Value& value) const;

    const packs::RuleSet* rules_;
    Fact canopy_loss_;
    std::vector<Fact> canopy_measures_;
    Fact canopy_class_;
    std::vector<Ratio> ratios_;
};

// Fills in canopy_loss, shell_per_6_inches, target_distance_in_heights and line_distance_in_heights
// where the rule set has them, they are unknown, and what they follow from is known; a height or a
// DBH that is not known counts as any that a tree can have, and a distance that does not apply is
// no number of heights either. Returns notes on how that was done.
std::vector<std::string> work_out(const packs::RuleSet& rules, reason::Observation& values);

// Dieback and thinning both stand behind the canopy loss, which is the worse of the two. Where only
// one of them is known the loss may be worse than it.
class PartlyKnownCrown {
 public:
    explicit PartlyKnownCrown(const packs::RuleSet& rules);

    // The measure that is missing while the other is known; nothing otherwise.
    std::optional<reason::FactIndex> missing(const reason::Observation& values) const;
    // The canopy loss left open from what it is known to be upward.
    reason::Observation left_open(reason::Observation values) const;

 private:
    std::optional<reason::FactIndex> loss_;
    std::vector<std::optional<reason::FactIndex>> measures_;
    double greatest_loss_ = 0.0;
};

}  // namespace ashtriage::triage
