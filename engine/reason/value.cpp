#include "reason/value.hpp"

#include <bit>

namespace ashtriage::reason {

bool Value::is_exact() const {
    if (const Interval* stretch = interval()) return stretch->single_point();
    if (const LevelSet* set = level_set()) return std::popcount(*set) == 1;
    return false;
}

const LevelSet* Value::level_set() const {
    const Levels* levels = std::get_if<Levels>(&content_);
    return levels == nullptr ? nullptr : &levels->set;
}

}  // namespace ashtriage::reason
