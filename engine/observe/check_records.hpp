// Whether what a person recorded can be true at all: the checks that need no rules and no book.
#pragma once

#include "measure/date.hpp"
#include "observe/records.hpp"

namespace ashtriage::observe {

// Each throws measure::InputError that names everything wrong with the record at once.
//
// A name, label or other single line must not be blank where it is needed, must not begin or end
// with a space (two labels would look the same), and must hold no control characters.
void check(const Client& client);
void check(const Site& site);
void check(const Tree& tree);
// Stems longer than nothing, a date of the calendar, every fact at most once, and an observer.
void check(const WalkAround& walk_around);
// The same, and a date that is not after `as_of`.
void check(const WalkAround& walk_around, const measure::Date& as_of);

}  // namespace ashtriage::observe
