// What is wrong with a file that a person wrote: collected, so that all of it is shown at once.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::packs {

// Where in a file, counted from 1. Columns count bytes. Line 0: the file as a whole.
struct Place {
    std::size_t line = 0;
    std::size_t column = 0;

    friend bool operator==(const Place&, const Place&) = default;
};

struct Problem {
    std::string id;    // stable, kebab-case, e.g. "unknown-fact"; docs and tests name it
    std::string file;  // as the user named it
    Place place;
    std::string message;      // what was found and what was expected
    std::string hint;         // how to mend it; may be empty
    std::string source_line;  // filled in by Problems::add when the file's text is known
};

// A file with so many problems is not the file that its reader expects: reading it ends there.
inline constexpr std::size_t most_problems = 1000;

class Problems {
 public:
    // The text of a file, from which the source lines of its problems are shown.
    void add_file(const std::string& file, std::string_view text);

    // Throws BadFile with the last of `most_problems`.
    void add(Problem problem);
    bool empty() const { return problems_.empty(); }
    std::size_t size() const { return problems_.size(); }
    const std::vector<Problem>& list() const { return problems_; }

    // All problems, file by file in the order in which the files were added and within a file in
    // the order of its lines, each with its source line and a caret under the place; beyond `most`
    // only their number.
    std::string text(std::size_t most = 25) const;

    // Throws BadFile when anything was added.
    void throw_if_any() const;

 private:
    struct Source {
        std::size_t order = 0;
        std::string text;
        std::vector<std::size_t> line_starts;
    };

    std::vector<Problem> problems_;
    std::map<std::string, Source> sources_;
};

// The entry of `known` that `written` is most likely meant to be; empty when nothing is near. Upper
// and lower case, blanks, hyphens and underscores count as alike.
std::string nearest(std::string_view written, const std::vector<std::string>& known);

// "did you mean 'canopy_loss'?" or, when nothing is near and the choice is small, the whole choice:
// "it can be: none, light, heavy". May be empty.
std::string nearest_hint(std::string_view written, const std::vector<std::string>& known);

}  // namespace ashtriage::packs
