#include "present/fact_listing.hpp"

#include <gmock/gmock.h>

#include <sstream>

#include "../packs/small_pack.hpp"
#include "demo_property.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {
namespace {

using packs::files_with;
using packs::small_pack;
using testing::HasSubstr;

packs::RuleSet small_set() {
    return packs::read_rule_set(files_with(small_pack));
}

TEST(FactListing, TellsInTextWhatAFactIsAndHowItIsAnswered) {
    const std::string text = facts_text(small_set());
    EXPECT_THAT(text, HasSubstr("Crown\n=====\n\nloss\n    How much of the crown is missing?\n"
                                "    A number from 0 to 100 %.\n"
                                "    Judged by eye it may be off by 10 % either way.\n"
                                "    Takes a look.\n"
                                "    Source: invented\n"));
    EXPECT_THAT(text, HasSubstr("hole_shape\n    What shape are they?\n"
                                "    A choice without an order:\n"
                                "    - round: A circle.\n"
                                "    - d_shaped: Flat on one side.\n"
                                "    Takes a look.\n"
                                "    Asked only if holes at least 1\n"));
    EXPECT_THAT(text, HasSubstr("pecking\n    How much have woodpeckers pecked?\n"
                                "    A scale that rises from first to last:\n"
                                "    - none\n    - light\n    - heavy\n"
                                "    Look high up.\n"
                                "    Asked first, for safety.\n"
                                "    Takes getting up to it.\n"));
    EXPECT_THAT(text, HasSubstr("dead\n    Is it dead?\n    Yes or no.\n"
                                "    Cannot be otherwise"));
}

TEST(FactListing, OfTheBuiltInRulesFitsThePageWithEveryFactOnce) {
    const std::string text = facts_text(built_in_rules());
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) EXPECT_LE(width_of(line), page_width);
    for (const reason::Fact& fact : built_in_rules().model.facts) {
        EXPECT_EQ(count_of("\n" + fact.name + "\n", text), 1U) << fact.name;
    }
}

TEST(FactListing, TellsWhatAFactIsWorkedOutFromAndThatItMayNotApply) {
    std::string pack(small_pack);
    const std::string asked = "    ask: How much of the crown is missing?\n";
    pack.insert(pack.find(asked),
                "    asked: no\n    worked_out_from: [holes, pecking]\n"
                "    may_not_apply: yes\n");
    const packs::RuleSet rules = packs::read_rule_set(files_with(pack));
    EXPECT_THAT(facts_text(rules), HasSubstr("    Worked out from holes and pecking, not asked.\n"
                                             "    May not apply: there may be nothing that"));
    EXPECT_THAT(facts_csv(rules), HasSubstr(",no,yes,\"holes, pecking\",yes,yes,,invented\r\n"));
    EXPECT_EQ(facts_json(rules)[0]["worked_out_from"], Json({"holes", "pecking"}));
}

TEST(FactListing, IsOneRowAFactInCsv) {
    const std::string csv = facts_csv(small_set());
    EXPECT_EQ(count_of("\r\n", csv), 1U + small_set().facts.size());
    EXPECT_THAT(csv, HasSubstr("loss,number,crown,How much of the crown is missing?,,"
                               "a number from 0 to 100 %,percent,0,100,10,,glance,no,no,,no,yes,,"
                               "invented\r\n"));
    EXPECT_THAT(csv, HasSubstr("hole_shape,choice,bark,What shape are they?,,"
                               "round or d shaped,,,,,round: A circle.; d_shaped: Flat on one "
                               "side.,glance,no,no,,yes,yes,holes at least 1,invented\r\n"));
}

TEST(FactListing, HasNullInJsonForWhatAFactOfItsKindHasNot) {
    const Json json = facts_json(small_set());
    ASSERT_EQ(json.size(), 5U);
    EXPECT_EQ(json[0]["lowest"], 0.0);
    EXPECT_EQ(json[0]["highest"], 100.0);
    EXPECT_EQ(json[0]["eye_error"], 10.0);
    EXPECT_TRUE(json[0]["only_if"].is_null());
    EXPECT_TRUE(json[0]["levels"].empty());
    EXPECT_EQ(json[2]["kind"], "choice");
    EXPECT_TRUE(json[2]["unit"].is_null());
    EXPECT_TRUE(json[2]["lowest"].is_null());
    EXPECT_EQ(json[2]["levels"][1]["level"], "d_shaped");
    EXPECT_EQ(json[2]["levels"][1]["help"], "Flat on one side.");
    EXPECT_EQ(json[2]["only_if"], "holes at least 1");
    EXPECT_EQ(json[3]["effort"], "climb");
    EXPECT_EQ(json[3]["safety"], true);
    EXPECT_EQ(json[4]["changeable"], false);
    EXPECT_TRUE(json[0]["worked_out_from"].empty());
    EXPECT_EQ(json[0]["may_not_apply"], false);
    EXPECT_EQ(json[2]["may_not_apply"], true);
}

}  // namespace
}  // namespace ashtriage::present
