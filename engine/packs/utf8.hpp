// Text that comes from outside must be UTF-8 before anything else looks at it.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace ashtriage::packs {

// The byte order mark that some editors and spreadsheets put before UTF-8 text.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// The position of the first byte that is not part of well-formed UTF-8 (RFC 3629: no overlong
// forms, no surrogates, nothing above U+10FFFF); nothing when all is well.
std::optional<std::size_t> first_invalid_utf8(std::string_view text);

}  // namespace ashtriage::packs
