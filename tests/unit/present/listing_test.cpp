#include "present/listing.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "demo_property.hpp"
#include "measure/units.hpp"
#include "packs/csv_rows.hpp"
#include "present/recommendation_json.hpp"
#include "present/schedule_listing.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {
namespace {

using testing::HasSubstr;

struct Table {
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;

    std::size_t column(std::string_view name) const {
        return static_cast<std::size_t>(std::ranges::find(columns, name) - columns.begin());
    }
};

Table read_back(const std::string& csv) {
    std::istringstream stream(csv);
    packs::CsvReader reader(stream, "listing.csv");
    Table table{reader.header().names(), {}};
    packs::CsvRow row;
    while (reader.next(row)) {
        EXPECT_EQ(row.fault, "");
        table.rows.push_back(row.fields);
    }
    return table;
}

TEST(TriageListing, HasALineForEveryTree) {
    const auto& trees = demo_property().trees;
    const std::string text = triage_text(trees);
    for (const TreeAssessment& tree : trees) {
        EXPECT_THAT(text, HasSubstr("\n" + tree.tree.label + " "));
    }
    EXPECT_THAT(text, HasSubstr("16 trees: "));
}

TEST(TriageListing, OfOneTreeAndOfNoneStillCounts) {
    EXPECT_THAT(triage_text({demo_tree("L1")}), HasSubstr("1 tree: 1 treat."));
    EXPECT_THAT(triage_text({}), HasSubstr("0 trees"));
}

TEST(TriageListing, AsCsvSaysWhatTheAssessmentsSay) {
    const auto& trees = demo_property().trees;
    const Table table = read_back(triage_csv(trees));
    ASSERT_EQ(table.rows.size(), trees.size());
    for (std::size_t i = 0; i < trees.size(); ++i) {
        const auto& row = table.rows[i];
        EXPECT_EQ(row[table.column("tree")], trees[i].tree.label);
        EXPECT_EQ(row[table.column("date")], "2026-07-06");
        EXPECT_EQ(row[table.column("standing")], standing(trees[i].recommendation));
        EXPECT_EQ(row[table.column("evidence")], trees[i].recommendation.evidence);
        EXPECT_EQ(count_of(";", row[table.column("flags")]) + 1,
                  std::max<std::size_t>(1, trees[i].recommendation.flags.size()));
    }
}

TEST(TriageListing, AsJsonReadsBackAndSaysTheSame) {
    const auto& trees = demo_property().trees;
    const auto json = nlohmann::json::parse(triage_json(trees, built_in_rules()));
    ASSERT_EQ(json.size(), trees.size());
    for (std::size_t i = 0; i < trees.size(); ++i) {
        const triage::Recommendation& recommended = trees[i].recommendation;
        const auto& entry = json[i];
        EXPECT_EQ(entry["tree"], trees[i].tree.label);
        EXPECT_EQ(entry["date"], "2026-07-06");
        EXPECT_EQ(entry["possible"], recommended.possible);
        EXPECT_EQ(entry["standing"], standing(recommended));
        if (recommended.decided()) {
            EXPECT_EQ(entry["recommendation"], recommended.possible.front());
        } else {
            EXPECT_TRUE(entry["recommendation"].is_null());
        }
        ASSERT_EQ(entry["flags"].size(), recommended.flags.size());
        for (std::size_t f = 0; f < recommended.flags.size(); ++f) {
            EXPECT_EQ(entry["flags"][f]["flag"], recommended.flags[f].flag);
            EXPECT_EQ(entry["flags"][f]["todo"], recommended.flags[f].reason.todo);
        }
        ASSERT_EQ(entry["reasons"].size(), recommended.reasons.size());
        for (std::size_t r = 0; r < recommended.reasons.size(); ++r) {
            EXPECT_EQ(entry["reasons"][r]["rule"], recommended.reasons[r].rule);
            EXPECT_EQ(entry["reasons"][r]["sources"], recommended.reasons[r].sources);
        }
        EXPECT_EQ(entry["open_questions"].size(), recommended.open_questions.size());
        EXPECT_EQ(entry["treatment"].is_null(), !trees[i].treatment.has_value());
        EXPECT_EQ(entry["rules"]["hash"], built_in_rules().hash);
        EXPECT_NEAR(entry["dbh_inches"].get<double>(), trees[i].facts.dbh->in(measure::units::inch),
                    1e-9);
    }
}

TEST(ReasonJson, TellsMetNotMetAndNotKnownApart) {
    triage::Reason reason;
    reason.comparisons = {{"a", "1", "x", reason::Truth::yes, true},
                          {"b", "2", "y", reason::Truth::no, true},
                          {"c", "3", "z", reason::Truth::maybe, true}};
    const Json json = reason_json(reason);
    EXPECT_EQ(json["comparisons"][0]["met"], true);
    EXPECT_EQ(json["comparisons"][1]["met"], false);
    EXPECT_TRUE(json["comparisons"][2]["met"].is_null());
}

TEST(TreatmentJson, SaysThatTheCardIsAnExample) {
    const auto json = assessment_json(demo_tree("L1"), built_in_rules());
    EXPECT_EQ(json["treatment"]["example_card"], true);
    EXPECT_FALSE(json["treatment"]["amounts"].empty());
}

// Every tree with a flag and every tree that may have to go, and no other.
TEST(FlagListing, LeavesOutNoTreeThatMustNotBeOverlooked) {
    const auto& trees = demo_property().trees;
    const std::string text = flags_text(trees, built_in_rules());
    std::size_t listed = 0;
    for (const TreeAssessment& tree : trees) {
        const auto& possible = tree.recommendation.possible;
        const bool urgent = !tree.recommendation.flags.empty() ||
                            std::ranges::find(possible, triage::outcome::remove) != possible.end();
        const bool shown = text.find("Tree " + tree.tree.label + ", ") != std::string::npos;
        EXPECT_EQ(shown, urgent) << tree.tree.label;
        listed += urgent ? 1U : 0U;
    }
    EXPECT_GE(listed, 5U);
    EXPECT_LT(listed, trees.size());
    EXPECT_EQ(nlohmann::json::parse(flags_json(trees, built_in_rules())).size(), listed);
}

TEST(FlagListing, PutsTheMostUrgentFirst) {
    const auto& trees = demo_property().trees;
    const auto& model = built_in_rules().model;
    const auto& urgency = model.tables[*model.find_table(triage::table::hazard)].gives;
    const auto rank = [&](std::size_t index) {
        const auto& flags = trees[index].recommendation.flags;
        if (flags.empty()) return urgency.size();
        return static_cast<std::size_t>(std::ranges::find(urgency, flags.front().flag) -
                                        urgency.begin());
    };
    const auto order = by_urgency(trees, built_in_rules());
    ASSERT_EQ(order.size(), trees.size());
    EXPECT_TRUE(std::ranges::is_sorted(order, {}, rank));
    EXPECT_EQ(trees[order.front()].tree.label, "L12");  // the assessor rated failure imminent
}

TEST(FlagListing, AsCsvHasARowForEveryFlag) {
    const auto& trees = demo_property().trees;
    const Table table = read_back(flags_csv(trees, built_in_rules()));
    std::size_t flags = 0;
    for (const TreeAssessment& tree : trees) flags += tree.recommendation.flags.size();
    const auto flagged = std::ranges::count_if(
        table.rows, [&](const auto& row) { return !row[table.column("flag")].empty(); });
    EXPECT_EQ(static_cast<std::size_t>(flagged), flags);
    for (const auto& row : table.rows) EXPECT_FALSE(row[table.column("because")].empty());
}

TEST(FlagListing, OfTreesWithoutFaultsDoesNotClearThem) {
    EXPECT_THAT(flags_text({demo_tree("L10")}, built_in_rules()),
                HasSubstr(paragraph(no_flag_noted())));
}

TEST(ListingsAsCsv, GuardFreeTextAndLeaveNumbersAlone) {
    TreeAssessment tree = demo_tree("L3");
    tree.tree.label = "=1+1";
    tree.tree.place = "@home, \"here\"";
    const Table triage = read_back(triage_csv({tree}));
    EXPECT_EQ(triage.rows.at(0)[triage.column("tree")], "'=1+1");
    EXPECT_EQ(triage.rows.at(0)[triage.column("dbh_inches")], "19.0");
    const Table flags = read_back(flags_csv({tree}, built_in_rules()));
    EXPECT_EQ(flags.rows.at(0)[flags.column("place")], "'@home, \"here\"");
}

std::vector<plan::ScheduledTree> demo_schedule() {
    return plan::schedule(trees_to_treat({demo_property()}), built_in_knowledge().seasons,
                          built_in_knowledge().cards, demo_day());
}

TEST(ScheduleListing, HasEveryTreeThatIsToBeTreatedAndNoOther) {
    std::size_t treated = 0;
    for (const TreeAssessment& tree : demo_property().trees) treated += tree.treatment ? 1U : 0U;
    const auto scheduled = demo_schedule();
    EXPECT_EQ(scheduled.size(), treated);
    const Table table = read_back(schedule_csv(scheduled));
    EXPECT_EQ(table.rows.size(), treated);
    for (const auto& row : table.rows) EXPECT_EQ(row[table.column("example_card")], "yes");
    const auto json = nlohmann::json::parse(schedule_json(scheduled));
    ASSERT_EQ(json.size(), treated);
    for (std::size_t i = 0; i < treated; ++i) {
        EXPECT_EQ(json[i]["tree"], scheduled[i].tree.label);
        EXPECT_EQ(json[i]["opens"], table.rows[i][table.column("opens")]);
    }
    EXPECT_THAT(schedule_text(scheduled), HasSubstr("EXAMPLE label cards"));
}

TEST(ScheduleListing, OfNothingSaysSo) {
    EXPECT_EQ(schedule_text({}), "No tree is due for treatment.\n");
    EXPECT_EQ(schedule_json({}), "[]\n");
}

}  // namespace
}  // namespace ashtriage::present
