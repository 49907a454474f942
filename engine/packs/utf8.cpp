#include "packs/utf8.hpp"

namespace ashtriage::packs {

namespace {

struct Lead {
    std::size_t length = 0;  // bytes of the character; 0: not a lead byte
    // What the second byte may be; further bytes may be 0x80 to 0xBF.
    unsigned char second_low = 0x80;
    unsigned char second_high = 0xBF;
};

// Table 3-7 of the Unicode standard, "Well-Formed UTF-8 Byte Sequences".
Lead lead(unsigned char byte) {
    if (byte < 0x80) return {1};
    if (byte >= 0xC2 && byte <= 0xDF) return {2};
    if (byte == 0xE0) return {3, 0xA0, 0xBF};
    if (byte == 0xED) return {3, 0x80, 0x9F};
    if (byte >= 0xE1 && byte <= 0xEF) return {3};
    if (byte == 0xF0) return {4, 0x90, 0xBF};
    if (byte >= 0xF1 && byte <= 0xF3) return {4};
    if (byte == 0xF4) return {4, 0x80, 0x8F};
    return {};
}

}  // namespace

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
    std::size_t i = 0;
    while (i < text.size()) {
        const Lead first = lead(static_cast<unsigned char>(text[i]));
        if (first.length == 0 || first.length > text.size() - i) return i;
        for (std::size_t k = 1; k < first.length; ++k) {
            const auto byte = static_cast<unsigned char>(text[i + k]);
            const unsigned char low = k == 1 ? first.second_low : 0x80;
            const unsigned char high = k == 1 ? first.second_high : 0xBF;
            if (byte < low || byte > high) return i;
        }
        i += first.length;
    }
    return std::nullopt;
}

}  // namespace ashtriage::packs
