// The words in which results are shown, the same on every screen and page.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "observe/records.hpp"
#include "packs/rule_set.hpp"
#include "present/assessment.hpp"
#include "triage/recommendation.hpp"

namespace ashtriage::present {

// "TREAT", "NOT AN ASH: OUT OF SCOPE"; any other outcome in capitals with blanks.
std::string outcome_heading(std::string_view outcome);

// "treat", "not an ash, out of scope".
std::string outcome_words(std::string_view outcome);

// "treat (firm)", "treat (close call: could also be remove)", "open: treat or remove".
std::string verdict(const triage::Recommendation& recommendation);

// "firm", "close call", "open" or, when no rule holds, "no rule".
std::string standing(const triage::Recommendation& recommendation);
// The same for an answer of which only this is known: how many outcomes are possible, and whether
// one alone is firm.
std::string_view standing(std::size_t possible, bool firm);

// "treat, if owner value were high and canopy loss were below 50 %".
std::string change_words(const triage::WhatWouldChange& change);

// What to judge or measure again, and what that would bring; empty for a firm answer.
std::string measure_again_words(const triage::Recommendation& recommendation);

// Which observations alone force the answer; empty where nothing is decided.
std::string forced_by_words(const triage::Recommendation& recommendation);

// "Evidence is definite" for "evidence is definite".
std::string with_capital(std::string text);

// "evidence 2026.1, triage 2026.1".
std::string editions_words(const packs::RuleSet& rules);

// "standing dead with defects" for "standing_dead_with_defects".
std::string flag_words(std::string_view flag);

// The words of several flags, or of every flag of a tree, with `between` between them.
std::string flag_list(const std::vector<std::string>& flags, std::string_view between);
std::string flag_list(const triage::Recommendation& recommendation, std::string_view between);

// "14.0 in DBH", "3 stems, together 17.4 in DBH", "DBH not measured".
std::string stems_words(const triage::TreeFacts& facts);

// "1 day", "12 days".
std::string day_count(int days);

// "a, b, c".
std::string comma_list(const std::vector<std::string>& words);

// What is always said at the end: what the program is not, and who decides.
std::string_view general_caution();

// Why a tree treated this season gets no window before next year's.
std::string_view treated_this_season_note();

// Above a list of flags that is empty.
std::string_view no_flag_noted();

}  // namespace ashtriage::present
