// The one exception for something a person gave that cannot be used: a value, a file, an option.
// Outcomes of the domain (no method fits, the window has passed) are values, not exceptions.
#pragma once

#include <stdexcept>
#include <string>

namespace ashtriage::measure {

class InputError : public std::runtime_error {
 public:
    // `what` names the thing in quotes and says what was expected; `where` is a place such as
    // "trees.csv:4:2" or "--dbh"; `hint` is what to do about it. The last two may be empty.
    explicit InputError(const std::string& what, std::string where = {}, std::string hint = {});

    const std::string& where() const { return where_; }
    const std::string& hint() const { return hint_; }

    // The same error for a caller who knows the place that the code which found it did not.
    InputError at(std::string where) const;

 private:
    std::string where_;
    std::string hint_;
};

}  // namespace ashtriage::measure
