// Changes to text that mostly leave it well-formed, so that what lies behind the parser of YAML is
// reached too: a word becomes another word of the same text, a line is left out, written twice or
// moved. Every other change is libFuzzer's own, of bytes and words of the dictionary.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// libFuzzer's; it calls the custom mutator and offers its own.
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* bytes, std::size_t size, std::size_t most);

namespace {

using Random = std::minstd_rand;

std::size_t below(std::size_t limit, Random& random) {
    return random() % limit;
}

bool is_of_a_word(char sign) {
    return (sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9') || sign == '_' ||
           sign == '-' || sign == '.';
}

// The longest stretches of signs for which `belongs` is true.
template <class Belongs>
std::vector<std::string_view> stretches(std::string_view text, Belongs&& belongs) {
    std::vector<std::string_view> found;
    for (std::size_t start = 0; start < text.size();) {
        std::size_t end = start;
        while (end < text.size() && belongs(text[end])) ++end;
        if (end > start) found.push_back(text.substr(start, end - start));
        start = end + 1;
    }
    return found;
}

std::string with_a_word_changed(std::string_view text, Random& random) {
    const auto words = stretches(text, is_of_a_word);
    if (words.empty()) return std::string(text);
    const std::string_view from = words[below(words.size(), random)];
    std::string changed(text);
    changed.replace(static_cast<std::size_t>(from.data() - text.data()), from.size(),
                    words[below(words.size(), random)]);
    return changed;
}

std::string with_a_line_changed(std::string_view text, Random& random) {
    auto lines = stretches(text, [](char sign) { return sign != '\n'; });
    if (lines.empty()) return std::string(text);
    const std::size_t line = below(lines.size(), random);
    const auto at = lines.begin() + static_cast<std::ptrdiff_t>(line);
    switch (below(3, random)) {
        case 0:
            lines.erase(at);
            break;
        case 1:
            lines.insert(at, lines[below(lines.size(), random)]);
            break;
        default:
            std::swap(*at, lines[below(lines.size(), random)]);
    }
    std::string changed;
    for (const std::string_view kept : lines) changed.append(kept).push_back('\n');
    return changed;
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* bytes, std::size_t size,
                                               std::size_t most, unsigned int seed) {
    Random random(seed);
    const std::size_t way = below(4, random);
    if (way < 2) return LLVMFuzzerMutate(bytes, size, most);
    const std::string_view text(reinterpret_cast<const char*>(bytes), size);
    const std::string changed =
        way == 2 ? with_a_word_changed(text, random) : with_a_line_changed(text, random);
    const std::size_t kept = std::min(changed.size(), most);
    std::copy_n(changed.begin(), kept, bytes);
    return kept;
}
