// The first row of a comma-separated table, which names the columns.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::packs {

// The names of the columns. Capital and small letters, blanks, hyphens and underscores count as
// alike.
class CsvHeader {
 public:
    CsvHeader() = default;
    // Throws measure::InputError when a name is empty or stands twice.
    CsvHeader(std::vector<std::string> names, std::string file);

    const std::vector<std::string>& names() const { return names_; }

    std::optional<std::size_t> find(std::string_view name) const;
    // Throws measure::InputError, with the nearest name that is there, when the column is missing.
    std::size_t require(std::string_view name) const;
    // Throws measure::InputError for the first column that is none of `known`, with the nearest.
    void refuse_unknown(const std::vector<std::string>& known) const;

 private:
    std::vector<std::string> names_;
    std::string file_;
};

}  // namespace ashtriage::packs
