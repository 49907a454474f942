// A label card to be filled in, with what belongs into each entry said beside it.
#pragma once

#include <string>
#include <string_view>

namespace ashtriage::treat {

// The text of labels/NAME.yaml. It is refused by the reader until every "..." is filled in. Throws
// measure::InputError unless the name is lower-case letters, digits and hyphens.
std::string blank_card(std::string_view name);

}  // namespace ashtriage::treat
