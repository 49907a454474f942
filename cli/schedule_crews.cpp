// schedule crews: which crew treats which trees on which day.
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <memory>
#include <set>
#include <tuple>

#include "book/site_history.hpp"
#include "due_properties.hpp"
#include "files.hpp"
#include "knowledge.hpp"
#include "known_year.hpp"
#include "measure/input_error.hpp"
#include "measure/parse.hpp"
#include "packs/problem.hpp"
#include "plan/crew_file.hpp"
#include "plan/replan.hpp"
#include "present/calendar_file.hpp"
#include "present/crew_schedule_data.hpp"
#include "present/crew_schedule_page.hpp"
#include "present/crew_schedule_text.hpp"
#include "present/mix_sheet.hpp"
#include "present/text_layout.hpp"
#include "present/work_to_schedule.hpp"
#include "schedule_command.hpp"

namespace ashtriage::cli {

namespace {

struct CrewsOptions {
    bool example = false;
    std::string file;
    std::string site;
    std::string wave;
    std::string from;
    std::vector<std::string> lost;
    bool without_travel = false;
    std::string crew;
    bool mix = false;
    std::string tank = "1 gal";
    std::string page;
    std::string calendar;
};

// The work, the crews and the plan of them.
struct Planned {
    present::WorkToSchedule trees;
    plan::Crews crews;
    plan::WorkDue work;
    measure::Date from{};  // the first day that may be planned
    plan::CrewSchedule schedule;
    std::vector<std::size_t> tree_of_job;      // by job, which of the trees it is
    std::optional<plan::CrewSchedule> before;  // the plan before the last lost day
    std::vector<plan::Replanned> replanned;    // one for each lost day
    std::vector<present::TreeWithoutADay> without_a_day;
    std::map<std::pair<std::string, int>, int> visits_made;  // by site and year, up to the day
};

// The properties to plan, and how often each was visited.
struct Properties {
    std::vector<present::PropertyToSchedule> all;
    std::map<std::pair<std::string, int>, int> visits_made;
};

// Days on which something was applied.
std::map<int, int> visits_by_year(const std::vector<treat::ApplicationRecord>& applications,
                                  const measure::Date& as_of) {
    std::set<measure::Date> days;
    for (const treat::ApplicationRecord& each : applications) {
        if (each.work_date <= as_of) days.insert(each.work_date);
    }
    std::map<int, int> visits;
    for (const measure::Date& day : days) ++visits[static_cast<int>(day.year())];
    return visits;
}

Properties properties(const Options& options, const present::Knowledge& knowledge,
                      const CrewsOptions& asked) {
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    Properties properties;
    for (present::PropertyDue& each : properties_due(options, book, knowledge, asked.site)) {
        present::DueReport due =
            present::due_report({each}, knowledge, wave_named(asked.wave), options.date());
        treat::SiteHistory before = book::site_history(book, each.property.site.id);
        for (const auto& [year, visits] : visits_by_year(each.applications, options.date())) {
            properties.visits_made[{each.property.site.name, year}] = visits;
        }
        properties.all.push_back(
            {std::move(each.property), std::move(before), std::move(due.rows)});
    }
    return properties;
}

std::size_t crew_named(const plan::Crews& crews, const std::string& name) {
    std::vector<std::string> known;
    for (std::size_t i = 0; i < crews.crews.size(); ++i) {
        if (crews.crews[i].name == name) return i;
        known.push_back(crews.crews[i].name);
    }
    throw measure::InputError("There is no crew \"" + name + "\"", {},
                              packs::nearest_hint(name, known));
}

// "2026-05-20", or "2026-05-20 North crew" for one crew alone.
plan::LostDay lost_day(const plan::Crews& crews, const std::string& text) {
    const std::size_t blank = text.find(' ');
    plan::LostDay lost{measure::parse_date(text.substr(0, blank)), std::nullopt};
    if (blank != std::string::npos) lost.crew = crew_named(crews, text.substr(blank + 1));
    return lost;
}

std::vector<std::size_t> trees_of_jobs(const plan::WorkDue& work,
                                       const std::vector<plan::TreeToVisit>& trees) {
    std::map<std::tuple<std::string, std::string, std::string>, std::size_t> by_name;
    for (std::size_t i = 0; i < trees.size(); ++i) {
        by_name[{trees[i].site, trees[i].tree, trees[i].method}] = i;
    }
    std::vector<std::size_t> of_jobs;
    for (const plan::Job& job : work.jobs) {
        of_jobs.push_back(by_name.at({work.sites[job.site].name, job.tree, job.method}));
    }
    return of_jobs;
}

Planned planned(const Options& options, const CrewsOptions& asked, const KnownYearOptions& year) {
    const present::Knowledge knowledge = load_knowledge_of_year(options, year);
    std::vector<std::string> methods;
    for (const season::MethodSeason& method : knowledge.seasons.methods) {
        methods.push_back(method.method);
    }
    Planned plan;
    plan.crews = plan::read_crews(read_file(asked.file), asked.file, methods);
    Properties all = properties(options, knowledge, asked);
    plan.trees = present::work_to_schedule(all.all, knowledge);
    plan.without_a_day = present::trees_without_a_day(all.all, plan.trees, knowledge);
    plan.visits_made = std::move(all.visits_made);
    plan.work = plan::work_due(plan.trees.trees, plan.trees.rooms, plan.crews.settings);
    plan.tree_of_job = trees_of_jobs(plan.work, plan.trees.trees);
    plan::ScheduleOptions how;
    how.from = asked.from.empty()
                   ? options.date()
                   : value_of("--from", [&] { return measure::parse_date(asked.from); });
    plan.from = how.from;
    how.without_place = asked.without_travel ? plan::WithoutPlace::plan_without_travel
                                             : plan::WithoutPlace::leave_out;
    plan.schedule = plan::crew_schedule(plan.work, plan.crews, how);
    for (const std::string& text : asked.lost) {
        const plan::LostDay lost = value_of("--lost", [&] { return lost_day(plan.crews, text); });
        plan.replanned.push_back(value_of("--lost", [&] {
            return plan::replan(plan.schedule, plan.work, plan.crews, how, lost);
        }));
        plan.before = plan.schedule;
        plan.schedule = plan.replanned.back().schedule;
    }
    return plan;
}

// What a crew mixes and carries on one of its days: the trees of all its visits.
present::PlannedWork work_of_day(const Planned& plan, const plan::PlannedDay& day) {
    present::PlannedWork work;
    work.site.name = plan.crews.crews[day.crew].name;
    work.on = day.day;
    for (const plan::Visit& visit : day.visits) {
        for (const std::size_t index : visit.jobs) {
            present::PlannedTree tree = plan.trees.planned[plan.tree_of_job[index]];
            tree.tree.label = plan.work.sites[visit.site].name + " " + tree.tree.label;
            work.trees.push_back(std::move(tree));
        }
    }
    return work;
}

void print_trees(std::string_view heading, const std::vector<present::NotScheduled>& trees) {
    if (!trees.empty()) std::cout << heading << "\n";
    for (const present::NotScheduled& each : trees) {
        std::cout << present::paragraph(each.site + ", tree " + each.tree + ": " + each.why,
                                        "  - ");
    }
}

void print_text(const CrewsOptions& asked, const Planned& plan) {
    if (plan.trees.example) {
        std::cout << present::paragraph(
            "EXAMPLE label cards stand behind this plan: nothing may be applied by them. Copy the "
            "label in your hand onto a card of your own first.",
            "STOP: ");
    }
    for (const plan::Crew& crew : plan.crews.crews) {
        if (crew.last_day >= plan.from) continue;
        std::cout << present::paragraph(
            crew.name + " has no day of work from " + measure::long_text(plan.from) +
                " on: its last_day is " + measure::long_text(crew.last_day) + ".",
            "WARNING: ");
    }
    for (const plan::Replanned& replanned : plan.replanned) {
        std::cout << "Moved for the lost day\n"
                  << present::moves_text(replanned, plan.work, plan.crews) << "\n";
    }
    const std::string overview = present::season_overview(plan.schedule, plan.crews);
    if (!overview.empty()) std::cout << overview << "\n";
    const auto crew = asked.crew.empty() ? std::nullopt : std::optional{value_of("--crew", [&] {
        return crew_named(plan.crews, asked.crew);
    })};
    if (asked.mix) {
        const present::MixAsked how{
            value_of("--tank", [&] { return measure::parse_volume(asked.tank); }),
            measure::parse_percent("10 %"), ""};
        for (const plan::PlannedDay& day : plan.schedule.days) {
            if (crew && *crew != day.crew) continue;
            std::cout << present::day_sheet(day, plan.work, plan.crews) << "\n"
                      << present::mix_text(present::mix_sheet(work_of_day(plan, day), how)) << "\n";
        }
    } else {
        std::cout << present::day_sheets(plan.schedule, plan.work, plan.crews, crew) << "\n";
    }
    std::cout << present::left_out_text(plan.schedule, plan.work);
    print_trees("Not scheduled", plan.trees.not_scheduled);
    print_trees("Late", plan.trees.missed);
    print_trees("Not due yet", plan.trees.not_yet_due);
    if (plan.trees.not_walked_this_year > 0) {
        std::cout << present::paragraph(
            std::to_string(plan.trees.not_walked_this_year) +
            " of these trees were not walked round this year: look at each of them again before it "
            "is treated.");
    }
    std::cout << present::paragraph(present::standing_words(plan.schedule) + " " +
                                    present::after_best_words(plan.schedule, plan.work))
              << plan.trees.places.text();
}

std::vector<NamedText> files_asked_for(const Options& options, const CrewsOptions& asked,
                                       const Planned& plan) {
    std::vector<NamedText> files;
    if (!asked.page.empty()) {
        files.push_back(
            {asked.page, present::crew_schedule_page(plan.schedule, plan.work, plan.crews,
                                                     plan.without_a_day, plan.trees.example)});
    }
    if (!asked.calendar.empty()) {
        const bool is_there = std::filesystem::exists(asked.calendar);
        const present::CalendarOptions how{options.date(),
                                           options.date(),
                                           plan.before ? &*plan.before : nullptr,
                                           plan.visits_made,
                                           plan.without_a_day,
                                           is_there ? read_file(asked.calendar) : std::string(),
                                           asked.site};
        files.push_back({asked.calendar, value_of(asked.calendar, [&] {
                             return present::calendar_text(plan.schedule, plan.work, plan.crews,
                                                           how);
                         })});
    }
    return files;
}

void write_or_say_so(const Options& options, const std::vector<NamedText>& files) {
    if (files.empty()) return;
    if (!options.dry_run) write_files(files);
    for (const NamedText& file : files) {
        std::cerr << (options.dry_run ? "Would write " : "Wrote ") << file.name.string() << "\n";
    }
}

ExitCode run(const Options& options, const CrewsOptions& asked, const KnownYearOptions& year) {
    if (asked.example) {
        std::cout << plan::example_crew_file();
        return ExitCode::done;
    }
    if (asked.file.empty()) {
        throw measure::InputError("Which crews?", "--crews",
                                  "\"ashtriage schedule crews --example\" prints a file to begin "
                                  "from; name yours with --crews.");
    }
    const Planned plan = planned(options, asked, year);
    const std::vector<NamedText> files = files_asked_for(options, asked, plan);
    switch (options.output_format()) {
        case Format::text:
            print_text(asked, plan);
            break;
        case Format::csv:
            std::cout << present::crew_schedule_csv(plan.schedule, plan.work, plan.crews,
                                                    plan.without_a_day);
            break;
        case Format::json:
            std::cout << present::crew_schedule_json(plan.schedule, plan.work, plan.crews,
                                                     plan.without_a_day, plan.replanned)
                             .dump(2)
                      << "\n";
            break;
    }
    write_or_say_so(options, files);
    const bool complete = plan.schedule.left_out.empty() && plan.trees.not_scheduled.empty();
    return complete && !plan.trees.example ? ExitCode::done : ExitCode::finding;
}

}  // namespace

void add_schedule_crews(CLI::App& schedule, Selection& selection,
                        const std::shared_ptr<const KnownYearOptions>& year) {
    const auto asked = std::make_shared<CrewsOptions>();
    CLI::App* command = schedule.add_subcommand(
        "crews", "Which crew treats which trees on which day, every tree within its window");
    command->fallthrough();
    command->add_flag("--example", asked->example, "Print a file of crews to begin from");
    command->add_option("--crews", asked->file, "The file that describes the crews");
    command->add_option("--site", asked->site, "Only this site (default: all)");
    command->add_option("--from", asked->from,
                        "The first day that may be planned (default: today)");
    command->add_option("--lost", asked->lost,
                        "A day lost to rain, \"2026-05-20\" or \"2026-05-20 CREW\"; may be said "
                        "again. Give the --as-of and --from of the plan");
    command->add_flag("--without-travel", asked->without_travel,
                      "Plan sites without a place too, without the way there");
    command->add_option("--crew", asked->crew, "Day sheets of this crew alone");
    command->add_flag("--mix", asked->mix, "With each day what to mix, carry and wear");
    command->add_option("--tank", asked->tank, "With --mix: what the sprayer holds")
        ->capture_default_str();
    command->add_option("--page", asked->page, "Also write the season as a page: an HTML file");
    command->add_option("--calendar", asked->calendar,
                        "Also write a calendar file (.ics) for any calendar program");
    add_wave_option(*command, asked->wave);
    command->callback([&selection, asked, year] {
        selection.action = [asked, year](const Options& options) {
            return run(options, *asked, *year);
        };
    });
}

}  // namespace ashtriage::cli
