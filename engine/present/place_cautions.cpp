#include "present/place_cautions.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "packs/words.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {

namespace {

// Of many sites some are named, so that what is said of them is still read.
std::string named(const std::vector<std::string>& sites) {
    constexpr std::size_t most_named = 3;
    if (sites.size() <= most_named) return packs::joined(sites, "and");
    std::vector<std::string> some(sites.begin(), sites.begin() + most_named);
    some.push_back(fmt::format("{} more sites", sites.size() - most_named));
    return packs::joined(some, "and");
}

}  // namespace

void PlaceCautions::add(const std::string& site, const std::vector<std::string>& cautions) {
    for (const std::string& words : cautions) {
        auto known = std::ranges::find(cautions_, words, &Caution::words);
        if (known == cautions_.end()) known = cautions_.insert(known, {words, {}});
        if (std::ranges::find(known->sites, site) == known->sites.end()) {
            known->sites.push_back(site);
        }
    }
}

std::string PlaceCautions::text() const {
    std::string text;
    for (const Caution& caution : cautions_) {
        text += paragraph(fmt::format("{}: {}", named(caution.sites), caution.words));
    }
    return text;
}

}  // namespace ashtriage::present
