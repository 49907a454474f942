#include "triage/labels_seen.hpp"

#include <functional>

namespace ashtriage::triage {

namespace {

std::uint32_t hash_of(std::string_view label) {
    return static_cast<std::uint32_t>(std::hash<std::string_view>{}(label));
}

}  // namespace

bool LabelsSeen::add(std::string_view label) {
    make_room();
    const std::uint32_t hash = hash_of(label);
    const std::size_t place = place_of(label, hash);
    if (places_[place] != 0) return false;
    if (labels_.size() == most_labels_ || text_.size() + label.size() > most_bytes_) {
        full_ = true;
        return true;
    }
    labels_.push_back(
        {hash, static_cast<std::uint32_t>(text_.size()), static_cast<std::uint32_t>(label.size())});
    text_ += label;
    places_[place] = static_cast<std::uint32_t>(labels_.size());
    return true;
}

std::size_t LabelsSeen::place_of(std::string_view label, std::uint32_t hash) const {
    const std::size_t last = places_.size() - 1;
    for (std::size_t place = hash & last;; place = (place + 1) & last) {
        if (places_[place] == 0) return place;
        const Label& known = labels_[places_[place] - 1];
        const std::string_view text = std::string_view(text_).substr(known.begin, known.size);
        if (known.hash == hash && text == label) return place;
    }
}

// Keeps at least half of the places free, so that a search is short.
void LabelsSeen::make_room() {
    constexpr std::size_t fewest = 1024;
    if (2 * (labels_.size() + 1) <= places_.size()) return;
    places_.assign(places_.empty() ? fewest : 2 * places_.size(), 0);
    const std::size_t last = places_.size() - 1;
    for (std::size_t i = 0; i < labels_.size(); ++i) {
        std::size_t place = labels_[i].hash & last;
        while (places_[place] != 0) place = (place + 1) & last;
        places_[place] = static_cast<std::uint32_t>(i + 1);
    }
}

}  // namespace ashtriage::triage
