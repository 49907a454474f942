// Names as they are written in files and names as they are read by people.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::packs {

// "canopy_loss" -> "canopy loss"; "dbh" -> "DBH".
std::string plain_name(std::string_view name);

// Lower case, with every run of blanks, underscores and hyphens as one blank and none at the ends:
// the form in which two spellings of a name are compared.
std::string normalised(std::string_view text);

// Without blanks and tabs at either end.
std::string_view trimmed(std::string_view text);

// "a", "a or b", "a, b or c".
std::string joined(const std::vector<std::string>& words, std::string_view last = "or");

}  // namespace ashtriage::packs
