#include "present/explain_text.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "demo_property.hpp"
#include "observe/stem_text.hpp"
#include "present/listing.hpp"
#include "present/property_page.hpp"
#include "present/schedule_listing.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {
namespace {

using testing::HasSubstr;
using testing::Not;

void expect_fits_the_page(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(width_of(line), page_width) << line;
        EXPECT_FALSE(line.ends_with(' ')) << line;
    }
}

TEST(TextForTheTerminal, HasNoLineOverEightyCharacters) {
    const auto& trees = demo_property().trees;
    for (const TreeAssessment& tree : trees) {
        expect_fits_the_page(explanation(tree, built_in_rules()));
        expect_fits_the_page(explanation_for_client(tree));
        if (tree.treatment) expect_fits_the_page(treatment_text(*tree.treatment));
    }
    expect_fits_the_page(triage_text(trees));
    expect_fits_the_page(flags_text(trees, built_in_rules()));
    expect_fits_the_page(schedule_text(plan::schedule(trees_to_treat({demo_property()}),
                                                      built_in_knowledge().seasons,
                                                      built_in_knowledge().cards, demo_day())));
}

TEST(TextForTheTerminal, HoldsNoControlCharacters) {
    for (const TreeAssessment& tree : demo_property().trees) {
        for (const char c : explanation(tree, built_in_rules())) {
            EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20);
        }
    }
}

// What is dangerous comes before everything else, what is to be done with it next.
TEST(Explanation, PutsHazardsBeforeTheRecommendation) {
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::string text = explanation(tree, built_in_rules());
        const auto hazards = text.find("Hazard flags");
        const auto recommendation = text.find("Recommendation: ");
        const auto sources = text.find("Sources\n");
        ASSERT_NE(sources, std::string::npos);
        EXPECT_LT(hazards, recommendation);
        EXPECT_LT(recommendation, sources);
        for (const auto& flag : tree.recommendation.flags) {
            const auto said = text.find(outcome_heading(flag.flag) + ".");
            EXPECT_LT(hazards, said) << flag.flag;
            EXPECT_LT(said, recommendation) << flag.flag;
        }
    }
}

TEST(Explanation, ShowsTheValueBesideTheThreshold) {
    const std::string text = explanation(demo_tree("L5"), built_in_rules());  // 26 % dieback
    EXPECT_THAT(text, HasSubstr("26 %"));
    EXPECT_THAT(text, HasSubstr("30 %"));
    EXPECT_THAT(text, HasSubstr("close call: could also be remove"));
    EXPECT_THAT(text, HasSubstr("canopy loss; that alone settles it."));
}

TEST(Explanation, SaysWhatIsStillOpen) {
    const std::string text = explanation(demo_tree("L7"), built_in_rules());
    EXPECT_THAT(text, HasSubstr("Recommendation: open: "));
    EXPECT_THAT(text, HasSubstr("How much is the tree worth to the owner"));
    EXPECT_THAT(text, HasSubstr("(not asked)"));
}

TEST(Explanation, EndsWithTheCaution) {
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::string caution = paragraph(general_caution());
        EXPECT_TRUE(explanation(tree, built_in_rules()).ends_with(caution));
        EXPECT_TRUE(explanation_for_client(tree).ends_with(caution));
    }
    EXPECT_TRUE(triage_text(demo_property().trees).ends_with(paragraph(general_caution())));
    EXPECT_TRUE(flags_text(demo_property().trees, built_in_rules())
                    .ends_with(paragraph(general_caution())));
}

TEST(Explanation, GivesTheCitationOfEverySourceItNames) {
    const TreeAssessment& tree = demo_tree("L12");
    const std::string text = explanation(tree, built_in_rules());
    ASSERT_FALSE(tree.recommendation.flags.empty());
    for (const auto& flag : tree.recommendation.flags) {
        for (const std::string& key : flag.reason.sources) {
            EXPECT_GE(count_of(key, text), 2U) << key;  // at the rule, and in the list
        }
    }
}

TEST(Explanation, WithoutAFlagDoesNotClearTheTree) {
    const TreeAssessment& tree = demo_tree("L10");
    ASSERT_TRUE(tree.recommendation.flags.empty());
    EXPECT_THAT(explanation(tree, built_in_rules()), HasSubstr(paragraph(no_flag_noted())));
}

