// The sheet on which an application is written down as it was done: a YAML file that a person fills
// in, one application a sheet.
#pragma once

#include <string>
#include <string_view>

#include "treat/application_record.hpp"

namespace ashtriage::treat {

struct ApplicationSheet {
    std::string site;  // by its name in the book
    ApplicationRecord record;
};

// The sheet with what is known filled in and every other entry there to be filled in, each with its
// form as a comment. A correction stands at the top. Identities in the book and the text of the
// label card are not on it.
std::string application_sheet(const ApplicationSheet& sheet);

// Reads a sheet back; entries left empty are not given. Trees come by their label alone. Throws
// packs::BadFile with every problem at its line: an unknown entry, with the nearest one, an amount
// without a unit, a date that does not exist.
ApplicationSheet read_application_sheet(std::string_view text, const std::string& file);

}  // namespace ashtriage::treat
