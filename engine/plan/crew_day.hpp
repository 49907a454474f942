// The days on which crews work, and how much of each may be planned.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "measure/date.hpp"
#include "plan/crew.hpp"

namespace ashtriage::plan {

// A day that is lost to rain, for one crew or for all.
struct LostDay {
    measure::Date day{};
    std::optional<std::size_t> crew;  // index; none: all crews

    bool takes(std::size_t which, const measure::Date& date) const {
        return date == day && (!crew || *crew == which);
    }
};

struct CrewDay {
    std::size_t crew = 0;  // index into the crews
    measure::Date day{};
    int minutes = 0;   // that may be planned
    int reserved = 0;  // kept free for rain
};

// Whether the rain reserve is kept free, or used up because it has rained.
enum class Reserve { kept, used };

// Every day from `from` on that a crew works, by date and then by crew, without the lost ones.
//
// Of the hours, every day keeps its share, rounded up to the minute. Of the days, a crew keeps free
// as many of its days as are a whole share of them, spread evenly from its first day on: with 15
// percent the 7th, the 14th, the 20th.
std::vector<CrewDay> crew_days(const Crews& crews, const measure::Date& from, Reserve reserve,
                               const std::vector<LostDay>& lost = {});

}  // namespace ashtriage::plan
