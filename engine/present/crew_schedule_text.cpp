#include "present/crew_schedule_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "present/text_layout.hpp"
#include "treat/dose.hpp"
#include "treat/local_time.hpp"

namespace ashtriage::present {

using plan::LeftOutBecause;

namespace {

std::string tree_words(const plan::WorkDue& work, std::size_t job) {
    return fmt::format("tree {} at {}", work.jobs[job].tree, work.sites[work.jobs[job].site].name);
}

std::string duration(int minutes) {
    return fmt::format("{} h {:02} min", minutes / 60, minutes % 60);
}

template <class Shortfall>
std::string any_plan_words(const Shortfall& shortfall) {
    return fmt::format("Any plan leaves out at least {} of these {} trees.",
                       shortfall.at_least_left_out, shortfall.jobs.size());
}

std::string hours_words(const plan::Visit& visit) {
    return fmt::format("{} to {}", treat::text(treat::LocalTime{visit.arrives}),
                       treat::text(treat::LocalTime{visit.leaves}));
}

std::string place_words(const plan::CrewOnDay& place, const plan::Crews& crews) {
    return fmt::format("{}, {}", measure::long_text(place.day), crews.crews[place.crew].name);
}

}  // namespace

std::string_view label_comes_first() {
    return "The label in force, the leaves on the tree and the weather of the day come before any "
           "date here.";
}

std::string method_words(std::string method) {
    std::ranges::replace(method, '_', ' ');
    return method;
}

std::string visit_words(const plan::Visit& visit, const plan::WorkDue& work) {
    std::map<std::string, std::string> by_method;
    for (const std::size_t job : visit.jobs) {
        std::string& labels = by_method[work.jobs[job].method];
        labels += (labels.empty() ? "" : ", ") + work.jobs[job].tree;
    }
    std::string trees;
    for (const auto& [method, labels] : by_method) {
        trees += fmt::format("{}{}: {}", trees.empty() ? "" : "; ", method_words(method), labels);
    }
    return trees;
}

std::string day_sheet(const plan::PlannedDay& day, const plan::WorkDue& work,
                      const plan::Crews& crews) {
    const plan::Crew& crew = crews.crews[day.crew];
    // Beside a longer name there is no room for the trees.
    constexpr std::size_t longest_name_of_a_column = 30;
    const bool in_one_column = std::ranges::any_of(day.visits, [&](const plan::Visit& visit) {
        return width_of(work.sites[visit.site].name) > longest_name_of_a_column;
    });
    std::string text = paragraph(fmt::format("{}, {}", crew.name, measure::long_text(day.day)));
    std::vector<std::string> headings{"from", "to", "drive"};
    if (in_one_column) {
        headings.emplace_back("site and trees");
    } else {
        headings.insert(headings.end(), {"site", "trees"});
    }
    TextTable table(headings);
    for (const plan::Visit& visit : day.visits) {
        const std::string& site = work.sites[visit.site].name;
        std::vector<std::string> row{treat::text(treat::LocalTime{visit.arrives}),
                                     treat::text(treat::LocalTime{visit.leaves}),
                                     fmt::format("{} min", visit.travel)};
        if (in_one_column) {
            row.push_back(site + ": " + visit_words(visit, work));
        } else {
            row.insert(row.end(), {site, visit_words(visit, work)});
        }
        table.add(std::move(row));
    }
    text += table.text();
    return text + paragraph(fmt::format(
                      "Back at {}. {} of {} planned.",
                      treat::text(treat::LocalTime{crew.starts_at.minutes + day.minutes}),
                      duration(day.minutes), duration(day.may_use)));
}

std::string day_sheets(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                       const plan::Crews& crews, std::optional<std::size_t> crew) {
    std::string text;
    for (std::size_t which = 0; which < crews.crews.size(); ++which) {
        if (crew && *crew != which) continue;
        for (const plan::PlannedDay& day : schedule.days) {
            if (day.crew == which) text += day_sheet(day, work, crews) + "\n";
        }
    }
    if (text.empty()) return "No visit is planned.\n";
    if (crews.settings.example) {
        text += paragraph("The minutes and ways are reckoned with example figures, nobody's own.");
    }
    return text + paragraph(label_comes_first());
}

std::string words(const plan::LeftOut& left, const plan::WorkDue& work) {
    const plan::Job& job = work.jobs[left.job];
    const std::string window =
        fmt::format("{} to {}", measure::long_text(job.release), measure::long_text(job.deadline));
    switch (left.because) {
        case LeftOutBecause::site_without_place:
            return "the site has no place on record";
        case LeftOutBecause::window_over:
            return fmt::format("its window, {}, is over", window);
        case LeftOutBecause::no_crew_day:
            return fmt::format("no crew works within its window, {}", window);
        case LeftOutBecause::no_certified_crew:
            return fmt::format("no crew with a certified applicator works within its window, {}",
                               window);
        case LeftOutBecause::longer_than_any_day:
            // Nobody drives so far: a place is wrong.
            if (left.minutes_needed > 24 * 60) {
                return "the site and the crews that could treat it lie too far apart for a day: "
                       "look at the places of both; west of Greenwich a longitude is negative";
            }
            return fmt::format(
                "with the way there and back and setting up it takes {}; the day that "
                "comes nearest to holding it has {}",
                duration(left.minutes_needed), duration(left.minutes_available));
        case LeftOutBecause::acre_account:
            return fmt::format("the site may take no more {} this year with what else is planned",
                               job.active_ingredient);
        case LeftOutBecause::no_room:
            return fmt::format("no day within its window, {}, has room: at most {} are left on one",
                               window, duration(left.minutes_available));
    }
    return {};
}

std::string words(const plan::Shortfall& shortfall) {
    const std::string_view whose =
        shortfall.certified ? "the crews with one" : "all crews together";
    const std::string against =
        shortfall.needed > shortfall.available
            ? fmt::format("take at least {} of work, set-up and travel; {} have {}",
                          duration(shortfall.needed), whose, duration(shortfall.available))
            : fmt::format("are {}; with set-up and travel the days of {} have room for {} at most",
                          shortfall.jobs.size(), whose, shortfall.room_for);
    return fmt::format("From {} to {} the trees {}that are due only then {}. {}",
                       measure::long_text(shortfall.from), measure::long_text(shortfall.to),
                       shortfall.certified ? "for certified applicators " : "", against,
                       any_plan_words(shortfall));
}

std::string words(const plan::AcreShortfall& shortfall, const plan::WorkDue& work) {
    const plan::AcreRoom& room = work.rooms[shortfall.room];
    return fmt::format(
        "{} may take {} more of {} in {}; the trees that are due there only then "
        "take {}. {}",
        room.site, treat::active_text(shortfall.left), room.active_ingredient, room.year,
        treat::active_text(shortfall.needed), any_plan_words(shortfall));
}

std::string words(const plan::FreeForRain& free) {
    if (free.would_hold == 0) return {};
    return fmt::format(
        "{} of all crews are kept free for rain. As far as it does not rain, {} of the trees that "
        "are left out would fit there.",
        duration(free.minutes), free.would_hold);
}

std::vector<std::string> proofs_of(const plan::CrewSchedule& schedule, const plan::WorkDue& work) {
    std::vector<std::string> proofs;
    for (const plan::Shortfall& each : schedule.shortfalls) proofs.push_back(words(each));
    for (const plan::AcreShortfall& each : schedule.acre_shortfalls) {
        proofs.push_back(words(each, work));
    }
    return proofs;
}

std::optional<std::size_t> proof_about(const plan::LeftOut& left,
                                       const plan::CrewSchedule& schedule) {
    if (left.acre_shortfall) return schedule.shortfalls.size() + *left.acre_shortfall;
    return left.shortfall;
}

std::string left_out_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work) {
    std::string text;
    for (const plan::LeftOut& left : schedule.left_out) {
        const auto proof = proof_about(left, schedule);
        text += paragraph(
            fmt::format("{} (priority {}, {}): {}{}", tree_words(work, left.job),
                        work.jobs[left.job].priority, method_words(work.jobs[left.job].method),
                        words(left, work), proof ? fmt::format(" (proof {})", *proof + 1) : ""),
            "  - ");
    }
    if (text.empty()) return text;
    text = fmt::format("Left out: {}\n", schedule.left_out.size()) + text;
    int number = 0;
    for (const std::string& proof : proofs_of(schedule, work)) {
        text += paragraph(proof, fmt::format("Proof {}: ", ++number));
    }
    const std::string free = words(schedule.free_for_rain);
    if (!free.empty()) text += paragraph(free);
    return text;
}

