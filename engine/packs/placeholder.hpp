// Texts of a rule pack with names in braces: "Canopy loss of {canopy_loss} is above {stop_above}."
#pragma once

#include <string_view>
#include <vector>

namespace ashtriage::packs {

// A stretch of plain text, or the name that stood in braces.
struct TextPiece {
    std::string_view text;
    bool is_name = false;
};

// The text cut into its pieces; `ok` is false when a brace has no partner or holds nothing.
struct TextPieces {
    std::vector<TextPiece> pieces;
    bool ok = true;
};
TextPieces text_pieces(std::string_view text);

}  // namespace ashtriage::packs
