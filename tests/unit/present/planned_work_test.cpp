// A day's doses on the invented property of the demonstration, by cards of the tests' own.
#include "present/planned_work.hpp"

#include <gmock/gmock.h>

#include "demo_property.hpp"
#include "labelled_cards.hpp"
#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "plan/method_choice.hpp"
#include "treat/permission.hpp"

namespace ashtriage::present {
namespace {

using measure::Mass;
using testing::AllOf;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::Not;
namespace units = measure::units;

class PlanWork : public testing::Test {
 protected:
    PlannedWork plan(const WorkAsked& asked = {}, const treat::SiteHistory& before = {}) const {
        return plan_work(property_with(knowledge), knowledge, before, asked);
    }
    // Every tree by name, which keeps those whose window of this year has passed.
    WorkAsked every_tree() const {
        WorkAsked asked;
        for (const TreeAssessment& tree : property_with(knowledge).trees) {
            asked.labels.push_back(tree.tree.label);
        }
        return asked;
    }
    static std::vector<std::string> labels(const PlannedWork& work) {
        std::vector<std::string> labels;
        for (const PlannedTree& tree : work.trees) labels.push_back(tree.tree.label);
        return labels;
    }

    Knowledge knowledge = with_labels([](treat::LabelCard&) {});
};

TEST_F(PlanWork, DosesWhatIsToBeTreatedAndSaysOfEveryOtherTreeWhyNot) {
    const PlannedWork work = plan();
    EXPECT_FALSE(work.any_stop());
    EXPECT_EQ(work.trees.size() + work.left_out.size(), property_with(knowledge).trees.size());
    EXPECT_FALSE(work.trees.empty());
    for (const PlannedTree& tree : work.trees) EXPECT_FALSE(tree.dose.amounts.empty());
    for (const LeftOut& out : work.left_out) EXPECT_FALSE(out.why.empty());
}

TEST_F(PlanWork, OfTreesThatAreNamedIsAboutThoseAlone) {
    const auto first = labels(plan()).front();
    WorkAsked asked;
    asked.labels = {first};
    EXPECT_THAT(labels(plan(asked)), testing::ElementsAre(first));
    asked.labels = {"L99"};
    EXPECT_THROW(plan(asked), measure::InputError);
}

TEST_F(PlanWork, StopsWhereMoreThanOneCardIsForTheMethodAndNoneWasNamed) {
    const PlannedTree first = plan().trees.front();
    EXPECT_THAT(first.findings, Not(Contains(Field(&treat::Finding::id, "more-than-one-card"))));
    treat::LabelCard second = first.card;
    second.key = "zz-second";
    knowledge.cards.push_back(second);
    WorkAsked asked;
    asked.labels = {first.tree.label};
    const PlannedTree planned = plan(asked).trees.front();
    EXPECT_TRUE(planned.ruled_out());
    EXPECT_THAT(planned.findings,
                Contains(AllOf(Field(&treat::Finding::id, "more-than-one-card"),
                               Field(&treat::Finding::severity, treat::Severity::stop),
                               Field(&treat::Finding::text, HasSubstr(first.card.key)),
                               Field(&treat::Finding::text, HasSubstr("zz-second")))));
    asked.card = "zz-second";
    EXPECT_THAT(plan(asked).trees.front().findings,
                Not(Contains(Field(&treat::Finding::id, "more-than-one-card"))));
}

TEST_F(PlanWork, OfSeveralExamplesForTheMethodTakesTheFirstByNameAndSaysSo) {
    knowledge = with_labels([](treat::LabelCard& card) { card.example = true; });
    treat::LabelCard second = plan().trees.front().card;
    second.key = "zz-second";
    knowledge.cards.push_back(second);
    const PlannedTree planned = plan().trees.front();
    EXPECT_NE(planned.card.key, second.key);
    EXPECT_FALSE(planned.ruled_out());
    EXPECT_THAT(planned.findings,
                Contains(AllOf(Field(&treat::Finding::id, "more-than-one-card"),
                               Field(&treat::Finding::text, HasSubstr("zz-second")))));
}

TEST_F(PlanWork, WarnsOfANamedCardWhoseMethodTheRulesExcludeForTheTree) {
    WorkAsked asked;
    int excluded = 0;
    const PropertyAssessment property = property_with(knowledge);
    for (const treat::LabelCard& card : knowledge.cards) {
        asked.card = card.key;
        for (const PlannedTree& planned : plan(asked).trees) {
            const auto tree = std::ranges::find_if(property.trees, [&](const TreeAssessment& each) {
                return each.tree.label == planned.tree.label;
            });
            const auto methods =
                plan::compare_methods(knowledge.methods, knowledge.judge.rules(),
                                      knowledge.judge.engine(), knowledge.seasons, tree->facts,
                                      location_of(&property.site, tree->tree), demo_day());
            const bool out =
                std::ranges::any_of(methods.ruled_out, [&](const plan::MethodAnswer& answer) {
                    return answer.facts->method == card.method && !answer.ruled_out_by.empty();
                });
            const bool warned = std::ranges::any_of(
                planned.findings,
                [](const treat::Finding& finding) { return finding.id == "method-ruled-out"; });
            EXPECT_EQ(warned, out) << planned.tree.label << " by " << card.key;
            excluded += out ? 1 : 0;
        }
    }
    EXPECT_GT(excluded, 0);
}

// The demonstration is of July: basal sprays are over then, injections go on until the end of
// August.
TEST_F(PlanWork, WarnsOfATreeWhoseMethodIsNotInItsWindow) {
    int in_time = 0;
    int late = 0;
    for (const PlannedTree& planned : plan(every_tree()).trees) {
        const bool injected = planned.card.application == treat::Application::trunk_injection;
        const bool warned = std::ranges::any_of(
            planned.findings,
            [](const treat::Finding& finding) { return finding.id == "outside-the-window"; });
        EXPECT_EQ(warned, !injected) << planned.tree.label;
        (injected ? in_time : late) += 1;
    }
    EXPECT_GT(in_time, 0);
    EXPECT_GT(late, 0);
    // Where no tree is named, such a tree takes no part in the day and no room on the acre.
    const PlannedWork work = plan();
    EXPECT_EQ(work.trees.size(), static_cast<std::size_t>(in_time));
    EXPECT_EQ(std::ranges::count_if(work.left_out,
                                    [](const LeftOut& out) {
                                        return out.why.find("window of its method has passed") !=
                                               std::string::npos;
                                    }),
              late);
}

TEST_F(PlanWork, LeavesOutATreeThatWasTreatedWithAnotherProductThisYearUnlessItIsNamed) {
    const PlannedTree tree = plan().trees.front();
    treat::SiteHistory before;
    before.on_trees = {{tree.tree.id, "inventine", measure::parse_date("2026-01-01")}};
    const PlannedWork work = plan({}, before);
    EXPECT_THAT(labels(work), Not(Contains(tree.tree.label)));
    EXPECT_THAT(work.left_out, Contains(AllOf(Field(&LeftOut::label, tree.tree.label),
                                              Field(&LeftOut::why, HasSubstr("inventine")))));
    before.on_trees.front().on = measure::parse_date("2025-12-31");
    EXPECT_THAT(labels(plan({}, before)), Contains(tree.tree.label));
}

TEST_F(PlanWork, WarnsOfATreeThatWasTreatedWithAnotherProductWithinAYear) {
    const PlannedTree tree = plan().trees.front();
    const auto warned = [&](const char* active, int days_ago) {
        treat::SiteHistory before;
        before.on_trees = {{tree.tree.id, active, measure::add_days(demo_day(), -days_ago)}};
        for (const PlannedTree& planned : plan(every_tree(), before).trees) {
            if (planned.tree.id != tree.tree.id) continue;
            return std::ranges::any_of(planned.findings, [](const treat::Finding& finding) {
                return finding.id == "treated-with-another";
            });
        }
        ADD_FAILURE() << "not planned";
        return false;
    };
    EXPECT_TRUE(warned("inventine", 0));
    EXPECT_TRUE(warned("inventine", 364));
    EXPECT_FALSE(warned("inventine", 365));
    EXPECT_FALSE(warned(tree.card.active_ingredient.c_str(), 364));
}

TEST_F(PlanWork, StopsAFoodTreeWhereTheLabelForbidsIt) {
    knowledge = with_labels([](treat::LabelCard& card) { card.never_food_trees = true; });
    EXPECT_FALSE(plan().any_stop());
    WorkAsked asked;
    asked.may_yield_food = true;
    for (const PlannedTree& planned : plan(asked).trees) {
        EXPECT_THAT(planned.findings, Contains(Field(&treat::Finding::id, "food-tree")));
    }
}

TEST_F(PlanWork, ByExampleCardsIsStopped) {
    knowledge = with_labels([](treat::LabelCard& card) {
        card.example = true;
        card.from_label.reset();
    });
    EXPECT_TRUE(plan().any_stop());
}

// Three trees of the property take emamectin, 0.2 g an inch. With room for less than all of them
// on the acre the most valued are kept, and the plan stays within the limit.
TEST_F(PlanWork, KeepsToTheAcreAndLeavesOutTheLeastValued) {
    const auto emamectin = [](const PlannedTree& tree) {
        return tree.card.active_ingredient == "emamectin benzoate";
    };
    const PlannedWork unlimited = plan();
    Mass all;
    for (const PlannedTree& tree : unlimited.trees) {
        if (emamectin(tree)) all += *tree.dose.active;
    }
    const measure::Area site = *property_with(knowledge).site.area;
    // Half of what they take together, spread over the site.
    const Mass per_acre =
        (all / 2).scaled(units::acre.ticks, site.ticks(), measure::Rounding::down);
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.active_ingredient != "emamectin benzoate") return;
        card.limits.active_per_acre_per_year = per_acre;
        card.limits.counted = {treat::CountedUse::injection};
    });
    const PlannedWork work = plan();
    Mass planned;
    int lowest_kept = 0;
    for (const PlannedTree& tree : work.trees) {
        if (!emamectin(tree)) continue;
        planned += *tree.dose.active;
        lowest_kept = std::max(lowest_kept, tree.rank);
    }
    EXPECT_GT(planned, Mass());
    const auto account = std::ranges::find(work.accounts, std::string("emamectin benzoate"),
                                           &treat::AcreAccount::active_ingredient);
    ASSERT_NE(account, work.accounts.end());
    EXPECT_LE(planned, account->allowed);
    EXPECT_EQ(account->over(), Mass());
    EXPECT_THAT(work.left_out,
                Contains(Field(&LeftOut::why, HasSubstr("the acre takes no more emamectin"))));
    // Nobody that is left out for want of room comes before anybody who is kept.
    for (const LeftOut& out : work.left_out) {
        if (out.why.find("the acre takes") == std::string::npos) continue;
        const auto tree = std::ranges::find_if(
            unlimited.trees, [&](const PlannedTree& each) { return each.tree.label == out.label; });
        ASSERT_NE(tree, unlimited.trees.end());
        EXPECT_GE(tree->rank, lowest_kept - 1);
    }
}