std::string after_best_words(const plan::CrewSchedule& schedule, const plan::WorkDue& work) {
    std::size_t planned = 0;
    std::size_t after = 0;
    for (const plan::PlannedDay& day : schedule.days) {
        for (const plan::Visit& visit : day.visits) {
            planned += visit.jobs.size();
            after +=
                static_cast<std::size_t>(std::ranges::count_if(visit.jobs, [&](std::size_t job) {
                    return work.jobs[job].is_after_best(day.day);
                }));
        }
    }
    if (after == 0) return {};
    return fmt::format("{} of {} trees {} planned after the better part of {} window.", after,
                       planned, after == 1 ? "is" : "are", after == 1 ? "its" : "their");
}

std::string standing_words(const plan::CrewSchedule& schedule) {
    switch (schedule.standing) {
        case plan::ScheduleStanding::best:
            return "No plan leaves out less, does more in the better part of the windows or takes "
                   "fewer minutes: all were gone through.";
        case plan::ScheduleStanding::all_planned:
            return "Every tree that can be planned is planned. Another plan might take fewer "
                   "minutes.";
        case plan::ScheduleStanding::fewest_left_out:
            return "No plan leaves out fewer trees: that is proved. Another plan might leave out "
                   "less important ones, or take fewer minutes.";
        case plan::ScheduleStanding::some_left_out:
            return "Some trees found no room. Another plan might leave out fewer than this one, "
                   "except where a proof says otherwise.";
    }
    return {};
}

