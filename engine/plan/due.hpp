// Whether a tree is due for its treatment on a day, by when it was last treated, how long that
// lasts, and what its label and its window allow.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "plan/method_facts.hpp"
#include "season/window.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

// An application that stands in the record.
struct EarlierTreatment {
    measure::Date on;
    std::string active_ingredient;
    std::string method;  // empty: the record does not say so that it could be told
};

// What a walk-around says of earlier treatments, for trees without a record.
enum class SaidOfTreatment { nothing, never, this_season, earlier };

struct DueTree {
    std::string site;
    std::string label;
    std::string method;                     // by which it is to be treated; empty: not to be
    std::string why_not;                    // then: the reason
    std::vector<EarlierTreatment> earlier;  // in any order; those after the day do not count
    SaidOfTreatment said = SaidOfTreatment::nothing;
    std::optional<Wave> wave;
    std::optional<measure::Date> walked_on;  // the last walk-around; none: nobody looked yet
    std::optional<season::Location> location;
};

// The most urgent first.
enum class DueState {
    overdue,        // the season in which it was due went by, and this year's window has not
    missed,         // it is due, and this year's window is over
    due,            // this season
    never_treated,  // as the walk-around says
    not_recorded,   // when it was last treated is not in the record
    not_yet_due,
    too_soon,       // STOP: the label does not allow it yet
    not_looked_at,  // no walk-around
    not_to_be_treated
};

// "due", "too soon".
std::string_view words(DueState state);

struct Due {
    DueState state = DueState::not_to_be_treated;
    std::optional<EarlierTreatment> last;
    int interval_years = 0;             // of the last treatment; 0 without one
    bool interval_taken_short = false;  // the wave is not known, or the method of the last one
    std::optional<int> due_year;        // the season from which it is due
    // The first day on which the label allows it, where that is still to come.
    std::optional<measure::Date> allowed_from;
    bool allowed_by_record = true;               // false: by what the walk-around says
    std::optional<season::Window> window;        // the next in which it can be treated
    std::optional<measure::Date> first_day;      // of it, on which it is due and allowed
    std::optional<measure::Date> last_day;       // likewise
    std::optional<measure::Date> window_passed;  // this year's closed, or the label's, on this day
    bool outside_label = false;  // no day of the windows looked at is within the label's season
    bool has_dates = true;       // false: none are worked out for the method
    bool look_again = false;     // not walked round this year
    bool no_card = false;        // so what the label allows is not known
    bool example_card = false;
};

// What there is to know of methods, dates, labels and the year. What it points to must outlive it.
struct DueRules {
    const std::vector<MethodFacts>* methods = nullptr;
    const season::Seasons* seasons = nullptr;
    const std::vector<treat::LabelCard>* cards = nullptr;
    const season::KnownYear* year = nullptr;
};

// Throws measure::InputError for a place that the seasons are not meant for.
Due due_on(const DueTree& tree, const DueRules& rules, const measure::Date& as_of);

struct StillInTime {
    std::string method;
    season::Window window;
    measure::Date first_day;
    measure::Date last_day;
};

// The first of `methods` whose window of this year is not over and whose label allows it in what is
// left of it; nothing when there is none.
std::optional<StillInTime> still_in_time(const std::vector<std::string>& methods,
                                         const DueTree& tree, const DueRules& rules,
                                         const measure::Date& as_of);

}  // namespace ashtriage::plan
