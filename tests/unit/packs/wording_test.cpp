#include "packs/wording.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "packs/applicability.hpp"
#include "packs/placeholder.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using reason::Condition;
using reason::Interval;
using reason::Value;
using testing::ElementsAre;
using testing::IsEmpty;

class Wording : public testing::Test {
 protected:
    std::string worded_for(std::string_view text) const {
        return worded(text, set_, engine_, tree_);
    }

    RuleSet set_ = read_rule_set(files_with(small_pack));
    reason::Engine engine_{set_.model};
    reason::Observation tree_ = engine_.nothing_known();
};

TEST_F(Wording, FillsInFactsSettingsAndTables) {
    tree_[0] = Value::number(62.5);
    tree_[3] = Value::level(2);
    tree_[1] = Value::number(0);
    tree_[2] = Value::not_applicable();
    EXPECT_EQ(
        worded_for("A loss of {loss} is above {stop_above}, with {signs} signs; {hole_shape}."),
        "A loss of 62.5 % is above 50 %, with weak signs; does not apply.");
    EXPECT_EQ(worded_for("{careful} {pecking} {holes}"), "no heavy 0");
}

TEST_F(Wording, SaysWhatIsNotKnown) {
    tree_[4] = Value::unknown(reason::WhyUnknown::could_not_see);
    EXPECT_EQ(worded_for("{loss}, {dead}"), "not known, could not be seen");
    EXPECT_EQ(worded_for("{signs}"), "strong, weak or none");
    EXPECT_EQ(worded_for("{flags}"), "none");
}

TEST_F(Wording, NamesWhatACollectTableHolds) {
    tree_[0] = Value::number(80);
    tree_[4] = Value::yes();
    EXPECT_EQ(worded_for("{flags}"), "dead tree and brittle");
}

TEST_F(Wording, RoundsNumbersToTwoDecimals) {
    tree_[0] = Value::number(100.0 / 3);
    EXPECT_EQ(worded_for("{loss}"), "33.33 %");
    tree_[0] = Value::range({10.0 / 3, 20.0 / 3, true, false});
    EXPECT_EQ(worded_for("{loss}"), "over 3.33 and up to 6.67 %");
    tree_[0] = Value::range({50, 100, true, false});
    EXPECT_EQ(worded_for("{loss}"), "over 50 %");
}

TEST_F(Wording, LeavesPlainTextAndUnknownNamesAsTheyAre) {
    EXPECT_EQ(worded_for("Nothing here."), "Nothing here.");
    EXPECT_EQ(worded_for("{nothing} here"), "{nothing} here");
}

TEST_F(Wording, PutsConditionsIntoWords) {
    const auto text = [&](const Condition& condition) { return condition_text(condition, set_); };
    EXPECT_EQ(text(Condition::number(0, {50, 100, true, false}, "stop_above")),
              "loss above 50 % (setting stop_above)");
    EXPECT_EQ(text(Condition::number(0, {50, 100, false, false})), "loss at least 50 %");
    EXPECT_EQ(text(Condition::number(0, {0, 50, false, true})), "loss below 50 %");
    EXPECT_EQ(text(Condition::number(0, Interval::closed(0, 50))), "loss at most 50 %");
    EXPECT_EQ(text(Condition::number(0, Interval::point(5))), "loss is 5 %");
    EXPECT_EQ(text(Condition::number(0, {30, 50, false, true})),
              "loss at least 30 % and below 50 %");
    EXPECT_EQ(text(Condition::level(2, 0b10)), "hole shape is d shaped");
    EXPECT_EQ(text(Condition::level(3, 0b110)), "pecking is light or heavy");
    EXPECT_EQ(text(Condition::outcome(0, 0b11)), "signs is strong or weak");
    EXPECT_EQ(text(Condition::outcome(2, 0b01)), "flags includes dead tree");
    EXPECT_EQ(text(Condition::always()), "always");
    EXPECT_EQ(text(Condition::any({})), "never");
    EXPECT_EQ(text(set_.model.tables[1].rules[0].when),
              "loss above 50 % (setting stop_above) or dead is yes");
    EXPECT_EQ(text(Condition::all({set_.model.tables[1].rules[0].when,
                                   Condition::negation(Condition::outcome(0, 0b100))})),
              "(loss above 50 % (setting stop_above) or dead is yes) and not (signs is none)");
}

TEST(UnitText, IsTheShortFormOfAUnit) {
    EXPECT_EQ(unit_text("percent"), "%");
    EXPECT_EQ(unit_text("inches"), "in");
    EXPECT_EQ(unit_text("count"), "");
    EXPECT_EQ(unit_text(""), "");
}

TEST(TextPieces, CutsATextAtItsBraces) {
    const auto names = [](std::string_view text) {
        std::vector<std::string> result;
        for (const TextPiece& piece : text_pieces(text).pieces) {
            if (piece.is_name) result.emplace_back(piece.text);
        }
        return result;
    };
    EXPECT_THAT(names("{a} and {b}{c}"), ElementsAre("a", "b", "c"));
    EXPECT_THAT(names("none"), IsEmpty());
    for (const char* bad : {"{", "}", "{}", "a } b", "{a {b}", "{a", "a}", "{{a}}"}) {
        EXPECT_FALSE(text_pieces(bad).ok) << bad;
    }
}

TEST(Applicability, AFactWhoseConditionFailsDoesNotApply) {
    const RuleSet set = read_rule_set(files_with(small_pack));
    reason::Observation tree(set.model.facts.size());
    EXPECT_TRUE(with_applicability(set, tree)[2].is_unknown());
    tree[1] = Value::number(0);
    EXPECT_TRUE(with_applicability(set, tree)[2].is_not_applicable());
    tree[1] = Value::number(2);
    EXPECT_TRUE(with_applicability(set, tree)[2].is_unknown());
    tree[1] = Value::range(Interval::closed(0, 2));
    EXPECT_TRUE(with_applicability(set, tree)[2].is_unknown());
}

TEST(Applicability, OneFactThatDoesNotApplyCanRuleOutAnother) {
    const RuleSet set = read_rule_set(files_with(
        changed("dead: {kind: yes_no,", "dead: {kind: yes_no, only_if: {hole_shape: d_shaped},")));
    reason::Observation tree(set.model.facts.size());
    tree[1] = Value::number(0);
    EXPECT_TRUE(with_applicability(set, tree)[4].is_not_applicable());
}

TEST(Applicability, AValueThatCannotApplyIsAContradiction) {
    const RuleSet set = read_rule_set(files_with(small_pack));
    reason::Observation tree(set.model.facts.size());
    tree[2] = Value::level(1);
    EXPECT_THAT(contradictions(set, tree), IsEmpty());
    tree[1] = Value::number(0);
    EXPECT_THAT(contradictions(set, tree), ElementsAre(2U));
    EXPECT_EQ(with_applicability(set, tree)[2], Value::level(1));
}

}  // namespace
}  // namespace ashtriage::packs
