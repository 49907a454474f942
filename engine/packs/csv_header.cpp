#include "packs/csv_header.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

using measure::InputError;

CsvHeader::CsvHeader(std::vector<std::string> names, std::string file)
    : names_(std::move(names)), file_(std::move(file)) {
    if (names_.size() == 1 && names_.front().find_first_of(";\t") != std::string::npos) {
        throw InputError("the columns are not separated by commas", file_,
                         "save the table as CSV with commas between the columns");
    }
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const std::string name = normalised(names_[i]);
        if (name.empty()) {
            throw InputError(fmt::format("column {} has no name", i + 1), file_,
                             "the first row must name every column");
        }
        for (std::size_t j = 0; j < i; ++j) {
            if (normalised(names_[j]) != name) continue;
            throw InputError(fmt::format("the column '{}' stands twice, as column {} and column {}",
                                         names_[i], j + 1, i + 1),
                             file_, "give every column a name of its own");
        }
    }
}

std::optional<std::size_t> CsvHeader::find(std::string_view name) const {
    const std::string wanted = normalised(name);
    for (std::size_t i = 0; i < names_.size(); ++i) {
        if (normalised(names_[i]) == wanted) return i;
    }
    return std::nullopt;
}

std::size_t CsvHeader::require(std::string_view name) const {
    if (const auto found = find(name)) return *found;
    const std::string near = nearest(name, names_);
    throw InputError(fmt::format("the column '{}' is missing", name), file_,
                     near.empty() ? fmt::format("the columns are: {}", fmt::join(names_, ", "))
                                  : fmt::format("is the column '{}' meant to be it?", near));
}

void CsvHeader::refuse_unknown(const std::vector<std::string>& known) const {
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const std::string name = normalised(names_[i]);
        const bool is_known =
            std::any_of(known.begin(), known.end(),
                        [&](const std::string& other) { return normalised(other) == name; });
        if (is_known) continue;
        throw InputError(
            fmt::format("column {}, '{}', is not one that is expected", i + 1, names_[i]), file_,
            nearest_hint(names_[i], known));
    }
}

}  // namespace ashtriage::packs
