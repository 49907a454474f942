#include "packs/placeholder.hpp"

#include <cstddef>

namespace ashtriage::packs {

TextPieces text_pieces(std::string_view text) {
    TextPieces result;
    while (!text.empty()) {
        const std::size_t open = text.find_first_of("{}");
        if (open > 0) result.pieces.push_back({text.substr(0, open), false});
        if (open == std::string_view::npos) break;
        const std::size_t close = text.find_first_of("{}", open + 1);
        if (text[open] == '}' || close == std::string_view::npos || text[close] == '{' ||
            close == open + 1) {
            result.ok = false;
            return result;
        }
        result.pieces.push_back({text.substr(open + 1, close - open - 1), true});
        text.remove_prefix(close + 1);
    }
    return result;
}

}  // namespace ashtriage::packs
