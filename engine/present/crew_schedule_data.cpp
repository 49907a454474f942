#include "present/crew_schedule_data.hpp"

#include <fmt/format.h>

#include "present/crew_schedule_text.hpp"
#include "present/csv_text.hpp"
#include "treat/local_time.hpp"

namespace ashtriage::present {

namespace {

// Calls `visit_job(day, visit, job)` for every planned job, in the order of the plan.
template <class VisitJob>
void for_each_planned(const plan::CrewSchedule& schedule, VisitJob visit_job) {
    for (const plan::PlannedDay& day : schedule.days) {
        for (const plan::Visit& visit : day.visits) {
            for (const std::size_t job : visit.jobs) visit_job(day, visit, job);
        }
    }
}

Json tree_json(const plan::WorkDue& work, std::size_t index) {
    const plan::Job& job = work.jobs[index];
    return {{"site", work.sites[job.site].name}, {"tree", job.tree}, {"method", job.method}};
}

Json on_day(const plan::CrewOnDay& place, const plan::Crews& crews) {
    return {{"date", measure::text(place.day)}, {"crew", crews.crews[place.crew].name}};
}

Json moves_json(const plan::Replanned& replanned, const plan::WorkDue& work,
                const plan::Crews& crews) {
    Json moved = Json::array();
    for (const plan::Move& move : replanned.moved) {
        Json each = tree_json(work, move.job);
        each["from"] = move.from ? on_day(*move.from, crews) : Json();
        each["to"] = on_day(move.to, crews);
        moved.push_back(std::move(each));
    }
    Json no_longer = Json::array();
    for (const plan::LeftOut& left : replanned.lost_place) {
        Json each = tree_json(work, left.job);
        each["why"] = words(left, work);
        no_longer.push_back(std::move(each));
    }
    return {{"moved", std::move(moved)}, {"no_longer_planned", std::move(no_longer)}};
}

}  // namespace

std::string crew_schedule_csv(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                              const plan::Crews& crews,
                              const std::vector<TreeWithoutADay>& without_a_day) {
    std::string csv = csv_row({"site", "tree", "method", "priority", "window_opens", "best_until",
                               "window_closes", "date", "crew", "arrives", "leaves", "minutes",
                               "left_out_because"});
    const auto start_of_row = [&](std::size_t index) {
        const plan::Job& job = work.jobs[index];
        return std::vector<std::string>{csv_text_field(work.sites[job.site].name),
                                        csv_text_field(job.tree),
                                        csv_plain_field(job.method),
                                        std::to_string(job.priority),
                                        measure::text(job.release),
                                        job.best_until ? measure::text(*job.best_until) : "",
                                        measure::text(job.deadline)};
    };
    for_each_planned(schedule, [&](const plan::PlannedDay& day, const plan::Visit& visit,
                                   std::size_t index) {
        std::vector<std::string> row = start_of_row(index);
        row.insert(row.end(), {measure::text(day.day), csv_text_field(crews.crews[day.crew].name),
                               treat::text(treat::LocalTime{visit.arrives}),
                               treat::text(treat::LocalTime{visit.leaves}),
                               std::to_string(work.jobs[index].minutes), ""});
        csv += csv_row(row);
    });
    for (const plan::LeftOut& left : schedule.left_out) {
        std::vector<std::string> row = start_of_row(left.job);
        row.insert(row.end(), {"", "", "", "", std::to_string(work.jobs[left.job].minutes),
                               csv_text_field(words(left, work))});
        csv += csv_row(row);
    }
    for (const TreeWithoutADay& each : without_a_day) {
        csv += csv_row({csv_text_field(each.tree.site), csv_text_field(each.tree.tree),
                        csv_plain_field(each.method),
                        each.priority ? std::to_string(*each.priority) : "",
                        each.opens ? measure::text(*each.opens) : "",
                        each.best_until ? measure::text(*each.best_until) : "",
                        each.closes ? measure::text(*each.closes) : "", "", "", "", "", "",
                        csv_text_field(each.tree.why)});
    }
    return csv;
}

Json crew_schedule_json(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                        const plan::Crews& crews, const std::vector<TreeWithoutADay>& without_a_day,
                        const std::vector<plan::Replanned>& replanned) {
    Json json;
    json["example_figures"] = crews.settings.example;
    json["standing"] = standing_words(schedule);
    json["minutes"] = schedule.minutes;
    json["days"] = Json::array();
    for (const plan::PlannedDay& day : schedule.days) {
        Json each{{"date", measure::text(day.day)},
                  {"crew", crews.crews[day.crew].name},
                  {"minutes", day.minutes},
                  {"may_use", day.may_use}};
        each["visits"] = Json::array();
        for (const plan::Visit& visit : day.visits) {
            Json stay{{"site", work.sites[visit.site].name},
                      {"travel_minutes", visit.travel},
                      {"arrives", treat::text(treat::LocalTime{visit.arrives})},
                      {"leaves", treat::text(treat::LocalTime{visit.leaves})}};
            stay["trees"] = Json::array();
            for (const std::size_t job : visit.jobs) {
                stay["trees"].push_back({{"tree", work.jobs[job].tree},
                                         {"method", work.jobs[job].method},
                                         {"minutes", work.jobs[job].minutes},
                                         {"after_best", work.jobs[job].is_after_best(day.day)}});
            }
            each["visits"].push_back(std::move(stay));
        }
        json["days"].push_back(std::move(each));
    }
    const std::vector<std::string> proofs = proofs_of(schedule, work);
    json["left_out"] = Json::array();
    for (const plan::LeftOut& left : schedule.left_out) {
        const plan::Job& job = work.jobs[left.job];
        Json each{{"site", work.sites[job.site].name},
                  {"tree", job.tree},
                  {"method", job.method},
                  {"priority", job.priority},
                  {"why", words(left, work)}};
        const auto proof = proof_about(left, schedule);
        each["proof"] = proof ? Json(proofs[*proof]) : Json();
        json["left_out"].push_back(std::move(each));
    }
    json["free_for_rain"] = {{"minutes", schedule.free_for_rain.minutes},
                             {"would_hold", schedule.free_for_rain.would_hold}};
    json["not_scheduled"] = Json::array();
    const auto date = [](const std::optional<measure::Date>& day) {
        return day ? Json(measure::text(*day)) : Json();
    };
    for (const TreeWithoutADay& each : without_a_day) {
        json["not_scheduled"].push_back(
            {{"site", each.tree.site},
             {"tree", each.tree.tree},
             {"method", each.method.empty() ? Json() : Json(each.method)},
             {"priority", each.priority ? Json(*each.priority) : Json()},
             {"window_opens", date(each.opens)},
             {"window_closes", date(each.closes)},
             {"why", each.tree.why}});
    }
    json["lost_days"] = Json::array();
    for (const plan::Replanned& each : replanned) {
        json["lost_days"].push_back(moves_json(each, work, crews));
    }
    return json;
}

}  // namespace ashtriage::present
