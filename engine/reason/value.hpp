// What is known of one fact: its value, a range or set it lies in, or why nothing is known.
#pragma once

#include <variant>
#include <vector>

#include "reason/fact.hpp"
#include "reason/interval.hpp"

namespace ashtriage::reason {

// Why a fact has no value. Neither tells anything about the value: both leave every one possible.
enum class WhyUnknown {
    not_asked,      // nobody looked
    could_not_see,  // somebody looked and could not tell
};

// The question makes no sense for this case (the shape of holes where there are none). No condition
// on a fact that does not apply is met.
struct NotApplicable {
    friend bool operator==(NotApplicable, NotApplicable) = default;
};

class Value {
 public:
    Value() = default;  // unknown, not asked

    static Value number(double value) { return Value{Interval::point(value)}; }
    static Value range(const Interval& interval) { return Value{interval}; }
    static Value level(LevelIndex level) { return Value{Levels{only_level(level)}}; }
    static Value levels(LevelSet set) { return Value{Levels{set}}; }
    static Value yes() { return level(1); }
    static Value no() { return level(0); }
    static Value unknown(WhyUnknown why) { return Value{why}; }
    static Value not_applicable() { return Value{NotApplicable{}}; }

    bool is_unknown() const { return std::holds_alternative<WhyUnknown>(content_); }
    bool is_not_applicable() const { return std::holds_alternative<NotApplicable>(content_); }
    // One number or one level: nothing left open.
    bool is_exact() const;

    // The content, or null when it is of another kind.
    const WhyUnknown* why_unknown() const { return std::get_if<WhyUnknown>(&content_); }
    const Interval* interval() const { return std::get_if<Interval>(&content_); }
    const LevelSet* level_set() const {
        const Levels* levels = std::get_if<Levels>(&content_);
        return levels == nullptr ? nullptr : &levels->set;
    }

    friend bool operator==(const Value&, const Value&) = default;

 private:
    struct Levels {
        LevelSet set = 0;
        friend bool operator==(Levels, Levels) = default;
    };
    using Content = std::variant<WhyUnknown, NotApplicable, Interval, Levels>;
    explicit Value(Content content) : content_(content) {}

    Content content_ = WhyUnknown::not_asked;
};

// One value for each fact of a model, in the model's order.
using Observation = std::vector<Value>;

}  // namespace ashtriage::reason
