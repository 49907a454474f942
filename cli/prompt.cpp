#include "prompt.hpp"

#include <istream>
#include <ostream>

#include "measure/input_error.hpp"
#include "packs/words.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::cli {

Reply Prompt::ask(std::string_view question) {
    std::string shown = present::paragraph(question);
    shown.pop_back();
    out_ << shown << "\n> " << std::flush;
    std::string line;
    if (!std::getline(in_, line)) {
        out_ << '\n';
        return {Wish::stop, {}};
    }
    std::string text(packs::trimmed(line));
    if (!text.empty() && text.back() == '\r') text.pop_back();
    const std::string word = packs::normalised(text);
    if (text == "?") return {Wish::help, {}};
    if (word == "back") return {Wish::back, {}};
    if (word == "stop" || word == "quit") return {Wish::stop, {}};
    if (text == "-") return {Wish::answer, "could not see"};
    return {Wish::answer, text};
}

bool Prompt::fill(std::string_view question, bool may_be_empty,
                  const std::function<void(const std::string&)>& take) {
    while (true) {
        const Reply reply = ask(question);
        if (reply.wish == Wish::stop) return false;
        if (reply.wish != Wish::answer) continue;
        if (reply.text.empty()) {
            if (may_be_empty) return true;
            continue;
        }
        try {
            take(reply.text);
            return true;
        } catch (const measure::InputError& error) {
            say(error.what());
            if (!error.hint().empty()) say(error.hint());
        }
    }
}

std::optional<bool> Prompt::yes_or_no(std::string_view question) {
    while (true) {
        const Reply reply = ask(question);
        if (reply.wish == Wish::stop) return std::nullopt;
        const std::string word = packs::normalised(reply.text);
        if (word == "y" || word == "yes") return true;
        if (word == "n" || word == "no") return false;
        say("Please answer yes or no.");
    }
}

void Prompt::say(std::string_view text) {
    out_ << present::paragraph(text, "  ");
}

}  // namespace ashtriage::cli
