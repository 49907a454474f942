// What texts were found to mean, remembered for the next time: for a column of a table, in which
// the same few texts come again and again. Its size is fixed; a text that falls on the place of
// another takes it over.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string_view>
#include <utility>
#include <vector>

namespace ashtriage::packs {

template <class Meaning>
class TextMemory {
 public:
    static constexpr std::size_t longest_text = 23;  // longer ones are not remembered

    // `places` is a power of two.
    explicit TextMemory(std::size_t places) : places_(places) {}

    // Null when the text is not remembered. Valid until the next keep().
    const Meaning* find(std::string_view text) const {
        if (text.size() > longest_text) return nullptr;
        const Place& place = places_[place_of(text)];
        return place.used && place.text() == text ? &place.meaning : nullptr;
    }

    void keep(std::string_view text, Meaning meaning) {
        if (text.size() > longest_text) return;
        Place& place = places_[place_of(text)];
        place.used = true;
        place.size = static_cast<std::uint8_t>(text.size());
        std::memcpy(place.bytes.data(), text.data(), text.size());
        place.meaning = std::move(meaning);
    }

 private:
    struct Place {
        std::array<char, longest_text> bytes{};
        std::uint8_t size = 0;
        bool used = false;
        Meaning meaning{};

        std::string_view text() const { return {bytes.data(), size}; }
    };

    // FNV-1a, which is enough for texts this short.
    std::size_t place_of(std::string_view text) const {
        std::uint64_t hash = 14695981039346656037U;
        for (const char c : text) {
            hash = (hash ^ static_cast<unsigned char>(c)) * std::uint64_t{1099511628211U};
        }
        return static_cast<std::size_t>(hash ^ (hash >> 32U)) & (places_.size() - 1);
    }

    std::vector<Place> places_;
};

}  // namespace ashtriage::packs
