#include "measure/input_error.hpp"

#include <utility>

namespace ashtriage::measure {

InputError::InputError(const std::string& what, std::string where, std::string hint)
    : std::runtime_error(what), where_(std::move(where)), hint_(std::move(hint)) {}

InputError InputError::at(std::string where) const {
    return InputError(what(), std::move(where), hint_);
}

}  // namespace ashtriage::measure
