#include "plan/crew_day.hpp"

#include <algorithm>
#include <tuple>

namespace ashtriage::plan {

namespace {

// Whether the `number`th day of a crew, counted from 1, is one that it keeps free.
bool is_reserve_day(int number, int percent) {
    return number * percent / 100 > (number - 1) * percent / 100;
}

}  // namespace

std::vector<CrewDay> crew_days(const Crews& crews, const measure::Date& from, Reserve reserve,
                               const std::vector<LostDay>& lost) {
    const RainReserve& rain = crews.settings.rain_reserve;
    std::vector<CrewDay> days;
    for (std::size_t which = 0; which < crews.crews.size(); ++which) {
        const Crew& crew = crews.crews[which];
        int number = 0;
        for (measure::Date day = crew.first_day; day <= crew.last_day;
             day = measure::add_days(day, 1)) {
            if (!crew.works_on(day)) continue;
            ++number;
            const bool is_lost = std::ranges::any_of(
                lost, [&](const LostDay& each) { return each.takes(which, day); });
            if (day < from || is_lost) continue;
            int kept = 0;
            if (reserve == Reserve::kept && rain.of == ReserveOf::hours) {
                kept = (crew.minutes_per_day * rain.percent + 99) / 100;
            } else if (reserve == Reserve::kept && is_reserve_day(number, rain.percent)) {
                kept = crew.minutes_per_day;
            }
            days.push_back({which, day, crew.minutes_per_day - kept, kept});
        }
    }
    std::ranges::sort(days, [](const CrewDay& a, const CrewDay& b) {
        return std::tie(a.day, a.crew) < std::tie(b.day, b.crew);
    });
    return days;
}

}  // namespace ashtriage::plan
