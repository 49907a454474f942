// The five ash canopy classes say no more than their definitions do.
//
// Source: Knight, Flash, Kappler, Throckmorton, Grafton, Flower 2014, USFS GTR NRS-139. Classes 1
// (full canopy) and 5 (no leaves in the canopy) as restated by others; 2 (thinning, no dieback),
// 3 (dieback under half) and 4 (dieback over half) from memory. The scale has no step at a quarter
// or three quarters, so no class is turned into one figure between 0 and 100.
#include <gtest/gtest.h>

#include <array>
#include <optional>

#include "built_in_judge.hpp"

namespace ashtriage::published {
namespace {

struct CanopyClass {
    const char* name;
    std::optional<reason::Interval> loss;  // percent; nothing: the class does not say
};

const std::array<CanopyClass, 5>& canopy_classes() {
    static const std::array<CanopyClass, 5> classes{{
        {"class_1", reason::Interval::point(0)},
        {"class_2", std::nullopt},
        {"class_3", reason::Interval{0, 50, true, true}},
        {"class_4", reason::Interval{50, 100, true, true}},
        {"class_5", reason::Interval::point(100)},
    }};
    return classes;
}

TEST(CanopyClasses, NarrowTheLossAsFarAsTheyGo) {
    const auto loss = triage::fact_named(judge_with().rules(), "canopy_loss");
    for (const CanopyClass& rated : canopy_classes()) {
        const auto facts = facts_of({{"canopy_class", rated.name}});
        const reason::Interval* narrowed = facts.values[loss].interval();
        ASSERT_EQ(narrowed != nullptr, rated.loss.has_value()) << rated.name;
        if (narrowed != nullptr) {
            EXPECT_EQ(*narrowed, *rated.loss) << rated.name;
        }
        EXPECT_FALSE(facts.notes.empty()) << rated.name;
    }
}

std::set<std::string> answers(const char* canopy_class, const char* value) {
    return possible("recommendation", facts_of({{"canopy_class", canopy_class},
                                                {"species", "green_ash"},
                                                {"standing_dead", "no"},
                                                {"leaves", "in_leaf"},
                                                {"structure", "sound"},
                                                {"infestation_distance", "5 miles"},
                                                {"owner_value", value},
                                                {"site_quality", "good"},
                                                {"utility_conflict", "no"},
                                                {"treatment_history", "never"}}));
}

// With the published lines at 30 and 50 %: class 3 lies on both sides of 30 and short of 50, class
// 4 beyond 50 altogether.
TEST(CanopyClasses, DecideOnlyWhatTheyCanDecide) {
    using Names = std::set<std::string>;
    EXPECT_EQ(answers("class_1", "middle"), Names{"treat"});
    EXPECT_EQ(answers("class_2", "middle"), (Names{"remove", "treat"}));
    EXPECT_EQ(answers("class_3", "middle"), (Names{"remove", "treat"}));
    EXPECT_EQ(answers("class_3", "high"), Names{"treat"});
    EXPECT_EQ(answers("class_4", "high"), Names{"remove"});
    EXPECT_EQ(answers("class_5", "high"), Names{"remove"});
}

// Hughes, Sadof, Ginzel 2015, Table 1: from 10 % thinning on a crown is no longer in the full
// class. Class 1 is full, class 3 may be less than 10 % gone.
TEST(CanopyClasses, CountAsASignOfDeclineOnlyWhereTheyMust) {
    const auto evidence = [](const char* canopy_class) {
        return possible("evidence", facts_of({{"canopy_class", canopy_class},
                                              {"galleries_seen", "no"},
                                              {"larvae_seen", "no"},
                                              {"exit_holes", "0"},
                                              {"woodpecker_damage", "none"},
                                              {"bark_splits", "none"},
                                              {"epicormic_shoots", "none"},
                                              {"branch_breaks_at_union", "no"}}));
    };
    using Names = std::set<std::string>;
    EXPECT_EQ(evidence("class_1"), Names{"none"});
    EXPECT_EQ(evidence("class_3"), (Names{"none", "possible"}));
    EXPECT_EQ(evidence("class_4"), Names{"possible"});
    EXPECT_EQ(evidence("class_5"), Names{"possible"});
}

}  // namespace
}  // namespace ashtriage::published