std::string season_overview(const plan::CrewSchedule& schedule, const plan::Crews& crews) {
    if (schedule.days.empty()) return {};
    const auto monday = [](const measure::Date& day) {
        const std::chrono::weekday weekday{std::chrono::sys_days(day)};
        return measure::add_days(day, 1 - static_cast<int>(weekday.iso_encoding()));
    };
    const measure::Date first = monday(schedule.days.front().day);
    const int weeks = measure::days_between(first, schedule.days.back().day) / 7 + 1;
    // The names get what the weeks leave of the line.
    const std::size_t room = page_width - 2 - static_cast<std::size_t>(std::min(weeks, 54));
    std::string text = fmt::format(
        "Weeks from Monday {}: 0 to 9 tenths of the planned days full, "
        "* full\n",
        measure::text(first));
    std::size_t widest = 0;
    for (const plan::Crew& crew : crews.crews) {
        widest = std::max(widest, std::min(room, width_of(crew.name)));
    }
    for (std::size_t which = 0; which < crews.crews.size(); ++which) {
        std::vector<int> used(static_cast<std::size_t>(weeks), 0);
        std::vector<int> may_use(static_cast<std::size_t>(weeks), 0);
        for (const plan::PlannedDay& day : schedule.days) {
            if (day.crew != which) continue;
            const auto week = static_cast<std::size_t>(measure::days_between(first, day.day) / 7);
            used[week] += day.minutes;
            may_use[week] += day.may_use;
        }
        std::string line;
        for (std::size_t week = 0; week < used.size(); ++week) {
            if (may_use[week] == 0) {
                line += '.';
            } else if (used[week] >= may_use[week]) {
                line += '*';
            } else {
                line += static_cast<char>('0' + used[week] * 10 / may_use[week]);
            }
        }
        std::string name = crews.crews[which].name;
        if (width_of(name) > room) name = fmt::format("crew {}", which + 1);
        const std::size_t fill = widest > width_of(name) ? widest - width_of(name) : 0;
        text += fmt::format("{}{:{}}  {}\n", name, "", fill, line);
    }
    return text;
}

std::string moves_text(const plan::Replanned& replanned, const plan::WorkDue& work,
                       const plan::Crews& crews) {
    std::string text;
    for (const plan::Move& move : replanned.moved) {
        text += paragraph(fmt::format("{}: {}{}", tree_words(work, move.job),
                                      move.from ? "from " + place_words(*move.from, crews) + " to "
                                                : "left out before, now ",
                                      place_words(move.to, crews)),
                          "  - ");
    }
    if (text.empty()) text = "Nothing was moved.\n";
    if (!replanned.changed_hours.empty()) text += "Same day and crew, other hours:\n";
    for (const plan::ChangedHours& each : replanned.changed_hours) {
        text += paragraph(fmt::format("{}, {}: {}, before {}", work.sites[each.now.site].name,
                                      place_words(each.on, crews), hours_words(each.now),
                                      hours_words(each.before)),
                          "  - ");
    }
    if (replanned.lost_place.empty()) return text;
    text += "No longer planned:\n";
    for (const plan::LeftOut& left : replanned.lost_place) {
        text +=
            paragraph(fmt::format("{}: {}", tree_words(work, left.job), words(left, work)), "  - ");
    }
    return text;
}

}  // namespace ashtriage::present
