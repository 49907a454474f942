// What has to be known of the dates of several sites: that the place of one was not told, that
// another may lie by a shore. Each said once, with the sites it is about.
#pragma once

#include <string>
#include <vector>

namespace ashtriage::present {

class PlaceCautions {
 public:
    void add(const std::string& site, const std::vector<std::string>& cautions);

    // A paragraph for each; empty without any.
    std::string text() const;

 private:
    struct Caution {
        std::string words;
        std::vector<std::string> sites;
    };
    std::vector<Caution> cautions_;
};

}  // namespace ashtriage::present
