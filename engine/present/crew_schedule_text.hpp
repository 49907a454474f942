// The plan of the crews as text for a terminal or a sheet of paper, within 80 columns.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/crew_schedule.hpp"
#include "plan/replan.hpp"

namespace ashtriage::present {

// What stands wherever a date of treatment is shown.
std::string_view label_comes_first();

// "soil drench imidacloprid".
std::string method_words(std::string method);

// "soil drench imidacloprid: A1, A2; trunk injection emamectin: B7".
std::string visit_words(const plan::Visit& visit, const plan::WorkDue& work);

// One day of a crew: when to be where, for which trees.
std::string day_sheet(const plan::PlannedDay& day, const plan::WorkDue& work,
                      const plan::Crews& crews);

// A sheet for every day of a crew: when to be where, for which trees. One crew or all.
std::string day_sheets(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                       const plan::Crews& crews, std::optional<std::size_t> crew = std::nullopt);

// The trees that are left out with the reasons, and what proves that some must be. Empty when none
// is.
std::string left_out_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work);

// What is due in an interval and what the crews can do: why no plan reaches all of it.
std::string words(const plan::Shortfall& shortfall);

// What the trees of a site take of an active ingredient and what it may take: likewise.
std::string words(const plan::AcreShortfall& shortfall, const plan::WorkDue& work);

// What is kept free for rain and how many of the trees left out it would hold. Empty where it would
// hold none.
std::string words(const plan::FreeForRain& free);

// Those by time, then those by the acre.
std::vector<std::string> proofs_of(const plan::CrewSchedule& schedule, const plan::WorkDue& work);

// Which of these is about the tree, if one is.
std::optional<std::size_t> proof_about(const plan::LeftOut& left_out,
                                       const plan::CrewSchedule& schedule);

// Why a tree is left out, without the proof.
std::string words(const plan::LeftOut& left_out, const plan::WorkDue& work);

// "3 of 40 trees are planned after the better part of their window." Empty when none is.
std::string after_best_words(const plan::CrewSchedule& schedule, const plan::WorkDue& work);

// "The best plan there is: ...", and what else is known of it.
std::string standing_words(const plan::CrewSchedule& schedule);

// A line for each crew, a column for each week from Monday on: how full the days that it works are,
// in tenths, and '.' for a week without work. Empty for no visit.
std::string season_overview(const plan::CrewSchedule& schedule, const plan::Crews& crews);

// What was moved from where to where, what comes at other hours, and what lost its place.
std::string moves_text(const plan::Replanned& replanned, const plan::WorkDue& work,
                       const plan::Crews& crews);

}  // namespace ashtriage::present
