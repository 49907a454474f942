// A worse sign never leads to a milder answer: remove before treat before monitor.
//
// Published advice agrees on the direction (more loss, more signs: less worth treating, sooner to
// act), whatever figures it names.
#include <gtest/gtest.h>

#include <array>

#include "random_trees.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {
namespace {

enum class Mildness { remove, treat, monitor, out_of_scope };

Mildness mildness(const Judge& judge, const Entries& entries, const std::string& stems) {
    const packs::RuleSet& rules = judge.rules();
    const auto facts = tree_facts(rules, nullptr, walked(entries, stems));
    const auto index = *rules.model.find_table(table::recommendation);
    const auto answer = judge.engine().decide(index, facts.values).outcome();
    if (!answer) {
        ADD_FAILURE() << "a tree of which everything is known has no one answer";
        return Mildness::out_of_scope;
    }
    const std::string& name = rules.model.tables[index].gives[*answer];
    if (name == outcome::remove) return Mildness::remove;
    if (name == outcome::treat) return Mildness::treat;
    return name == outcome::monitor ? Mildness::monitor : Mildness::out_of_scope;
}

// One sign made worse step by step, everything else left as it is.
struct Ladder {
    const char* sign;
    std::vector<Entries> steps;
};

const std::vector<Ladder>& ladders() {
    static const std::vector<Ladder> all = [] {
        std::vector<Ladder> made;
        Ladder crown{"canopy loss", {}};
        for (const char* loss : {"0", "9", "10", "19", "20", "20.1", "29", "30", "35", "39", "40",
                                 "41", "50", "50.1", "70", "100"}) {
            crown.steps.push_back({{"canopy_dieback", loss}, {"canopy_thinning", loss}});
        }
        made.push_back(crown);
        const Entries no_sign{{"galleries_seen", "no"},
                              {"larvae_seen", "no"},
                              {"exit_holes", "0"},
                              {"exit_hole_shape", "does not apply"},
                              {"exit_hole_place", "does not apply"},
                              {"woodpecker_damage", "none"}};
        made.push_back(
            {"evidence",
             {no_sign, with(no_sign, {{"woodpecker_damage", "light"}}),
              with(no_sign, {{"woodpecker_damage", "heavy"}}),
              with(no_sign, {{"woodpecker_damage", "heavy"}, {"galleries_seen", "yes"}})}});
        made.push_back({"exit holes",
                        {no_sign,
                         with(no_sign, {{"exit_holes", "1"},
                                        {"exit_hole_shape", "d_shaped"},
                                        {"exit_hole_place", "middle"}}),
                         with(no_sign, {{"exit_holes", "2"},
                                        {"exit_hole_shape", "d_shaped"},
                                        {"exit_hole_place", "low_trunk"}})}});
        made.push_back(
            {"bark splits",
             {{{"bark_splits", "none"}}, {{"bark_splits", "few"}}, {{"bark_splits", "many"}}}});
        made.push_back({"shoots",
                        {{{"epicormic_shoots", "none"}},
                         {{"epicormic_shoots", "few"}},
                         {{"epicormic_shoots", "many"}}}});
        made.push_back({"structure",
                        {{{"structure", "sound"}},
                         {{"structure", "minor_defect"}},
                         {{"structure", "major_defect"}}}});
        made.push_back({"dead", {{{"standing_dead", "no"}}, {{"standing_dead", "yes"}}}});
        return made;
    }();
    return all;
}

// An ash without a fault, so that there is something to make worse; the rest is left to chance.
Entries faultless() {
    return {
        {"species", "white_ash"}, {"leaves", "in_leaf"},        {"standing_dead", "no"},
        {"canopy_dieback", "0"},  {"canopy_thinning", "0"},     {"galleries_seen", "no"},
        {"larvae_seen", "no"},    {"exit_holes", "0"},          {"woodpecker_damage", "none"},
        {"bark_splits", "none"},  {"epicormic_shoots", "none"}, {"structure", "sound"},
        {"bark_deformity", "no"}, {"large_wounds", "no"},       {"branch_breaks_at_union", "no"}};
}

void climb_every_ladder(const std::string& preset, int trees) {
    const Judge judge = judge_with(preset);
    RandomTrees random(judge.rules(), 4711);
    std::array<int, 4> met{};
    for (int tree = 0; tree < trees; ++tree) {
        const Entries entries = tree % 2 == 0 ? random.findings() : random.findings(faultless());
        const std::string stems = random.stems();
        for (const Ladder& ladder : ladders()) {
            Mildness before = Mildness::out_of_scope;
            for (std::size_t step = 0; step < ladder.steps.size(); ++step) {
                const Mildness now = mildness(judge, with(entries, ladder.steps[step]), stems);
                ++met[static_cast<std::size_t>(now)];
                ASSERT_LE(now, before)
                    << "preset '" << preset << "', tree " << tree << ": more " << ladder.sign
                    << " leads to a milder answer at step " << step;
                before = now;
            }
        }
    }
    for (const int count : met) EXPECT_GT(count, 0) << "some answer was never met under " << preset;
}

TEST(WorseSigns, NeverLeadToAMilderAnswer) {
    climb_every_ladder("", 400);
}

TEST(WorseSigns, NeverLeadToAMilderAnswerUnderAnyPreset) {
    ASSERT_GE(built_in_rules().presets.size(), 8U);
    for (const packs::Preset& preset : built_in_rules().presets) {
        climb_every_ladder(preset.name, 100);
    }
}

// The distance decides when to act: nearer is never a milder answer.
TEST(ANearerInfestation, NeverLeadsToAMilderAnswer) {
    RandomTrees random(built_in_rules(), 99);
    for (int tree = 0; tree < 300; ++tree) {
        const Entries entries = random.findings();
        Mildness before = Mildness::out_of_scope;
        for (const char* distance : {"500", "15.1", "15", "5", "0"}) {
            const Mildness now = mildness(
                built_in_judge(), with(entries, {{"infestation_distance", distance}}), "12 in");
            ASSERT_LE(now, before) << "tree " << tree << " at " << distance << " mi";
            before = now;
        }
    }
}

}  // namespace
}  // namespace ashtriage::triage
