// What there is to say of a method of treatment beside the rules: how often it is used, with how
// much, with or without a wound, and what has been found for stems of a size.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.hpp"
#include "reason/condition.hpp"

namespace ashtriage::plan {

// What a table of fit can give, the worst first.
namespace fit {
inline constexpr std::string_view excluded = "excluded";
inline constexpr std::string_view doubtful = "doubtful";
inline constexpr std::string_view fair = "fair";
inline constexpr std::string_view good = "good";
}  // namespace fit

// What a table of readiness can give.
namespace ready {
inline constexpr std::string_view wait = "wait";
inline constexpr std::string_view go_on = "go_on";
}  // namespace ready

// Something said, and the keys of the sources that say so.
struct Said {
    std::string says;
    std::vector<std::string> sources;
};

// Where the wave of borers that kills the ash of a place has got to.
enum class Wave { coming, here, past };

struct Interval {
    struct ByWave {
        int coming_years = 1;
        int here_years = 1;
        int past_years = 1;
        std::vector<std::string> sources;
    };

    int from_years = 1;
    int to_years = 1;
    Said words;
    std::optional<ByWave> by_wave;  // where the interval is not always the same

    // The shortest when it is not known where the wave has got to.
    int years(const std::optional<Wave>& wave) const;
};

// Active ingredient of one application for each inch of stem diameter.
struct Rate {
    std::optional<measure::Length> up_to;  // stems up to and with this size; none: all larger ones
    measure::Mass from;
    measure::Mass to;
    bool from_memory = false;  // no source of it was read, only remembered
    std::vector<std::string> sources;
};

struct Evidence {
    std::optional<measure::Length> up_to;  // as above
    Said words;
};

struct MethodFacts {
    std::string method;  // as the table of methods and the seasons name it
    std::string title;
    std::string active_ingredient;
    reason::TableIndex fit = 0;    // how well it fits a tree
    reason::TableIndex ready = 0;  // whether the day allows it
    Interval interval;
    bool wounds = false;
    Said wound;
    std::vector<Rate> rates;         // by rising size; empty: by the label alone
    std::vector<Evidence> evidence;  // by rising size
    std::optional<Said> dates;       // in words, of a method for which no dates are worked out
};

}  // namespace ashtriage::plan
