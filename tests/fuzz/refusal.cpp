#include "refusal.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "packs/bad_file.hpp"
#include "packs/utf8.hpp"

namespace ashtriage::fuzz {

namespace {

// 25 problems, each with a message, a hint and a source line cut to the width of a screen.
constexpr std::size_t longest_refusal = std::size_t{64} << 10U;

bool is_control(char sign) {
    const auto byte = static_cast<unsigned char>(sign);
    return (byte < 0x20 && sign != '\n') || byte == 0x7F;
}

void check_problems(const packs::BadFile& error) {
    const std::string_view what = error.what();
    if (std::any_of(what.begin(), what.end(), is_control)) {
        throw std::logic_error("a bad file is shown with a control character");
    }
    if (error.problems().empty()) throw std::logic_error("a bad file without a problem");
    for (const packs::Problem& problem : error.problems().list()) {
        if (problem.id.empty() || problem.file.empty() || problem.message.empty()) {
            throw std::logic_error("a problem without id, file or message");
        }
    }
}

}  // namespace

void check_refusal(const measure::InputError& error, std::string_view bytes) {
    const std::string shown = error.where() + error.what() + error.hint();
    if (*error.what() == '\0') throw std::logic_error("a refusal says nothing");
    if (shown.size() > longest_refusal) throw std::logic_error("a refusal without end");
    if (packs::first_invalid_utf8(shown) && !packs::first_invalid_utf8(bytes)) {
        throw std::logic_error("a refusal cuts a character in two");
    }
    const auto* bad_file = dynamic_cast<const packs::BadFile*>(&error);
    if (bad_file != nullptr) check_problems(*bad_file);
}

}  // namespace ashtriage::fuzz
