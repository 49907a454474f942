// A stretch of numbers, each end either part of it or not. Thresholds cut a fact's range into such
// stretches: "above 50" is the open-ended (50, 100], "at most 50" is [0, 50].
#pragma once

#include <optional>

namespace ashtriage::reason {

struct Interval {
    double low = 0.0;
    double high = 0.0;
    bool low_open = false;   // true: `low` itself is not part of the interval
    bool high_open = false;  // true: `high` itself is not part of the interval

    static constexpr Interval closed(double low, double high) { return {low, high, false, false}; }
    static constexpr Interval point(double value) { return {value, value, false, false}; }

    bool empty() const;
    bool single_point() const;
    bool contains(double value) const;
    bool contains(const Interval& other) const;

    friend bool operator==(const Interval&, const Interval&) = default;
};

// The part that both share; nothing when they share no number.
std::optional<Interval> intersection(const Interval& a, const Interval& b);

// How far `value` must move to come into `target`; 0 when it is inside. An open end counts as
// reached at the end itself, since no smallest step into an open interval exists.
double distance(double value, const Interval& target);

// The interval with both ends moved outward by `margin` and then held inside `limits`.
Interval widened(const Interval& interval, double margin, const Interval& limits);

}  // namespace ashtriage::reason
