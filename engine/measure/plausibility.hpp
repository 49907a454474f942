// Questions to ask back about a DBH that may have been entered wrongly. They are asked, never acted
// on: the figure stays as it was entered until a person changes it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.hpp"

namespace ashtriage::measure {

enum class DbhDoubt {
    too_small,              // less than 1 in
    too_large,              // more than 60 in
    girth_as_diameter,      // about pi times the DBH of the last visit
    centimetres_as_inches,  // about 2.54 times the DBH of the last visit
    shrunk                  // below the DBH of the last visit by more than two tapes can differ
};

struct DbhQuestion {
    DbhDoubt doubt;
    std::string text;  // the question in words, with both figures
};

// In the order of DbhDoubt; empty when nothing is odd. `last_visit` is the DBH then, if there was
// one.
std::vector<DbhQuestion> questions_about_dbh(Length dbh, std::optional<Length> last_visit);

// For a diameter that was typed in, with no earlier visit to hold it against: from 25 inches on,
// more than most ash that are treated have, whether it is not the girth. Nothing below that. The
// bound comes from no source.
std::optional<std::string> girth_question(Length typed);

}  // namespace ashtriage::measure
