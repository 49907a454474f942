#include "measure/nearest_name.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include "measure/letters.hpp"

namespace ashtriage::measure {
namespace {

bool same(char a, char b) {
    return lower(a) == lower(b);
}

// Optimal string alignment distance: insert, delete, change, swap two neighbours.
std::size_t slips(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::swap(before_last, last);
        std::swap(last, row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t changed = last[j - 1] + (same(a[i - 1], b[j - 1]) ? 0 : 1);
            row[j] = std::min({changed, last[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1])) {
                row[j] = std::min(row[j], before_last[j - 2] + 1);
            }
        }
    }
    return row[b.size()];
}

}  // namespace

std::optional<std::string_view> nearest_name(std::string_view name,
                                             std::span<const std::string_view> candidates) {
    std::optional<std::string_view> nearest;
    std::size_t fewest = 0;
    for (const std::string_view candidate : candidates) {
        const std::size_t allowed = std::max<std::size_t>(1, candidate.size() / 3);
        const std::size_t longer = std::max(name.size(), candidate.size());
        const std::size_t shorter = std::min(name.size(), candidate.size());
        if (longer - shorter > allowed) continue;
        const std::size_t count = slips(name, candidate);
        const bool nothing_shared = count >= longer;
        if (count > allowed || nothing_shared || (nearest && count >= fewest)) continue;
        nearest = candidate;
        fewest = count;
    }
    return nearest;
}

}  // namespace ashtriage::measure