TEST_F(PlanWork, TakesOffWhatWasUsedOnTheSiteBefore) {
    treat::SiteHistory before;
    before.spent = {{"imidacloprid", treat::CountedUse::other, measure::parse_date("2026-04-01"),
                     Mass::of("450", units::gram)}};
    for (const auto& [used, says] : {std::pair{"450", "and the site takes 3.59 g more in 2026"},
                                     std::pair{"500", "the acre takes no more imidacloprid"}}) {
        before.spent.front().mass = Mass::of(used, units::gram);
        const PlannedWork work = plan(every_tree(), before);
        for (const PlannedTree& tree : work.trees) {
            EXPECT_NE(tree.card.active_ingredient, "imidacloprid");
        }
        EXPECT_THAT(work.left_out, Contains(Field(&LeftOut::why, HasSubstr(says))));
    }
}

TEST_F(PlanWork, SaysOfATreeThatTakesMoreThanTheWholeSiteMayThatItCannotBeTreatedByTheCard) {
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.active_per_acre_per_year = Mass::of("0.1", units::gram);
        card.limits.counted = {treat::counted_use(card.application)};
    });
    const PlannedWork work = plan();
    EXPECT_THAT(labels(work), testing::IsEmpty());
    EXPECT_THAT(work.left_out,
                Contains(Field(&LeftOut::why, HasSubstr("cannot be treated on this site"))));
}

