#include "options.hpp"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <string_view>

namespace ashtriage::cli {

namespace {

// An environment variable, if it is set and not empty.
std::optional<std::string> environment(const char* name) {
    const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): single thread
    if (value == nullptr || *value == '\0') return std::nullopt;
    return std::string(value);
}

// $XDG_DATA_HOME, which counts only if it is an absolute path, else ~/.local/share.
std::filesystem::path data_folder() {
    if (const auto data = environment("XDG_DATA_HOME")) {
        std::filesystem::path folder(*data);
        if (folder.is_absolute()) return folder;
    }
    const auto home = environment("HOME");
    if (!home) {
        throw measure::InputError("There is no home folder to keep the book in", {},
                                  "Name the book with --book FILE.");
    }
    return std::filesystem::path(*home) / ".local" / "share";
}

}  // namespace

measure::Date today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return std::chrono::year{local.tm_year + 1900} /
           std::chrono::month{static_cast<unsigned>(local.tm_mon + 1)} /
           std::chrono::day{static_cast<unsigned>(local.tm_mday)};
}

measure::Date Options::date() const {
    if (as_of.empty()) return today();
    return value_of("--as-of", [&] { return measure::parse_date(as_of); });
}

Format Options::output_format() const {
    if (format == "csv") return Format::csv;
    return format == "json" ? Format::json : Format::text;
}

std::filesystem::path Options::book_path() const {
    if (book) return *book;
    if (const auto named = environment("ASHTRIAGE_BOOK")) return *named;
    return data_folder() / "ashtriage" / "trees.book";
}

}  // namespace ashtriage::cli
