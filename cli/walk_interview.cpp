#include "walk_interview.hpp"

#include <algorithm>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "observe/stem_text.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "present/words.hpp"
#include "triage/interview.hpp"
#include "triage/tables.hpp"

namespace ashtriage::cli {

namespace {

// One interview with what it needs at every step.
class TreeWalk {
 public:
    TreeWalk(Prompt& prompt, book::Book& book, const present::Knowledge& knowledge,
             const WalkRequest& request)
        : prompt_(prompt),
          book_(book),
          knowledge_(knowledge),
          rules_(knowledge.judge.rules()),
          request_(request) {}

    WalkEnd run() {
        take_up_draft();
        if (!ask_who_and_where() || !ask_stems()) return stopped();
        if (!ask_facts()) return stopped();
        if (!ask_notes()) return stopped();
        return file();
    }

 private:
    void take_up_draft() {
        if (const auto tree = book_.find_tree(request_.site.id, request_.tree)) tree_ = *tree;
        tree_.site = request_.site.id;
        tree_.label = request_.tree;
        draft_.place = tree_.place;
        draft_.observer = request_.observer;
        const auto kept = book_.find_draft(request_.site.id, request_.tree);
        if (!kept || request_.afresh) return;
        draft_ = walk_draft_from_json(kept->answers_json);
        prompt_.say("Going on with the walk-around of tree " + request_.tree + " begun on " +
                    measure::long_text(kept->updated) + ".");
    }

    void keep_draft() {
        if (request_.dry_run) return;
        book_.save_draft({request_.site.id, request_.tree, to_json(draft_), request_.date});
    }

    WalkEnd stopped() {
        keep_draft();
        prompt_.say(request_.dry_run ? "Stopped. This was a dry run: nothing was kept."
                                     : "Stopped. The answers are kept; the same command goes on "
                                       "from here.");
        return WalkEnd::stopped;
    }

    bool ask_who_and_where() {
        if (draft_.observer.empty() &&
            !prompt_.fill("Who is walking round the tree?", false,
                          [&](const std::string& text) { draft_.observer = text; })) {
            return false;
        }
        if (!draft_.place.empty() || !draft_.findings.empty()) return true;
        return prompt_.fill(
            "Where on the site does tree " + request_.tree + " stand? (Enter: leave open)", true,
            [&](const std::string& text) { draft_.place = text; });
    }

    const observe::WalkAround* previous_visit() {
        if (!previous_ && tree_.id != 0) previous_ = book_.latest_walk_around(tree_.id);
        return previous_ ? &*previous_ : nullptr;
    }

    observe::WalkAround walk_around() const {
        observe::WalkAround walk_around;
        walk_around.tree = tree_.id;
        walk_around.date = request_.date;
        walk_around.observer = draft_.observer;
        walk_around.stems = draft_.stems;
        return walk_around;
    }

    // Whether the stems may stand: every doubt about them has been put and answered with yes.
    std::optional<bool> stems_confirmed() {
        const triage::TreeFacts now = triage::tree_facts(rules_, &request_.site, walk_around());
        std::optional<triage::TreeFacts> before;
        if (const observe::WalkAround* previous = previous_visit()) {
            before = triage::tree_facts(rules_, &request_.site, *previous);
        }
        for (const std::string& note : now.notes) prompt_.say(note);
        for (const std::string& doubt :
             triage::doubtful_entries(now, before ? &*before : nullptr)) {
            prompt_.say(doubt);
            const auto keep = prompt_.yes_or_no("Keep it as it is? (yes or no)");
            if (!keep || !*keep) return keep;
        }
        return true;
    }

    bool ask_stems() {
        while (draft_.stems.empty()) {
            const bool answered = prompt_.fill(
                "Stem diameter at 4.5 ft, e.g. \"14 in\", \"girth 44 in\", or several stems \"10 "
                "in "
                "+ 8 in\"? (Enter: not measured)",
                true, [&](const std::string& text) {
                    draft_.stems = observe::parse_stems(text);
                    static_cast<void>(triage::tree_facts(rules_, &request_.site, walk_around()));
                });
            if (!answered) return false;
            if (draft_.stems.empty()) return true;
            const auto confirmed = stems_confirmed();
            if (!confirmed) {
                draft_.stems.clear();
                return false;
            }
            if (!*confirmed) draft_.stems.clear();
            keep_draft();
        }
        return true;
    }

