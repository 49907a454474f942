// The published decision statements P01 to P52.
//
// Every one of them has to have a row in docs/where-sources-disagree.md, and the rule files a case
// for every row that says so. The statements with one clear criterion, read in their sources, are
// held against the rules here once more, apart from the cases.
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "built_in_judge.hpp"
#include "packs/cases.hpp"

namespace ashtriage::published {
namespace {

using testing::Contains;
using testing::Not;

constexpr int statements = 52;

std::string id_of(int number) {
    return (number < 10 ? "P0" : "P") + std::to_string(number);
}

// "P06" for "P06-bark-splits"; empty for an id that is no statement's.
std::string statement_of(const std::string& id) {
    const auto digit = [&](std::size_t at) {
        return id.size() > at && id[at] >= '0' && id[at] <= '9';
    };
    if (id.empty() || id[0] != 'P' || !digit(1) || !digit(2)) return {};
    if (id.size() > 3 && id[3] != '-') return {};
    return id.substr(0, 3);
}

struct Row {
    std::string says;
    std::string passes;
    std::string side_taken;
};

// The table of statements in the document: "| P01 | what it says | passes | side taken |".
std::multimap<std::string, Row> documented() {
    const auto path =
        std::filesystem::path(ASHTRIAGE_SOURCE_DIR) / "docs" / "where-sources-disagree.md";
    std::ifstream file(path, std::ios::binary);
    std::multimap<std::string, Row> rows;
    for (std::string line; std::getline(file, line);) {
        std::vector<std::string> cells;
        for (std::size_t at = line.find('|'); at != std::string::npos;) {
            const std::size_t end = line.find('|', at + 1);
            if (end == std::string::npos) break;
            const std::size_t first = line.find_first_not_of(' ', at + 1);
            const std::size_t last = line.find_last_not_of(' ', end - 1);
            cells.push_back(first < end ? line.substr(first, last - first + 1) : "");
            at = end;
        }
        if (cells.size() != 4 || statement_of(cells[0]).empty()) continue;
        rows.emplace(cells[0], Row{cells[1], cells[2], cells[3]});
    }
    return rows;
}

const std::vector<packs::CaseResult>& all_cases() {
    static const auto results = packs::run_cases(packs::built_in_rule_files());
    return results;
}

// The presets under which the cases of each statement are run; "" for the default settings.
std::map<std::string, std::set<std::string>> presets_of_cases() {
    std::map<std::string, std::set<std::string>> presets;
    for (const packs::CaseResult& result : all_cases()) {
        const std::string statement = statement_of(result.tested.id);
        if (!statement.empty()) presets[statement].insert(result.tested.preset);
    }
    return presets;
}

TEST(Statements, HaveOneRowEachInTheDocument) {
    const auto rows = documented();
    for (int number = 1; number <= statements; ++number) {
        EXPECT_EQ(rows.count(id_of(number)), 1U) << id_of(number);
    }
    EXPECT_EQ(rows.size(), static_cast<std::size_t>(statements));
    for (const auto& [id, row] : rows) {
        EXPECT_FALSE(row.says.empty()) << id;
        EXPECT_FALSE(row.side_taken.empty()) << id;
    }
}

TEST(Statements, HaveTheCasesThatTheDocumentSays) {
    const auto presets = presets_of_cases();
    std::size_t without_case = 0;
    for (const auto& [id, row] : documented()) {
        const auto run = presets.find(id);
        if (row.passes == "no case") {
            EXPECT_TRUE(run == presets.end()) << id << " has a case after all";
            ++without_case;
            continue;
        }
        ASSERT_TRUE(run != presets.end()) << id << " has no case";
        if (row.passes == "default") {
            EXPECT_THAT(run->second, testing::ElementsAre("")) << id;
        } else {
            ASSERT_TRUE(row.passes.starts_with("preset `")) << id << ": " << row.passes;
            const std::string preset = row.passes.substr(8, row.passes.size() - 9);
            EXPECT_THAT(run->second, Contains(preset)) << id;
        }
    }
    // Classes, intervals, ages and seasons yield no verdict on one tree; verdicts are far more.
    EXPECT_LE(without_case, 10U);
}

TEST(Statements, HaveNoCaseThatTheDocumentDoesNotKnow) {
    const auto rows = documented();
    const auto cases = presets_of_cases();
    EXPECT_GE(cases.size(), 40U);
    for (const auto& [id, presets] : cases) EXPECT_EQ(rows.count(id), 1U) << id;
}

TEST(Statements, PassAllTheirCases) {
    std::size_t run = 0;
    for (const packs::CaseResult& result : all_cases()) {
        if (statement_of(result.tested.id).empty()) continue;
        ++run;
        EXPECT_TRUE(result.passed()) << result.tested.id;
        EXPECT_FALSE(result.tested.sources.empty()) << result.tested.id;
        EXPECT_FALSE(result.tested.expected.empty()) << result.tested.id;
    }
    EXPECT_GE(run, 45U);
}

// A tree that has everything a statement leaves unsaid: an ash in leaf, sound, of value, not
// treated before, with the borer 5 mi away.
Entries candidate(const Entries& said) {
    Entries entries = said;
    const Entries unsaid{{"species", "green_ash"},   {"standing_dead", "no"},
                         {"leaves", "in_leaf"},      {"canopy_loss", "5 %"},
                         {"structure", "sound"},     {"infestation_distance", "5 miles"},
                         {"owner_value", "high"},    {"site_quality", "good"},
                         {"utility_conflict", "no"}, {"treatment_history", "never"}};
    for (const observe::Finding& finding : unsaid) {
        if (std::ranges::find(entries, finding.fact, &observe::Finding::fact) == entries.end()) {
            entries.push_back(finding);
        }
    }
    return entries;
}

std::set<std::string> verdicts(const Entries& said, const std::string& preset = {},
                               std::string_view stems = "12 in") {
    return possible("recommendation", facts_of(candidate(said), stems), preset);
}

const std::set<std::string> treat{"treat"};
const std::set<std::string> monitor{"monitor"};
const std::set<std::string> remove_it{"remove"};

// Kentucky Pest News, 3 March 2015: three quarters of the leaves or more can be saved, less than
// half should not be.
TEST(SingleCriterion, P01AndP03LeavesThatRemain) {
    EXPECT_EQ(verdicts({{"canopy_loss", "25 %"}}), treat);
    EXPECT_THAT(verdicts({{"canopy_loss", "50.1 %"}}), Not(Contains("treat")));
}

// Minnesota 2011 (P21), Illinois 2014 (P28), Nebraska guidelines (P30): not above 50 %.
TEST(SingleCriterion, P21P28AndP30NotAboveHalf) {
    EXPECT_EQ(verdicts({{"canopy_loss", "50 %"}}), treat);
    EXPECT_THAT(verdicts({{"canopy_loss", "51 %"}}), Not(Contains("treat")));
    // Infested, but not severely.
    EXPECT_EQ(verdicts({{"canopy_loss", "20 %"}, {"galleries_seen", "yes"}}), treat);
}

// Wisconsin extension (P11), Nebraska guidelines (P29): start within 15 mi or in a quarantined
// county, else wait.
TEST(SingleCriterion, P11AndP29FifteenMiles) {
    const Entries no_sign{{"galleries_seen", "no"},
                          {"larvae_seen", "no"},
                          {"exit_holes", "0"},
                          {"woodpecker_damage", "none"}};
    const auto at = [&](const char* distance, const char* quarantined) {
        Entries said = no_sign;
        said.push_back({"infestation_distance", distance});
        said.push_back({"in_quarantined_county", quarantined});
        return verdicts(said);
    };
    EXPECT_EQ(at("15 miles", "no"), treat);
    EXPECT_EQ(at("15.01 miles", "no"), monitor);
    EXPECT_EQ(at("60 miles", "yes"), treat);
}

// St Paul (P24): public boulevard ash of 10 to 20 in DBH in good health, without structural defect
// or utility conflict, are treated. Its ceiling is a budget rule that the default does not follow.
TEST(SingleCriterion, P24BoulevardAsh) {
    const Entries boulevard{{"public_tree", "yes"},
                            {"galleries_seen", "no"},
                            {"larvae_seen", "no"},
                            {"exit_holes", "0"},
                            {"woodpecker_damage", "none"}};
    for (const char* stems : {"10 in", "15 in", "20 in"}) {
        EXPECT_EQ(verdicts(boulevard, "public_trees", stems), treat) << stems;
        EXPECT_EQ(verdicts(boulevard, {}, stems), treat) << stems;
    }
    EXPECT_EQ(verdicts(boulevard, "public_trees", "9.9 in"), remove_it);
}

// Nebraska, Selecting Trees for EAB Treatments (P32): replace a small tree. The figure for small
// is St Paul's floor of 10 in.
TEST(SingleCriterion, P32SmallTrees) {
    EXPECT_EQ(verdicts({}, "replace_small", "4 in"), remove_it);
    EXPECT_EQ(verdicts({}, {}, "4 in"), treat);
}

// Kitchener (P43): remove on more than 30 % loss or on any one of these signs.
TEST(SingleCriterion, P43AnyOutwardSign) {
    EXPECT_EQ(verdicts({{"canopy_loss", "30.1 %"}}, "strict"), remove_it);
    EXPECT_EQ(verdicts({{"bark_deformity", "yes"}}, "strict"), remove_it);
    EXPECT_EQ(verdicts({{"epicormic_shoots", "few"}}, "strict"), remove_it);
    EXPECT_EQ(verdicts({{"woodpecker_damage", "light"}}, "strict"), remove_it);
    EXPECT_EQ(verdicts({{"large_wounds", "yes"}}, "strict"), remove_it);
    // The default takes the other side, as Kentucky ENTFACT-453 (P07) and Wisconsin 2024 (P09) do.
    EXPECT_EQ(verdicts({{"woodpecker_damage", "light"}, {"epicormic_shoots", "few"}}), treat);
}

}  // namespace
}  // namespace ashtriage::published
