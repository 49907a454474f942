// What can be known about the thing that is judged: one named quantity, scale, choice or yes/no.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "reason/interval.hpp"

namespace ashtriage::reason {

enum class FactKind {
    number,   // a value in `range`, in the fact's own unit
    ordered,  // one of `levels`, which rise from first to last
    choice,   // one of `levels`, in no order
    yes_no,   // levels "no" and "yes", in this order
};

using FactIndex = std::size_t;
using LevelIndex = std::size_t;

// A set of levels, bit i standing for level i. A fact or table has at most 64 levels.
using LevelSet = std::uint64_t;
inline constexpr std::size_t most_levels = 64;

constexpr LevelSet only_level(LevelIndex level) {
    return LevelSet{1} << level;
}
constexpr LevelSet all_levels(std::size_t count) {
    return count >= most_levels ? ~LevelSet{0} : (LevelSet{1} << count) - 1;
}
constexpr bool has_level(LevelSet set, LevelIndex level) {
    return (set >> level & 1U) != 0;
}

struct Fact {
    std::string name;
    FactKind kind = FactKind::yes_no;
    Interval range;          // number: the values that make sense, in the fact's unit
    bool whole = false;      // number: there is nothing between two whole numbers (a count)
    double eye_error = 0.0;  // number: a judged value v may be anything in v +/- eye_error
    bool changeable = true;  // false: never offered as something that could be otherwise (species)
    bool may_not_apply = false;  // there may be nothing that it could be said of (no line near)
    std::vector<std::string> levels;  // ordered, choice, yes_no

    friend bool operator==(const Fact&, const Fact&) = default;
};

// A yes/no fact has the levels no (0) and yes (1).
std::vector<std::string> yes_no_levels();

}  // namespace ashtriage::reason
