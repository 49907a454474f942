#include "present/property_page.hpp"

#include <gmock/gmock.h>

#include "demo_property.hpp"
#include "present/planned_work.hpp"
#include "present/words.hpp"

namespace ashtriage::present {
namespace {

using testing::HasSubstr;
using testing::Not;

const std::string& demo_page() {
    static const std::string page = property_page(demo_property(), built_in_knowledge());
    return page;
}

TEST(PropertyPage, HasEachTreeOnceInTheTableAndOnceInFull) {
    EXPECT_EQ(count_of("<section class=\"tree\">", demo_page()), demo_property().trees.size());
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::string& label = tree.tree.label;
        EXPECT_EQ(count_of("<h2>Tree " + label + ",", demo_page()), 1U) << label;
        EXPECT_EQ(count_of("<tr><td>" + label + "</td>", demo_page()), 1U) << label;
    }
}

TEST(PropertyPage, HasTheWholeDocument) {
    EXPECT_TRUE(demo_page().starts_with("<!DOCTYPE html>"));
    EXPECT_TRUE(demo_page().ends_with("</html>\n"));
    EXPECT_THAT(demo_page(), HasSubstr("<meta charset=\"utf-8\">"));
    EXPECT_THAT(demo_page(), Not(HasSubstr("{{")));
    for (const char* element : {"section", "table", "ul", "svg", "p", "div", "h2"}) {
        const std::string name = element;
        EXPECT_EQ(count_of("<" + name + ">", demo_page()) + count_of("<" + name + " ", demo_page()),
                  count_of("</" + name + ">", demo_page()))
            << name;
    }
}

TEST(PropertyPage, NeedsNoNetworkAndNoScript) {
    EXPECT_THAT(demo_page(), Not(HasSubstr("http")));
    EXPECT_THAT(demo_page(), Not(HasSubstr("<script")));
    EXPECT_THAT(demo_page(), Not(HasSubstr("src=")));
    EXPECT_THAT(demo_page(), Not(HasSubstr("href=")));
    EXPECT_THAT(demo_page(), Not(HasSubstr("url(")));
    EXPECT_THAT(demo_page(), Not(HasSubstr("@import")));
}

TEST(PropertyPage, MarksAmountsAsAnExampleWhereverTheyStand) {
    const std::size_t amounts = count_of("<th>To measure out</th>", demo_page());
    EXPECT_GE(amounts, 2U);
    EXPECT_EQ(count_of("<p class=\"example\">EXAMPLE", demo_page()), amounts);
    // The mark stands before the amounts of its own tree.
    std::size_t at = 0;
    while ((at = demo_page().find("<th>To measure out</th>", at)) != std::string::npos) {
        const std::size_t section = demo_page().rfind("<section class=\"tree\">", at);
        const std::size_t mark = demo_page().rfind("<p class=\"example\">", at);
        EXPECT_GT(mark, section);
        ++at;
    }
}

TEST(PropertyPage, EndsWithTheCautionAndTheSources) {
    EXPECT_EQ(count_of(general_caution(), demo_page()), 1U);
    for (const TreeAssessment& tree : demo_property().trees) {
        for (const auto& flag : tree.recommendation.flags) {
            EXPECT_THAT(demo_page(), HasSubstr(flag.reason.todo.substr(
                                         0, flag.reason.todo.find_first_of("'\"&<>"))));
        }
    }
    EXPECT_THAT(demo_page(), HasSubstr(built_in_rules().hash.substr(0, 12)));
}

TEST(PropertyPage, PutsHazardsBeforeTheAdvice) {
    std::size_t flagged = 0;
    for (const TreeAssessment& tree : demo_property().trees) {
        const std::size_t start = demo_page().find("<h2>Tree " + tree.tree.label + ",");
        const std::size_t advice = demo_page().find("class=\"verdict\"", start);
        const std::string before = demo_page().substr(start, advice - start);
        EXPECT_EQ(count_of("class=\"hazard\"", before), tree.recommendation.flags.size());
        flagged += tree.recommendation.flags.size();
    }
    EXPECT_EQ(count_of("class=\"hazard\"", demo_page()), flagged);
}

TEST(PropertyPage, EscapesWhateverPeopleWrote) {
    const std::string hostile = "<script>alert('1')</script> \"quoted\" & <b>bold</b>";
    PropertyAssessment property = demo_property();
    property.client.name = hostile;
    property.site.name = hostile;
    property.site.address = hostile;
    for (TreeAssessment& tree : property.trees) {
        tree.tree.label = hostile;
        tree.tree.place = hostile;
        tree.walk_around.observer = hostile;
        tree.walk_around.notes = hostile;
    }
    property.not_walked.push_back({0, 0, hostile, {}, {}});
    const std::string page = property_page(property, built_in_knowledge());
    EXPECT_THAT(page, Not(HasSubstr("<script")));
    EXPECT_THAT(page, Not(HasSubstr("<b>")));
    EXPECT_THAT(page, Not(HasSubstr("\"quoted\"")));
    EXPECT_THAT(page, Not(HasSubstr("alert('1')")));
    EXPECT_THAT(page, HasSubstr("&lt;script&gt;"));
    EXPECT_EQ(count_of("<section class=\"tree\">", page), property.trees.size());
}

TEST(PropertyPage, NamesTreesThatNobodyHasWalkedRound) {
    PropertyAssessment property = demo_property();
    EXPECT_THAT(demo_page(), Not(HasSubstr("Not looked at yet")));
    property.not_walked = {{0, 0, "L98", {}, {}}, {0, 0, "L99", {}, {}}};
    EXPECT_THAT(property_page(property, built_in_knowledge()),
                HasSubstr("Not looked at yet: L98 and L99."));
}

TEST(PropertyPage, OfNoTreesIsStillAPage) {
    PropertyAssessment property;
    property.site.name = "Nowhere";
    property.as_of = demo_day();
    const std::string page = property_page(property, built_in_knowledge());
    EXPECT_THAT(page, HasSubstr("0 trees were looked at."));
    EXPECT_THAT(page, HasSubstr(std::string(general_caution())));
}

// The drawing runs from 20 (0 %) to 320 (100 %), so a percent is 3 wide.
TEST(PropertyPage, DrawsTheLossWhereItBelongs) {
    const auto drawn = [](std::string_view label) {
        PropertyAssessment one = demo_property();
        std::erase_if(one.trees, [&](const auto& tree) { return tree.tree.label != label; });
        return property_page(one, built_in_knowledge());
    };
    const std::string page = drawn("L5");                                // 26 %, seen as 16 to 36 %
    EXPECT_THAT(page, HasSubstr("x=\"68.0\" y=\"24\" width=\"60.0\""));  // 20 + 48, 20 points
    EXPECT_THAT(page, HasSubstr("x1=\"110.0\""));                        // 30 %
    EXPECT_THAT(page, HasSubstr("x1=\"170.0\""));                        // 50 %
    EXPECT_THAT(page, HasSubstr("x=\"96.0\" y=\"20\" width=\"4.0\""));   // 98 is 26 %
    EXPECT_THAT(drawn("L3"), HasSubstr("x=\"290.0\" y=\"24\" width=\"30.0\""));  // 90 to 100 %
}

TEST(PropertyPage, SetsTheMethodsSideBySideForATreeToBeTreated) {
    const std::string page = property_page(demo_property(), built_in_knowledge());
    int treated = 0;
    for (const TreeAssessment& tree : demo_property().trees) {
        treated += is_to_be_treated(tree) ? 1 : 0;
    }
    int compared = 0;
    const std::string heading = "The methods side by side";
    for (auto at = page.find(heading); at != std::string::npos; at = page.find(heading, at + 1)) {
        ++compared;
    }
    EXPECT_EQ(compared, treated);
    EXPECT_THAT(page, HasSubstr("Found for this size"));
    EXPECT_THAT(page, HasSubstr("ruled out"));
}

}  // namespace
}  // namespace ashtriage::present