// What else a product holds is kept to the limit of the card that limits it.
TEST_F(PlanWork, KeepsTheOtherActiveIngredientOfAProductToTheAcre) {
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.counted = {treat::CountedUse::injection, treat::CountedUse::soil};
        card.limits.active_per_acre_per_year.reset();
        if (card.active_ingredient == "emamectin benzoate") {
            card.other_actives = {{"imidacloprid", card.strength}};
        }
        if (card.active_ingredient == "imidacloprid") {
            card.limits.active_per_acre_per_year = Mass::of("2", units::gram);
        }
    });
    const PropertyAssessment property = property_with(knowledge);
    const long double acres = static_cast<long double>(property.site.area->ticks()) /
                              static_cast<long double>(units::acre.ticks);
    const auto grams = [](Mass mass) { return static_cast<long double>(mass.ticks()) / 1e9L; };
    const PlannedWork work = plan();
    long double planned = 0;
    int moved = 0;
    for (const PlannedTree& tree : work.trees) {
        if (treat::has_active(tree.card, "imidacloprid")) {
            planned += grams(active_of(tree));
        } else {
            ++moved;
        }
    }
    EXPECT_GT(planned, 0);
    EXPECT_LE(planned, 2 * acres + 1e-6L);
    EXPECT_GT(moved, 0);
}

