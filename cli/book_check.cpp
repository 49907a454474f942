#include "book_check.hpp"

#include "knowledge.hpp"
#include "measure/input_error.hpp"
#include "present/stored_answer.hpp"

namespace ashtriage::cli {

RecommendationCheck check_recommendations(const Options& options, const book::Book& book) {
    const present::Knowledge knowledge = load_knowledge(options);
    RecommendationCheck result;
    for (const observe::Site& site : book.sites()) {
        for (const observe::Tree& tree : book.trees(site.id)) {
            for (const book::StoredRecommendation& stored : book.recommendations(tree.id)) {
                if (stored.hash != knowledge.judge.rules().hash) {
                    ++result.other_rules;
                } else if (present::comes_out_the_same(knowledge.judge, stored)) {
                    ++result.same;
                } else {
                    result.problems.push_back("The recommendation of " +
                                              measure::text(stored.date) + " for tree \"" +
                                              tree.label + "\" at \"" + site.name +
                                              "\" does not come out the same by the same rules.");
                }
            }
        }
    }
    return result;
}

}  // namespace ashtriage::cli