// Amounts are those of an example card wherever they are shown.
TEST(Explanation, MarksTheAmountsAsAnExample) {
    std::size_t shown = 0;
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::string text = explanation(tree, built_in_rules());
        if (!tree.treatment || !tree.treatment->dose || tree.treatment->dose->amounts.empty()) {
            continue;
        }
        ++shown;
        EXPECT_THAT(text, HasSubstr("EXAMPLE")) << tree.tree.label;
        EXPECT_THAT(text, HasSubstr(tree.treatment->dose->amounts.front().text));
        EXPECT_THAT(text, HasSubstr(tree.treatment->dose->amounts.front().twin));
    }
    EXPECT_GE(shown, 2U);
}

// An owner who takes a plant-derived insecticide only, and a crown thinned too far for it: by rule
// no-plant-derived-method (canada-eab) that one goes up to 20 % canopy loss.
TreeAssessment tree_that_no_method_fits() {
    observe::SheetTree entry;
    entry.tree.label = "M1";
    entry.walk_around.date = demo_day();
    entry.walk_around.stems = observe::parse_stems("14 in");
    entry.walk_around.findings = {
        {"species", "green_ash"},       {"leaves", "in_leaf"},
        {"standing_dead", "no"},        {"canopy_dieback", "40 %"},
        {"infestation_distance", "4"},  {"owner_value", "high"},
        {"site_quality", "good"},       {"utility_conflict", "no"},
        {"public_tree", "no"},          {"structure", "sound"},
        {"woodpecker_damage", "none"},  {"bark_splits", "none"},
        {"treatment_history", "never"}, {"botanical_only", "yes"},
        {"hanging_limbs", "no"},        {"line_distance", "does not apply"}};
    return assess_tree(built_in_knowledge(), nullptr, entry.tree, entry.walk_around, nullptr,
                       demo_day());
}

TEST(Explanation, SaysWhyNoMethodFits) {
    const TreeAssessment tree = tree_that_no_method_fits();
    ASSERT_THAT(tree.recommendation.possible, testing::ElementsAre("treat"));
    EXPECT_TRUE(tree.no_method_fits());
    EXPECT_FALSE(tree.treatment);
    const std::string text = explanation(tree, built_in_rules());
    EXPECT_THAT(text, HasSubstr("Treatment: no method fits"));
    EXPECT_THAT(text, HasSubstr("no-plant-derived-method"));
    EXPECT_THAT(explanation_for_client(tree), HasSubstr("plant-derived treatment does not suit"));
    expect_fits_the_page(text);
    expect_fits_the_page(explanation_for_client(tree));
    EXPECT_THAT(triage_text({tree}), HasSubstr("treat"));
    EXPECT_THAT(schedule_text(plan::schedule(trees_to_treat({{{}, {}, demo_day(), {tree}, {}}}),
                                             built_in_knowledge().seasons,
                                             built_in_knowledge().cards, demo_day())),
                HasSubstr("No tree is due"));
    EXPECT_THAT(property_page({{}, {}, demo_day(), {tree}, {}}, built_in_knowledge()),
                HasSubstr("plant-derived treatment does not suit"));
}

TEST(ExplanationForTheClient, UsesNoCodes) {
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::string text = explanation_for_client(tree);
        EXPECT_THAT(text, HasSubstr("Our advice: "));
        EXPECT_THAT(text, Not(HasSubstr("_")));
        for (const auto& reason : tree.recommendation.reasons) {
            EXPECT_THAT(text, Not(HasSubstr("rule " + reason.rule)));
        }
        EXPECT_GE(count_of("Take care: ", text), tree.recommendation.flags.size());
    }
}

TEST(Verdict, SaysHowFirmItIs) {
    triage::Recommendation answer;
    EXPECT_EQ(verdict(answer), "no rule holds for this tree");
    EXPECT_EQ(standing(answer), "no rule");
    answer.possible = {"treat"};
    answer.firm = true;
    EXPECT_EQ(verdict(answer), "treat (firm)");
    answer.firm = false;
    answer.within_error = {"remove", "treat"};
    EXPECT_EQ(verdict(answer), "treat (close call: could also be remove)");
    EXPECT_EQ(standing(answer), "close call");
    answer.possible = {"remove", "treat", "monitor"};
    EXPECT_EQ(verdict(answer), "open: remove, treat or monitor");
    EXPECT_EQ(standing(answer), "open");
}

TEST(StemsWords, SayHowManyStemsThereAre) {
    EXPECT_EQ(stems_words(demo_tree("L1").facts), "12.0 in DBH");
    // The root of 81 + 64 + 42.25 is 13.7.
    EXPECT_EQ(stems_words(demo_tree("L8").facts), "3 stems, together 13.7 in DBH");
    EXPECT_EQ(stems_words({}), "DBH not measured");
}

}  // namespace
}  // namespace ashtriage::present
