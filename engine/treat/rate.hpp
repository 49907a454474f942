// How much of something a label asks for, and what it is counted by.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/quantity.hpp"
#include "treat/amount.hpp"

namespace ashtriage::treat {

// Keys into the sources of the rule set; a card of one's own may say "label" instead.
using SourceKeys = std::vector<std::string>;

// What an amount is counted by. An amount by girth is never taken for one by DBH: they differ by a
// factor of 3.14.
enum class Per {
    inch_dbh,
    cm_dbh,
    inch_girth,
    cm_girth,
    tree,
    treated_area,  // of ground, given with the task
    bark_area,     // of the trunk, from the root flare up to the height that is sprayed
    finished_mix,  // product, surfactant and carrier together
};

struct Basis {
    Per per = Per::inch_dbh;
    // The size that the amount is for, in the ticks of its quantity: one inch or centimetre, 1,000
    // square feet, one gallon of finished mix; 1 for a tree.
    std::int64_t ticks = 1;
    std::string words = "inch DBH";  // "inch DBH", "1000 sq ft of treated ground"
};

// The basis of each inch or centimetre of DBH or girth, or of a tree; the others have a size of
// their own. Throws InputError for those.
Basis basis_of(Per per);
// The basis of an area or a volume as the label words it: "1000 sq ft", "1 gal". Throws InputError
// for text that is no such size, for zero, and for a `per` that has no size of its own.
Basis basis_of(Per per, std::string_view each);

// Undiluted product. Where the label gives one figure only, all three are it.
struct Rate {
    StatedAmount low;
    StatedAmount usual;
    StatedAmount high;  // the most the label allows
};

// A line of a label's table by DBH class.
struct RateClass {
    std::optional<measure::Length> to;  // belongs to the class; none: all larger trees
    Rate rate;
};

struct Rates {
    Basis per;
    std::vector<RateClass> classes;  // by rising DBH; one without an end where size plays no part
    SourceKeys sources;

    // The line for a tree of this DBH; null when the table ends below it.
    const Rate* for_dbh(measure::Length dbh) const;
};

// What the product is put into: either the finished mix is stated or the carrier.
struct Mix {
    enum class Stated { finished, carrier };

    std::string carrier;  // "water"
    Stated stated = Stated::finished;
    StatedVolume volume;
    Basis per;
    SourceKeys sources;
};

struct Surfactant {
    struct Amount {
        StatedVolume amount;
        Basis per;
    };

    std::string what;                              // "organosilicone surfactant"
    std::variant<measure::Percent, Amount> share;  // the percentage is of the finished volume
    SourceKeys sources;
};

// "inch DBH", "tree" ...
std::string_view words(Per per);

}  // namespace ashtriage::treat
