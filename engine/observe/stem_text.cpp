#include "observe/stem_text.hpp"

#include <algorithm>
#include <cctype>
#include <optional>

#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "measure/units.hpp"

namespace ashtriage::observe {

namespace {

constexpr std::string_view blanks = " \t";

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

bool same_word(std::string_view written, std::string_view word) {
    return std::ranges::equal(
        written, word, [](unsigned char a, unsigned char b) { return std::tolower(a) == b; });
}

// The text without `word`, in capital or small letters, at its front or back, if it stands there.
std::optional<std::string_view> without(std::string_view text, std::string_view word) {
    if (same_word(text.substr(0, word.size()), word)) return trimmed(text.substr(word.size()));
    if (text.size() < word.size()) return std::nullopt;
    const std::size_t rest = text.size() - word.size();
    if (same_word(text.substr(rest), word)) return trimmed(text.substr(0, rest));
    return std::nullopt;
}

Stem parse_stem(std::string_view text) {
    Stem stem;
    if (const auto girth = without(text, "girth")) {
        stem.measured = StemMeasure::girth;
        text = *girth;
    } else if (const auto diameter = without(text, "dbh")) {
        text = *diameter;
    }
    stem.length = measure::parse_length(text, measure::units::inch);
    if (stem.length.ticks() <= 0) {
        throw measure::InputError("A stem of no size was entered", {},
                                  "Measure at 4.5 ft above the ground, e.g. \"14 in\" or "
                                  "\"girth 44 in\".");
    }
    return stem;
}

// Up to nine decimals of an inch hold every length there is; trailing zeros say nothing.
std::string inches(measure::Length length) {
    std::string text = length.text(measure::units::inch, 9);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
    return text + " in";
}

}  // namespace

std::vector<Stem> parse_stems(std::string_view text) {
    std::vector<Stem> stems;
    while (true) {
        const std::size_t end = text.find_first_of("+;");
        stems.push_back(parse_stem(trimmed(text.substr(0, end))));
        if (end == std::string_view::npos) return stems;
        text.remove_prefix(end + 1);
    }
}

std::string stems_text(const std::vector<Stem>& stems) {
    std::string text;
    for (const Stem& stem : stems) {
        if (!text.empty()) text += " + ";
        if (stem.measured == StemMeasure::girth) text += "girth ";
        text += inches(stem.length);
    }
    return text;
}

}  // namespace ashtriage::observe
