// Asking at the terminal: one question, one line of answer.
#pragma once

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

namespace ashtriage::cli {

// What a person may type in place of an answer.
enum class Wish { answer, help, back, stop };

struct Reply {
    Wish wish = Wish::answer;
    std::string text;  // of an answer; "could not see" for "-"
};

class Prompt {
 public:
    Prompt(std::istream& in, std::ostream& out) : in_(in), out_(out) {}

    // Shows the question and waits for a line. The end of the input counts as "stop".
    Reply ask(std::string_view question);

    // Asks until `take` accepts the answer; what `take` throws as measure::InputError is shown and
    // the question put again. An empty answer is taken as it is when `may_be_empty`. False: the
    // person wants to stop.
    bool fill(std::string_view question, bool may_be_empty,
              const std::function<void(const std::string&)>& take);

    // "yes" or "no"; nothing when the person wants to stop.
    std::optional<bool> yes_or_no(std::string_view question);

    void say(std::string_view text);

 private:
    std::istream& in_;
    std::ostream& out_;
};

}  // namespace ashtriage::cli
