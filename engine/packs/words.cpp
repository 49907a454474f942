#include "packs/words.hpp"

#include <algorithm>
#include <cstddef>

namespace ashtriage::packs {

std::string plain_name(std::string_view name) {
    if (name == "dbh") return "DBH";
    std::string result(name);
    std::replace(result.begin(), result.end(), '_', ' ');
    return result;
}

std::string normalised(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == '_' || c == '-') {
            if (!result.empty() && result.back() != ' ') result += ' ';
        } else {
            result += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    if (!result.empty() && result.back() == ' ') result.pop_back();
    return result;
}

std::string_view trimmed(std::string_view text) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

std::string joined(const std::vector<std::string>& words, std::string_view last) {
    std::string result;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) {
            if (i + 1 == words.size()) {
                result += ' ';
                result += last;
                result += ' ';
            } else {
                result += ", ";
            }
        }
        result += words[i];
    }
    return result;
}

}  // namespace ashtriage::packs
