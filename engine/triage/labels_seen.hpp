// The labels of the trees that went by, to notice one that comes again. They are compared letter by
// letter; since they are kept in memory, only so many are, and a label that comes later is compared
// with these alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::triage {

class LabelsSeen {
 public:
    static constexpr std::size_t most_labels = 1'000'000;
    static constexpr std::size_t most_bytes = std::size_t{16} << 20U;  // of all labels together

    explicit LabelsSeen(std::size_t labels = most_labels, std::size_t bytes = most_bytes)
        : most_labels_(labels), most_bytes_(bytes) {}

    // False when the label was there before.
    bool add(std::string_view label);

    // How many labels are kept.
    std::size_t kept() const { return labels_.size(); }
    // Some label was not kept, so that its coming again would not have been noticed.
    bool some_not_kept() const { return full_; }

 private:
    struct Label {
        std::uint32_t hash = 0;
        std::uint32_t begin = 0;  // in text_
        std::uint32_t size = 0;
    };

    // Where the label stands in places_, or where it would.
    std::size_t place_of(std::string_view label, std::uint32_t hash) const;
    void make_room();

    std::size_t most_labels_;
    std::size_t most_bytes_;
    std::string text_;  // all labels, one behind the other
    std::vector<Label> labels_;
    std::vector<std::uint32_t> places_;  // 0: free, else the number of a label, from 1
    bool full_ = false;
};

}  // namespace ashtriage::triage
