// What is written into the book comes out the same.

#include <gmock/gmock.h>

#include <cstdint>
#include <limits>

#include "book/schema.hpp"
#include "book_folder.hpp"

namespace ashtriage::book {
namespace {

using measure::Length;
using testing::ElementsAre;
using testing::HasSubstr;

class Records : public BookFolder {
 protected:
    Records() {
        client.id = book.add(client);
        site = example_site(client.id);
        site.id = book.add(site);
        tree = example_tree(site.id, "A-1");
        tree.id = book.add(tree);
    }
    Book reopened() const { return Book::open(path, Mode::read_only); }

    std::filesystem::path path = in_folder("a.book");
    Book book = Book::create(path);
    observe::Client client = example_client();
    observe::Site site;
    observe::Tree tree;
};

// What an attempt is refused with; empty when it is not refused.
template <class Work>
std::string refusal(Work&& work) {
    try {
        std::forward<Work>(work)();
        return {};
    } catch (const BookError& error) {
        ADD_FAILURE() << "bad input, yet blamed on the book: " << error.what();
        return error.what();
    } catch (const measure::InputError& error) {
        return error.what();
    }
}

TEST_F(Records, GivesBackEveryFieldAsItWas) {
    EXPECT_THAT(reopened().clients(), ElementsAre(client));
    EXPECT_THAT(reopened().sites(), ElementsAre(site));
    EXPECT_THAT(reopened().trees(site.id), ElementsAre(tree));

    observe::WalkAround walk_around = example_walk_around(tree.id, "2026-05-18");
    walk_around.id = book.add(walk_around);
    EXPECT_EQ(reopened().latest_walk_around(tree.id), walk_around);

    StoredRecommendation recommendation =
        example_recommendation(tree.id, walk_around.id, "2026-05-18");
    recommendation.id = book.add(recommendation);
    EXPECT_EQ(reopened().latest_recommendation(tree.id), recommendation);
    EXPECT_THAT(book.check(), testing::IsEmpty());
}

TEST_F(Records, GivesBackWhatWasLeftOut) {
    observe::Site bare;
    bare.client = client.id;
    bare.name = "Bare";
    bare.id = book.add(bare);
    observe::Tree bare_tree;
    bare_tree.site = bare.id;
    bare_tree.label = "1";
    bare_tree.id = book.add(bare_tree);
    observe::WalkAround nothing_seen;
    nothing_seen.tree = bare_tree.id;
    nothing_seen.date = day("1999-12-31");
    nothing_seen.observer = "x";
    nothing_seen.id = book.add(nothing_seen);
    EXPECT_EQ(reopened().find_site("Bare"), bare);
    EXPECT_EQ(reopened().find_tree(bare.id, "1"), bare_tree);
    EXPECT_EQ(reopened().latest_walk_around(bare_tree.id), nothing_seen);
}

TEST_F(Records, KeepsQuantitiesToTheLastTick) {
    constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
    observe::Site exact = site;
    exact.name = "Exact";
    exact.area = measure::Area::from_ticks(most);
    exact.distance_to_water = Length::from_ticks(0);
    exact.infestation_distance = Length::from_ticks(most - 1);
    exact.in_quarantined_county = false;
    exact.position = observe::Position{-0.1, 180.0, Length::from_ticks(-413'000'000'001)};
    exact.id = book.add(exact);
    EXPECT_EQ(reopened().find_site(exact.id), exact);

    observe::WalkAround walk_around = example_walk_around(tree.id, "2026-05-18");
    // 2^53 + 1 is the first whole number that a double cannot hold.
    walk_around.stems = {{observe::StemMeasure::girth, Length::from_ticks(9'007'199'254'740'993)},
                         {observe::StemMeasure::diameter, Length::from_ticks(1)}};
    walk_around.id = book.add(walk_around);
    EXPECT_EQ(reopened().latest_walk_around(tree.id), walk_around);
}

TEST_F(Records, KeepsTextsThatLookLikeSomethingElse) {
    for (const char* label : {"'; DROP TABLE trees; --", "NULL", "007", "1e3", "%s{}", "\"A\"",
                              "e\u0301", "\u00e9", "a-1"}) {
        observe::Tree odd = example_tree(site.id, label);
        odd.id = book.add(odd);
        EXPECT_EQ(reopened().find_tree(site.id, label), odd) << label;
    }
}

TEST_F(Records, RefusesTextThatIsNotUtf8) {
    EXPECT_THAT(refusal([&] { book.add(example_tree(site.id, "caf\xe9")); }), HasSubstr("UTF-8"));
    EXPECT_THAT(book.trees(site.id), ElementsAre(tree));
}

TEST_F(Records, FindsNothingWhereThereIsNothing) {
    EXPECT_FALSE(book.find_site("Nowhere"));
    EXPECT_FALSE(book.find_site(observe::SiteId{99}));
    EXPECT_FALSE(book.find_client(99));
    EXPECT_FALSE(book.find_tree(site.id, "B"));
    EXPECT_FALSE(book.find_tree(99));
    EXPECT_FALSE(book.find_walk_around(99));
    EXPECT_FALSE(book.latest_walk_around(tree.id));
    EXPECT_FALSE(book.latest_recommendation(tree.id));
    EXPECT_THAT(book.trees(99), testing::IsEmpty());
}

TEST_F(Records, RefusesANameThatIsTaken) {
    EXPECT_THAT(refusal([&] { book.add(example_site(client.id)); }), HasSubstr("'Mill Lane'"));
    EXPECT_THAT(refusal([&] { book.add(example_tree(site.id, "A-1")); }), HasSubstr("'A-1'"));
    observe::Site other = example_site(client.id);
    other.name = "Hill Lane";
    const observe::SiteId other_id = book.add(other);
    EXPECT_EQ(refusal([&] { book.add(example_tree(other_id, "A-1")); }), "");
}

TEST_F(Records, RefusesWhatBelongsToNothing) {
    EXPECT_THAT(refusal([&] {
                    observe::Site orphan = example_site(99);
                    orphan.name = "Orphan";
                    book.add(orphan);
                }),
                HasSubstr("no client number 99"));
    EXPECT_THAT(refusal([&] { book.add(example_tree(99, "B")); }), HasSubstr("no site number 99"));
    EXPECT_THAT(refusal([&] { book.add(example_walk_around(99, "2026-05-18")); }),
                HasSubstr("no tree number 99"));
    EXPECT_THAT(refusal([&] { book.add(example_recommendation(tree.id, 99, "2026-05-18")); }),
                HasSubstr("no walk-around number 99"));
}

TEST_F(Records, KeepsWhatADescriptionSaidBefore) {
    observe::Client moved = client;
    moved.address = "2 Example Road";
    book.update(moved, day("2026-06-01"));
    moved.telephone = "555-0101";
    book.update(moved, day("2026-06-08"));
    EXPECT_EQ(reopened().find_client(client.id), moved);
    const std::vector<EarlierDescription> earlier = reopened().earlier_of_client(client.id);
    ASSERT_EQ(earlier.size(), 2U);
    EXPECT_EQ(earlier[0].changed_on, day("2026-06-01"));
    EXPECT_THAT(earlier[0].description, HasSubstr(R"("address":"1 Example Road\nSampleton")"));
    EXPECT_EQ(earlier[1].changed_on, day("2026-06-08"));
    EXPECT_THAT(earlier[1].description, HasSubstr(R"("address":"2 Example Road")"));

    observe::Tree renamed = tree;
    renamed.label = "A-1b";
    book.update(renamed, day("2026-06-01"));
    EXPECT_EQ(book.find_tree(site.id, "A-1b"), renamed);
    EXPECT_FALSE(book.find_tree(site.id, "A-1"));
    EXPECT_EQ(book.earlier_of_tree(tree.id).size(), 1U);
    EXPECT_THAT(book.earlier_of_site(site.id), testing::IsEmpty());
    EXPECT_THAT(book.check(), testing::IsEmpty());
}

TEST_F(Records, RefusesAChangeThatClashes) {
    observe::Tree second = example_tree(site.id, "A-2");
    second.id = book.add(second);
    second.label = "A-1";
    EXPECT_THAT(refusal([&] { book.update(second, day("2026-06-01")); }), HasSubstr("'A-1'"));
    observe::Site stranger = site;
    stranger.id = 99;
    stranger.name = "Elsewhere";
    EXPECT_THAT(refusal([&] { book.update(stranger, day("2026-06-01")); }),
                HasSubstr("no site number 99"));
    observe::Site other = site;
    other.name = "Hill Lane";
    other.id = book.add(other);
    observe::Tree moved = tree;
    moved.site = other.id;
    EXPECT_THAT(refusal([&] { book.update(moved, day("2026-06-01")); }), HasSubstr("another site"));
    EXPECT_EQ(book.find_tree(tree.id), tree);
    EXPECT_THAT(book.earlier_of_tree(second.id), testing::IsEmpty());
}

TEST_F(Records, ListsWalkAroundsOldestFirstAndMarksTheSupersededOnes) {
    const observe::WalkAroundId may = book.add(example_walk_around(tree.id, "2026-05-18"));
    const observe::WalkAroundId year_before = book.add(example_walk_around(tree.id, "2025-05-18"));
    observe::WalkAround correction = example_walk_around(tree.id, "2026-05-18");
    correction.supersedes = may;
    correction.findings[0].value = "30-40 %";
    correction.id = book.add(correction);

    const std::vector<FiledWalkAround> all = book.walk_arounds(tree.id);
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[0].seen.id, year_before);
    EXPECT_EQ(all[0].superseded_by, std::nullopt);
    EXPECT_EQ(all[1].seen.id, may);
    EXPECT_EQ(all[1].superseded_by, correction.id);
    EXPECT_EQ(all[1].seen.findings[0].value, "20-30 %");
    EXPECT_EQ(all[2].seen, correction);
    EXPECT_EQ(book.latest_walk_around(tree.id), correction);
}

TEST_F(Records, TakesTheLatestDateAndOfOneDayTheLaterRecord) {
    book.add(example_walk_around(tree.id, "2026-05-18"));
    const observe::WalkAroundId evening = book.add(example_walk_around(tree.id, "2026-05-18"));
    book.add(example_walk_around(tree.id, "2024-05-18"));  // typed in later from an old sheet
    EXPECT_EQ(book.latest_walk_around(tree.id)->id, evening);

    book.add(example_recommendation(tree.id, evening, "2026-05-20"));
    const RecommendationId second =
        book.add(example_recommendation(tree.id, evening, "2026-05-20"));
    book.add(example_recommendation(tree.id, evening, "2026-05-19"));
    EXPECT_EQ(book.latest_recommendation(tree.id)->id, second);
    EXPECT_EQ(book.recommendations(tree.id).size(), 3U);
}

TEST_F(Records, FallsBackToAnEarlierDateWhenTheLatestIsCorrectedToIt) {
    const observe::WalkAroundId wrong_year = book.add(example_walk_around(tree.id, "2026-05-18"));
    const observe::WalkAroundId other = book.add(example_walk_around(tree.id, "2026-03-01"));
    observe::WalkAround correction = example_walk_around(tree.id, "2025-05-18");
    correction.supersedes = wrong_year;
    book.add(correction);
    EXPECT_EQ(book.latest_walk_around(tree.id)->id, other);
}

TEST_F(Records, RefusesACorrectionOfWhatIsNotThereOrCorrectedAlready) {
    const observe::WalkAroundId first = book.add(example_walk_around(tree.id, "2026-05-18"));
    observe::WalkAround correction = example_walk_around(tree.id, "2026-05-18");
    correction.supersedes = 99;
    EXPECT_THAT(refusal([&] { book.add(correction); }), HasSubstr("no walk-around number 99"));
    correction.supersedes = first;
    const observe::WalkAroundId second = book.add(correction);
    EXPECT_THAT(refusal([&] { book.add(correction); }), HasSubstr("corrected already"));
    correction.supersedes = second;  // a correction of the correction
    EXPECT_EQ(refusal([&] { book.add(correction); }), "");

    observe::WalkAround elsewhere =
        example_walk_around(book.add(example_tree(site.id, "A-2")), "2026-05-18");
    elsewhere.supersedes = first;
    EXPECT_THAT(refusal([&] { book.add(elsewhere); }), HasSubstr("of this tree"));
}

TEST_F(Records, RefusesARecommendationThatCouldNotBeWorkedOutAgain) {
    const observe::WalkAroundId seen = book.add(example_walk_around(tree.id, "2026-05-18"));
    const StoredRecommendation good = example_recommendation(tree.id, seen, "2026-05-18");
    const auto refused = [&](auto&& change) {
        StoredRecommendation bad = good;
        change(bad);
        return refusal([&] { book.add(bad); });
    };
    EXPECT_THAT(refused([](auto& bad) { bad.possible.clear(); }), HasSubstr("no outcome"));
    EXPECT_THAT(refused([](auto& bad) { bad.firm = true; }), HasSubstr("firm"));
    EXPECT_THAT(refused([](auto& bad) { bad.edition.clear(); }), HasSubstr("edition"));
    EXPECT_THAT(refused([](auto& bad) { bad.hash.clear(); }), HasSubstr("hash"));
    EXPECT_THAT(refused([](auto& bad) { bad.reasons_json = "{"; }), HasSubstr("JSON"));
    EXPECT_THAT(refused([](auto& bad) { bad.flags_json = ""; }), HasSubstr("JSON"));
    EXPECT_THAT(refused([](auto& bad) { bad.date = day("2026-05-17"); }), HasSubstr("before"));
    EXPECT_THAT(refused([](auto& bad) { bad.date = {}; }), HasSubstr("date"));
    EXPECT_THAT(book.recommendations(tree.id), testing::IsEmpty());
}

TEST_F(Records, TakesUpAnInterruptedWalkAroundAgain) {
    const Draft first{site.id, "A-9", R"({"canopy_loss":"40 %"})", day("2026-05-18")};
    book.save_draft(first);
    EXPECT_EQ(reopened().find_draft(site.id, "A-9"), first);
    const Draft second{site.id, "A-9", R"({"canopy_loss":"40 %","holes":2})", day("2026-05-19")};
    book.save_draft(second);
    EXPECT_THAT(reopened().drafts(), ElementsAre(second));
    book.delete_draft(site.id, "A-9");
    EXPECT_FALSE(reopened().find_draft(site.id, "A-9"));
    EXPECT_THAT(refusal([&] {
                    book.save_draft({site.id, "A-9", "{", day("2026-05-18")});
                }),
                HasSubstr("JSON"));
    EXPECT_THAT(refusal([&] {
                    book.save_draft({99, "A-9", "{}", day("2026-05-18")});
                }),
                HasSubstr("no site"));
}

TEST_F(Records, KeepsAllOfATransactionOrNothing) {
    EXPECT_THROW(book.in_transaction([&] {
        book.add(example_tree(site.id, "B-1"));
        book.add(example_tree(site.id, "A-1"));  // taken
    }),
                 measure::InputError);
    EXPECT_THAT(reopened().trees(site.id), ElementsAre(tree));

    const observe::TreeId kept =
        book.in_transaction([&] { return book.add(example_tree(site.id, "B-1")); });
    EXPECT_TRUE(reopened().find_tree(kept));
}

TEST_F(Records, LeavesNoPartOfARefusedRecordInATransactionThatGoesOn) {
    observe::WalkAround bad = example_walk_around(tree.id, "2026-05-18");
    bad.findings.push_back({"note", "caf\xe9"});  // found out only after the stems are written
    book.in_transaction([&] {
        EXPECT_THROW(book.add(bad), measure::InputError);
        book.add(example_walk_around(tree.id, "2026-05-19"));
    });
    EXPECT_EQ(reopened().walk_arounds(tree.id).size(), 1U);
    EXPECT_THAT(reopened().check(), testing::IsEmpty());
}

TEST_F(Records, KeepsNothingOfARehearsal) {
    const Content before = content_of(book);
    const std::size_t during = book.rehearse([&] {
        book.add(example_tree(site.id, "B-1"));
        return book.trees(site.id).size();
    });
    EXPECT_EQ(during, 2U);
    EXPECT_EQ(content_of(book), before);
}

TEST_F(Records, CountsWhatItHolds) {
    book.add(example_walk_around(tree.id, "2026-05-18"));
    const BookInfo info = reopened().info();
    EXPECT_EQ(info.path, path);
    EXPECT_EQ(info.edition, newest_edition());
    EXPECT_EQ(info.clients, 1);
    EXPECT_EQ(info.sites, 1);
    EXPECT_EQ(info.trees, 1);
    EXPECT_EQ(info.walk_arounds, 1);
    EXPECT_EQ(info.recommendations, 0);
    EXPECT_EQ(info.drafts, 0);
    EXPECT_EQ(info.size_in_bytes, static_cast<std::int64_t>(std::filesystem::file_size(path)));
}

TEST_F(Records, TakesAWholeCityInOneTransaction) {
    constexpr int trees = 10'000;
    book.in_transaction([&] {
        for (int i = 0; i < trees; ++i) {
            const observe::TreeId id = book.add(example_tree(site.id, "C-" + std::to_string(i)));
            if (i % 10 == 0) book.add(example_walk_around(id, "2026-05-18"));
        }
    });
    const Book later = reopened();
    EXPECT_EQ(later.info().trees, trees + 1);
    EXPECT_EQ(later.info().walk_arounds, trees / 10);
    const std::vector<observe::Tree> all = later.trees(site.id);
    ASSERT_EQ(all.size(), std::size_t{trees} + 1);
    EXPECT_EQ(all.back().label, "C-9999");
    EXPECT_EQ(all.back().place, tree.place);
    EXPECT_THAT(later.check(), testing::IsEmpty());
}

}  // namespace
}  // namespace ashtriage::book
