// What may be said with any command.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "measure/date.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::cli {

enum class Format { text, csv, json };

struct Options {
    std::optional<std::filesystem::path> book;  // --book, else ASHTRIAGE_BOOK, else XDG data folder
    std::optional<std::filesystem::path> rules;  // --rules, else the built-in packs
    std::string preset;
    std::string as_of;  // --as-of, else today
    std::string format = "text";
    bool dry_run = false;

    measure::Date date() const;
    Format output_format() const;
    std::filesystem::path book_path() const;
};

// What `read` makes of the value of an option, which is named in what it throws.
template <class Read>
auto value_of(const std::string& option, Read&& read) {
    try {
        return std::forward<Read>(read)();
    } catch (const measure::InputError& error) {
        throw error.at(option);
    }
}

// The local calendar date. The only place that asks the clock.
measure::Date today();

}  // namespace ashtriage::cli
