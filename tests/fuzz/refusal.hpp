// What must be true of everything that is refused.
#pragma once

#include <optional>
#include <string_view>

#include "entries.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::fuzz {

// Throws std::logic_error unless the refusal of `bytes` can be shown to people: it says something,
// not without end, and in UTF-8 if the bytes were. A packs::BadFile goes to the terminal as it is,
// so it must hold no control characters.
void check_refusal(const measure::InputError& error, std::string_view bytes);

// Runs `read`, which reads `bytes`; a refusal is checked and given back.
template <class Read>
Refusal refusal_of(std::string_view bytes, Read&& read) {
    try {
        read();
    } catch (const measure::InputError& error) {
        check_refusal(error, bytes);
        return error.what();
    }
    return std::nullopt;
}

}  // namespace ashtriage::fuzz
