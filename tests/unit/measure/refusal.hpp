// Catches the InputError a call is expected to throw, so that its words can be looked at.
#pragma once

#include <gtest/gtest.h>

#include <optional>
#include <string>

#include "measure/input_error.hpp"

namespace ashtriage::measure {

struct Refusal {
    std::string what;
    std::string hint;
};

template <class Call>
std::optional<Refusal> refusal_of(Call call) {
    try {
        call();
    } catch (const InputError& error) {
        return Refusal{error.what(), error.hint()};
    }
    ADD_FAILURE() << "nothing was refused";
    return std::nullopt;
}

}  // namespace ashtriage::measure
