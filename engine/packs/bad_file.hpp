// A file that cannot be used, with everything that is wrong with it.
#pragma once

#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"

namespace ashtriage::packs {

// what() is the whole text, place and source line included, so where() and hint() are empty.
class BadFile : public measure::InputError {
 public:
    explicit BadFile(Problems problems)
        : InputError(problems.text()), problems_(std::move(problems)) {}

    const Problems& problems() const { return problems_; }

 private:
    Problems problems_;
};

}  // namespace ashtriage::packs
