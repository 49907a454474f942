// What is wrong with one record, collected so that all of it is shown at once.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "observe/records.hpp"

namespace ashtriage::observe {

class Complaints {
 public:
    void add(std::string what, std::string_view hint = {});

    // Throws measure::InputError. `record` names the record, such as "The tree 'A-12'".
    void throw_if_any(const std::string& record) const;

 private:
    std::vector<std::string> whats_;
    std::vector<std::string> hints_;
};

bool is_blank(std::string_view text);

// A single line that may be missing: no spaces at its ends, no control characters. `called` is what
// it is, for the message: "its soil".
void check_line(std::string_view text, const std::string& called, Complaints& complaints);
// The same for one that is needed.
void check_needed_line(std::string_view text, const std::string& called, Complaints& complaints);
void check_position(const std::optional<Position>& position, Complaints& complaints);

}  // namespace ashtriage::observe
