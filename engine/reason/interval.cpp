#include "reason/interval.hpp"

#include <algorithm>

namespace ashtriage::reason {

bool Interval::empty() const {
    return low > high || (low == high && (low_open || high_open));
}

bool Interval::single_point() const {
    return low == high && !low_open && !high_open;
}

bool Interval::contains(double value) const {
    const bool above_low = low_open ? value > low : value >= low;
    const bool below_high = high_open ? value < high : value <= high;
    return above_low && below_high;
}

bool Interval::contains(const Interval& other) const {
    if (other.empty()) return true;
    const bool low_inside = other.low > low || (other.low == low && (!low_open || other.low_open));
    const bool high_inside =
        other.high < high || (other.high == high && (!high_open || other.high_open));
    return low_inside && high_inside;
}

std::optional<Interval> intersection(const Interval& a, const Interval& b) {
    Interval shared;
    shared.low = std::max(a.low, b.low);
    shared.low_open = (a.low == shared.low && a.low_open) || (b.low == shared.low && b.low_open);
    shared.high = std::min(a.high, b.high);
    shared.high_open =
        (a.high == shared.high && a.high_open) || (b.high == shared.high && b.high_open);
    if (shared.empty()) return std::nullopt;
    return shared;
}

double distance(double value, const Interval& target) {
    if (target.contains(value)) return 0.0;
    return value <= target.low ? target.low - value : value - target.high;
}

Interval widened(const Interval& interval, double margin, const Interval& limits) {
    Interval wide{interval.low - margin, interval.high + margin, interval.low_open,
                  interval.high_open};
    return intersection(wide, limits).value_or(interval);
}

}  // namespace ashtriage::reason