    void help_with(reason::FactIndex fact) {
        const packs::FactText& text = rules_.facts[fact];
        prompt_.say(text.help);
        const auto& levels = rules_.model.facts[fact].levels;
        for (std::size_t i = 0; i < levels.size() && i < text.level_help.size(); ++i) {
            if (text.level_help[i].empty()) continue;
            prompt_.say("  " + packs::plain_name(levels[i]) + ": " + text.level_help[i]);
        }
        const bool number = rules_.model.facts[fact].kind == reason::FactKind::number;
        prompt_.say("Answer with " + packs::expected_text(rules_.model.facts[fact], text) +
                    (number ? "; a range such as 20-30 if you cannot tell closer" : "") +
                    "; \"-\" if you could not see it; \"unknown\" to leave it open; \"back\" for "
                    "the question before; \"stop\" to go on another time.");
    }

    bool ask_facts() {
        const triage::TreeFacts known = triage::tree_facts(rules_, &request_.site, walk_around());
        triage::Interview interview(rules_, knowledge_.judge.engine(), known.values,
                                    request_.with_assessor);
        for (const observe::Finding& finding : draft_.findings) {
            interview.answer(triage::fact_named(rules_, finding.fact), finding.value);
        }
        prompt_.say(
            "\"?\" tells what to look for, \"-\" if you could not see it, \"back\", "
            "\"stop\".");
        while (const auto fact = interview.next()) {
            const packs::FactText& text = rules_.facts[*fact];
            const Reply reply = prompt_.ask(
                text.ask + " [" + packs::expected_text(rules_.model.facts[*fact], text) + "]");
            if (reply.wish == Wish::stop) return false;
            if (reply.wish == Wish::help) {
                help_with(*fact);
                continue;
            }
            if (reply.wish == Wish::back) {
                if (!interview.back()) prompt_.say("This is the first question.");
            } else if (reply.text.empty()) {
                prompt_.say("Type \"-\" if you could not see it, \"?\" for help.");
                continue;
            } else {
                try {
                    interview.answer(*fact, reply.text);
                } catch (const measure::InputError& error) {
                    prompt_.say(error.what());
                    if (!error.hint().empty()) prompt_.say(error.hint());
                    continue;
                }
            }
            draft_.findings = interview.findings();
            keep_draft();
        }
        return true;
    }

    bool ask_notes() {
        return prompt_.fill("Anything else to note? (Enter: nothing)", true,
                            [&](const std::string& text) { notes_ = text; });
    }

    WalkEnd file() {
        observe::WalkAround done = walk_around();
        done.findings = draft_.findings;
        done.notes = notes_;
        if (!request_.dry_run) {
            book_.in_transaction([&] {
                if (tree_.id == 0) {
                    tree_.place = draft_.place;
                    tree_.id = book_.add(tree_);
                }
                done.tree = tree_.id;
                done.id = book_.add(done);
                book_.delete_draft(request_.site.id, request_.tree);
            });
        }
        const present::TreeAssessment assessed = present::assess_tree(
            knowledge_, &request_.site, tree_, done, previous_visit(), request_.date);
        prompt_.say(request_.dry_run ? "This was a dry run: nothing was kept."
                                     : "Kept in the book.");
        for (const triage::HazardFlag& flag : assessed.recommendation.flags) {
            prompt_.say("! " + present::outcome_heading(flag.flag) + ". " + flag.reason.because);
            if (!flag.reason.todo.empty()) prompt_.say("  Now: " + flag.reason.todo);
        }
        prompt_.say("Tree " + request_.tree + ": " + present::verdict(assessed.recommendation) +
                    ".");
        prompt_.say("\"ashtriage explain " + request_.tree + "\" gives the reasons.");
        return WalkEnd::finished;
    }

    Prompt& prompt_;
    book::Book& book_;
    const present::Knowledge& knowledge_;
    const packs::RuleSet& rules_;
    const WalkRequest& request_;
    observe::Tree tree_;
    WalkDraft draft_;
    std::optional<observe::WalkAround> previous_;
    std::string notes_;
};

}  // namespace

WalkEnd walk_round(Prompt& prompt, book::Book& book, const present::Knowledge& knowledge,
                   const WalkRequest& request) {
    return TreeWalk(prompt, book, knowledge, request).run();
}

}  // namespace ashtriage::cli
