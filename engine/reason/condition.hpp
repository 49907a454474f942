// When a rule holds: tests on facts and on the outcomes of other tables, joined by all, any, not.
#pragma once

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

#include "reason/fact.hpp"
#include "reason/interval.hpp"

namespace ashtriage::reason {

using TableIndex = std::size_t;

// The value of a number fact lies in `accepted`. `setting` names the setting that gave the
// threshold, if one did, so that an explanation can say so.
struct NumberTest {
    FactIndex fact = 0;
    Interval accepted;
    std::string setting;
};

// The level of an ordered, choice or yes/no fact is one of `accepted`.
struct LevelTest {
    FactIndex fact = 0;
    LevelSet accepted = 0;
};

// A single-hit table came out as one of `accepted`, or a collect table collected at least one of
// them. Bit i stands for entry i of the table's `gives`.
struct OutcomeTest {
    TableIndex table = 0;
    LevelSet accepted = 0;
};

struct Condition {
    enum class Kind { all, any, negation, number, level, outcome };

    Kind kind = Kind::all;         // all of nothing: always met
    std::vector<Condition> parts;  // all, any; negation has exactly one
    std::variant<std::monostate, NumberTest, LevelTest, OutcomeTest> test;

    static Condition always() { return {}; }
    static Condition all(std::vector<Condition> parts);
    static Condition any(std::vector<Condition> parts);
    static Condition negation(Condition part);
    static Condition number(FactIndex fact, const Interval& accepted, std::string setting = {});
    static Condition level(FactIndex fact, LevelSet accepted);
    static Condition outcome(TableIndex table, LevelSet accepted);
};

}  // namespace ashtriage::reason
