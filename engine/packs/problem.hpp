// What is wrong with a file that a person wrote: collected, so that all of it is shown at once.
#pragma once

#include <cstddef>
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
    std::string id;       // stable, kebab-case, e.g. "unknown-fact"; docs and tests name it
    std::string file;     // as the user named it
    Place place;
    std::string message;  // what was found and what was expected
    std::string hint;     // how to mend it; may be empty
    std::string source_line;
};

class Problems {
   public:
    void add(Problem problem);
    bool empty() const { return problems_.empty(); }
    std::size_t size() const { return problems_.size(); }
    const std::vector<Problem>& list() const { return problems_; }

    // All problems in the order of the file, each with its source line and a caret under the place;
    // beyond `most` only their number.
    std::string text(std::size_t most = 25) const;

    // Throws BadFile when anything was added.
    void throw_if_any() const;

   private:
    std::vector<Problem> problems_;
};

// The entry of `known` that `written` is most likely meant to be; empty when nothing is near.
std::string nearest(std::string_view written, const std::vector<std::string>& known);

}  // namespace ashtriage::packs