TEST_F(PlanWork, StopsATreeThatWasTreatedTooLately) {
    const PlannedWork first = plan();
    treat::SiteHistory before;
    before.on_trees = {{first.trees.front().tree.id, first.trees.front().card.active_ingredient,
                        measure::parse_date("2026-03-01")}};
    const PlannedWork work = plan({}, before);
    EXPECT_TRUE(work.trees.front().stopped());
    EXPECT_THAT(work.trees.front().findings, Contains(Field(&treat::Finding::id, "too-soon")));
    for (std::size_t i = 1; i < work.trees.size(); ++i) EXPECT_FALSE(work.trees[i].stopped());
}

TEST_F(PlanWork, MovesATreeWithoutRoomToTheNextMethodThatFitsIt) {
    const PlannedWork first = plan();
    treat::SiteHistory before;
    before.spent = {{"emamectin benzoate", treat::CountedUse::other,
                     measure::parse_date("2026-04-01"), Mass::of("450", units::gram)}};
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.active_per_acre_per_year.reset();
        if (card.active_ingredient == "emamectin benzoate") {
            card.limits.active_per_acre_per_year = Mass::of("20", units::gram);
        }
    });
    const PlannedWork work = plan({}, before);
    int moved = 0;
    for (const PlannedTree& tree : work.trees) {
        EXPECT_NE(tree.card.active_ingredient, "emamectin benzoate");
        const bool marked = std::ranges::any_of(tree.findings, [](const treat::Finding& finding) {
            return finding.id == moved_finding;
        });
        const auto was = std::ranges::find_if(first.trees, [&](const PlannedTree& each) {
            return each.tree.label == tree.tree.label;
        });
        ASSERT_NE(was, first.trees.end());
        EXPECT_EQ(marked, was->card.active_ingredient == "emamectin benzoate");
        if (marked) {
            ++moved;
            EXPECT_FALSE(tree.stopped());
            EXPECT_FALSE(tree.card.limits.active_per_acre_per_year);
        }
    }
    EXPECT_GT(moved, 0);
}

TEST_F(PlanWork, LeavesATreeWithoutRoomForNextYearWhereEveryOtherLabelHasALimit) {
    treat::SiteHistory before;
    before.spent = {{"emamectin benzoate", treat::CountedUse::other,
                     measure::parse_date("2026-04-01"), Mass::of("450", units::gram)}};
    knowledge = with_labels([](treat::LabelCard& card) {
        card.limits.active_per_acre_per_year = Mass::of("20", units::gram);
    });
    const PlannedWork work = plan({}, before);
    EXPECT_THAT(work.left_out, Contains(Field(&LeftOut::why, HasSubstr("waits for 2027"))));
    for (const LeftOut& out : work.left_out) {
        EXPECT_EQ(out.for_want_of_room, out.why.find("takes no more") != std::string::npos);
    }
}

TEST_F(PlanWork, GivesNoRoomToATreeThatMayNotBeTreated) {
    const PlannedWork first = plan();
    treat::SiteHistory before;
    const PlannedTree& treated = first.trees.front();
    before.on_trees = {
        {treated.tree.id, treated.card.active_ingredient, measure::parse_date("2026-03-01")}};
    const std::string active = treated.card.active_ingredient;
    knowledge = with_labels([&](treat::LabelCard& card) {
        if (card.active_ingredient == active) {
            card.limits.active_per_acre_per_year = Mass::of("1000", units::gram);
        }
    });
    const PlannedWork work = plan({}, before);
    ASSERT_FALSE(work.accounts.empty());
    Mass expected;
    for (const PlannedTree& tree : work.trees) {
        if (tree.card.active_ingredient != active || tree.stopped()) continue;
        expected +=
            treat::active_in(tree.card.strength, tree.dose.find(treat::Part::product)->measured,
                             measure::Rounding::up);
    }
    for (const treat::AcreAccount& account : work.accounts) {
        if (account.active_ingredient != active) continue;
        EXPECT_EQ(account.planned, expected);
    }
}

TEST_F(PlanWork, PlansNothingByAnAccountThatCannotBeTold) {
    treat::SiteHistory before;
    before.untold = {{5, measure::parse_date("2026-05-01"), {}}};
    const PlannedWork work = plan({}, before);
    for (const PlannedTree& tree : work.trees) {
        EXPECT_FALSE(tree.card.limits.active_per_acre_per_year);
    }
    before.untold.front().on = measure::parse_date("2025-05-01");
    EXPECT_GT(plan({}, before).trees.size(), 0U);
}

TEST_F(PlanWork, RefusesToPlanByTheAcreOnASiteOfUnknownArea) {
    PropertyAssessment property = property_with(knowledge);
    property.site.area.reset();
    EXPECT_THROW(plan_work(property, knowledge, {}, every_tree()), measure::InputError);
}

}  // namespace
}  // namespace ashtriage::present
