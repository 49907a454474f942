// Applications in the book come back as they were written, are corrected and never changed, and are
// refused where they cannot be true.

#include "book/applications.hpp"

#include <gmock/gmock.h>

#include "book_folder.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {
namespace {

using measure::InputError;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class Applications : public BookFolder {
 protected:
    Applications() {
        site = book.add(example_site(book.add(example_client())));
        tree = book.add(example_tree(site, "A-1"));
    }
    template <class Work>
    std::string refusal_of(Work&& work) {
        try {
            std::forward<Work>(work)();
        } catch (const InputError& error) {
            return error.what();
        }
        ADD_FAILURE() << "nothing was refused";
        return {};
    }
    treat::ApplicationRecord stored(treat::ApplicationRecord record) {
        record.id = book.add(record);
        return record;
    }

    std::filesystem::path path = in_folder("a.book");
    Book book = Book::create(path);
    observe::SiteId site = 0;
    observe::TreeId tree = 0;
};

TEST_F(Applications, GiveBackEveryFieldAsItWas) {
    const treat::ApplicationRecord record = stored(example_application(site, tree));
    const Book later = Book::open(path);
    EXPECT_THAT(later.applications(site), ElementsAre(RecordedApplication{record, {}}));
    EXPECT_THAT(later.applications_of_tree(tree), ElementsAre(RecordedApplication{record, {}}));
    EXPECT_EQ(later.find_application(record.id)->record, record);
    EXPECT_THAT(later.check(), IsEmpty());
}

TEST_F(Applications, GiveBackAnUnfinishedRecordWithNothingAdded) {
    treat::ApplicationRecord record = treat::test::bare_record();
    record.site = site;
    record = stored(record);
    EXPECT_EQ(book.find_application(record.id)->record, record);
}

TEST_F(Applications, KeepAWeightAndAVolumeApart) {
    treat::ApplicationRecord record = example_application(site, tree);
    record.trees.pop_back();
    record.trees.front().product = measure::Mass::of("45.3", measure::units::gram);
    record.total_product = measure::Mass::of("45.3", measure::units::gram);
    record.planned_product = measure::Mass::of("46", measure::units::gram);
    record.dilution->product = measure::Mass::of("45.3", measure::units::gram);
    record.extent = treat::Extent{measure::Length::of("30", measure::units::foot), "ft"};
    record = stored(record);
    EXPECT_EQ(Book::open(path).find_application(record.id)->record, record);
}

TEST_F(Applications, AreFoundNowhereElse) {
    stored(example_application(site, tree));
    EXPECT_THAT(book.applications(site + 1), IsEmpty());
    EXPECT_THAT(book.applications_of_tree(tree + 1), IsEmpty());
    EXPECT_FALSE(book.find_application(99));
    EXPECT_THAT(book.application_history(99), IsEmpty());
}

TEST_F(Applications, AreCorrectedByANewRecordThatStandsInTheirPlace) {
    const treat::ApplicationRecord first = stored(example_application(site, tree));
    treat::ApplicationRecord second = first;
    second.correction = example_correction(first.id);
    second.wind_speed.reset();
    second = stored(second);

    EXPECT_THAT(book.applications(site), ElementsAre(RecordedApplication{first, second.id},
                                                     RecordedApplication{second, {}}));
    EXPECT_THAT(standing(book.applications(site)), ElementsAre(second));
    EXPECT_THAT(book.application_history(first.id), book.application_history(second.id));
    ASSERT_EQ(book.application_history(second.id).size(), 2U);
    EXPECT_EQ(book.application_history(second.id).front().record, first);
}

TEST_F(Applications, ThatAreWithdrawnNoLongerStand) {
    const treat::ApplicationRecord first = stored(example_application(site, tree));
    treat::ApplicationRecord second = first;
    second.correction = example_correction(first.id);
    second.correction->withdraws = true;
    stored(second);
    EXPECT_THAT(standing(book.applications(site)), IsEmpty());
    EXPECT_EQ(book.applications(site).size(), 2U);
}

TEST_F(Applications, AreNotCorrectedTwice) {
    const treat::ApplicationRecord first = stored(example_application(site, tree));
    treat::ApplicationRecord second = first;
    second.correction = example_correction(first.id);
    second = stored(second);
    EXPECT_THAT(refusal_of([&] { book.add(second); }), HasSubstr("has been corrected already"));
    second.correction = example_correction(99);
    EXPECT_THAT(refusal_of([&] { book.add(second); }), HasSubstr("no application number 99"));
    EXPECT_EQ(book.applications(site).size(), 2U);
}

TEST_F(Applications, KeepTheDayOfTheFirstRecordAndTheOrderOfCorrections) {
    const treat::ApplicationRecord first = stored(example_application(site, tree));
    treat::ApplicationRecord second = first;
    second.correction = example_correction(first.id);
    second.written_on = day("2026-05-19");
    EXPECT_THAT(refusal_of([&] { book.add(second); }), HasSubstr("2026-05-18"));
    second.written_on = first.written_on;
    second = stored(second);
    treat::ApplicationRecord third = second;
    third.correction = example_correction(second.id);
    third.correction->on = day("2026-05-20");
    EXPECT_THAT(refusal_of([&] { book.add(third); }), HasSubstr("dated before"));
}

TEST_F(Applications, AreRefusedForAPlaceOrATreeThatIsNotThere) {
    treat::ApplicationRecord record = example_application(site + 1, tree);
    EXPECT_THROW(book.add(record), InputError);
    record = example_application(site, tree + 1);
    EXPECT_THROW(book.add(record), InputError);
    observe::Site other_site = example_site(1);
    other_site.name = "Elsewhere";
    const observe::TreeId elsewhere = book.add(example_tree(book.add(other_site), "A-1"));
    record = example_application(site, elsewhere);
    EXPECT_THAT(refusal_of([&] { book.add(record); }), HasSubstr("A-1"));
    EXPECT_THAT(book.applications(site), IsEmpty());
}

TEST_F(Applications, ThatCannotBeTrueAreRefusedWhole) {
    treat::ApplicationRecord record = example_application(site, tree);
    record.finished = treat::LocalTime{record.started->minutes - 1};
    EXPECT_THROW(book.add(record), InputError);
    EXPECT_EQ(book.info().applications, 0);
    EXPECT_THAT(book.check(), IsEmpty());
}

TEST_F(Applications, AreListedByTheDayOfTheWork) {
    treat::ApplicationRecord later = example_application(site, tree);
    later.work_date = day("2026-05-30");
    later.written_on = later.work_date;
    later.customer_copy_given_on.reset();
    later = stored(later);
    const treat::ApplicationRecord earlier = stored(example_application(site, tree));
    EXPECT_THAT(standing(book.applications(site)), ElementsAre(earlier, later));
}

}  // namespace
}  // namespace ashtriage::book
