#include "packs/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "measure/nearest_name.hpp"
#include "packs/bad_file.hpp"
#include "packs/utf8.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

// Longer source lines are not shown: a caret under a wrapped line points nowhere.
constexpr std::size_t longest_line_shown = 160;

// Control characters in a file or its name must not reach the terminal.
std::string printable(std::string_view text) {
    std::string result(text);
    std::replace_if(
        result.begin(), result.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }, ' ');
    return result;
}

bool starts_character(char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

// Blanks up to the column, one for each character before it.
std::string blanks_before(std::string_view line, std::size_t column) {
    const std::string_view before = line.substr(0, column - 1);
    return std::string(
        static_cast<std::size_t>(std::count_if(before.begin(), before.end(), starts_character)),
        ' ');
}

std::string place_text(const Problem& problem) {
    if (problem.place.line == 0) return problem.file;
    if (problem.place.column == 0) return fmt::format("{}:{}", problem.file, problem.place.line);
    return fmt::format("{}:{}:{}", problem.file, problem.place.line, problem.place.column);
}

std::string one_problem(const Problem& problem) {
    std::string result = fmt::format("{}: {} [{}]\n", printable(place_text(problem)),
                                     printable(problem.message), problem.id);
    const std::string line = printable(problem.source_line);
    if (!line.empty() && problem.place.column >= 1 && problem.place.column <= line.size() + 1) {
        result += fmt::format("    {}\n    {}^\n", line, blanks_before(line, problem.place.column));
    }
    if (!problem.hint.empty()) result += fmt::format("    {}\n", printable(problem.hint));
    return result;
}

// Far longer than any name; keeps the comparison of names short.
constexpr std::size_t longest_compared = 64;

}  // namespace

void Problems::add_file(const std::string& file, std::string_view text) {
    if (sources_.count(file) != 0) return;
    Source source;
    source.order = sources_.size();
    source.text = text;
    source.line_starts.push_back(0);
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') source.line_starts.push_back(i + 1);
    }
    sources_.emplace(file, std::move(source));
}

void Problems::add(Problem problem) {
    const auto source = sources_.find(problem.file);
    const std::size_t line = problem.place.line;
    if (problem.source_line.empty() && source != sources_.end() && line >= 1 &&
        line <= source->second.line_starts.size()) {
        const std::string& text = source->second.text;
        const std::size_t start = source->second.line_starts[line - 1];
        const std::size_t end = std::min(text.find('\n', start), text.size());
        std::string shown = text.substr(start, std::min(end - start, longest_line_shown + 1));
        if (shown.size() <= longest_line_shown && !first_invalid_utf8(shown)) {
            problem.source_line = std::move(shown);
            if (problem.source_line.ends_with('\r')) problem.source_line.pop_back();
        }
    }
    problems_.push_back(std::move(problem));
    if (problems_.size() >= most_problems) throw_if_any();
}

std::string Problems::text(std::size_t most) const {
    std::vector<const Problem*> in_order;
    in_order.reserve(problems_.size());
    for (const Problem& problem : problems_) in_order.push_back(&problem);
    const auto key = [this](const Problem* problem) {
        const auto source = sources_.find(problem->file);
        const std::size_t order = source == sources_.end() ? 0 : source->second.order;
        return std::tuple(order, std::string_view(problem->file), problem->place.line,
                          problem->place.column);
    };
    std::stable_sort(in_order.begin(), in_order.end(),
                     [&](const Problem* a, const Problem* b) { return key(a) < key(b); });

    std::string result;
    const std::size_t shown = std::min(most, in_order.size());
    for (std::size_t i = 0; i < shown; ++i) result += one_problem(*in_order[i]);
    if (shown < in_order.size()) {
        const std::size_t left = in_order.size() - shown;
        result += fmt::format("... and {} more problem{}{}\n", left, left == 1 ? "" : "s",
                              problems_.size() >= most_problems ? "; the rest was not read" : "");
    }
    if (!result.empty()) result.pop_back();  // the last line end
    return result;
}

void Problems::throw_if_any() const {
    if (!problems_.empty()) throw BadFile(*this);
}

std::string nearest(std::string_view written, const std::vector<std::string>& known) {
    if (written.empty() || written.size() > longest_compared) return {};
    std::vector<std::string> names;
    names.reserve(known.size());
    for (const std::string& name : known) names.push_back(normalised(name));
    const std::vector<std::string_view> candidates(names.begin(), names.end());
    const auto found = measure::nearest_name(normalised(written), candidates);
    if (!found) return {};
    const auto place = std::find(candidates.begin(), candidates.end(), *found);
    return known[static_cast<std::size_t>(place - candidates.begin())];
}

std::string nearest_hint(std::string_view written, const std::vector<std::string>& known) {
    const std::string name = nearest(written, known);
    if (!name.empty()) return fmt::format("did you mean '{}'?", name);
    constexpr std::size_t small_choice = 12;
    if (known.empty() || known.size() > small_choice) return {};
    return fmt::format("it can be: {}", fmt::join(known, ", "));
}

}  // namespace ashtriage::packs
