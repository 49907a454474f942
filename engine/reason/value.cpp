#include "reason/value.hpp"

#include <bit>

namespace ashtriage::reason {

bool Value::is_exact() const {
    if (const Interval* stretch = interval()) return stretch->single_point();
    if (const LevelSet* set = level_set()) return std::popcount(*set) == 1;
    return false;
}

}  // namespace ashtriage::reason
