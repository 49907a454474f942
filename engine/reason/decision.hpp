// What the engine answers.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "reason/condition.hpp"
#include "reason/fact.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

// The answer of a single-hit table: every outcome that some completion of the observation leads to,
// and, unless there were too many cases to look into, no other. One outcome alone is a decision.
struct Outcomes {
    LevelSet possible = 0;           // bit i: outcome i of `gives`
    bool none_possible = false;      // in some completion no rule holds (the table has a gap)
    bool conflict_possible = false;  // unique tables: in some completion two rules hold
    bool exact = true;               // false: too many cases; perhaps less is possible than is said

    bool decided() const;
    // The one outcome, if decided.
    std::optional<OutcomeIndex> outcome() const;
    bool contains(const Outcomes& other) const;
    void add(const Outcomes& other);

    friend bool operator==(const Outcomes&, const Outcomes&) = default;
};

// The answer of a collect table: what is collected in every completion, and what in some.
struct Collected {
    LevelSet certain = 0;
    LevelSet possible = 0;
    bool exact = true;  // false: too many cases; perhaps more is certain and less is possible

    friend bool operator==(const Collected&, const Collected&) = default;
};

enum class Truth { no, maybe, yes };

// One condition with the verdict on it, shaped like the condition itself, so that the observed
// value can be shown beside the threshold.
struct ConditionTrace {
    const Condition* condition = nullptr;  // owned by the engine's model
    Truth truth = Truth::maybe;
    std::vector<ConditionTrace> parts;
};

struct RuleTrace {
    RuleIndex rule = 0;
    Truth holds = Truth::maybe;
    bool decides = false;  // this rule gave the outcome, under the table's hit policy
    ConditionTrace condition;
};

// Whether the outcome would survive the error of judging by eye.
struct Firmness {
    bool firm = false;      // decided, and decided alike anywhere inside the error band
    Outcomes within_error;  // the outcomes possible inside the error band
    // What to measure again. Where one measurement alone would settle the answer, those that would,
    // each by itself; where none would, all that play a part.
    std::vector<FactIndex> measure_again;
    bool one_settles = false;
};

// A fact that would have to be otherwise, and how.
struct ChangedFact {
    FactIndex fact = 0;
    Value to;               // the nearest stretch or levels that will do
    double distance = 0.0;  // in units of eye error where the fact has one, else in units or levels
};

// The smallest change to what was observed that leads to another outcome: the fewest facts, and
// among those the smallest total distance.
struct Change {
    OutcomeIndex outcome = 0;
    std::vector<ChangedFact> facts;

    double distance() const;
};

}  // namespace ashtriage::reason
