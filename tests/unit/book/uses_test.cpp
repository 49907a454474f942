// Other uses of an active ingredient and raised allowances in the book.

#include "book/uses.hpp"

#include <gmock/gmock.h>

#include "book_folder.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {
namespace {

using measure::InputError;
using testing::ElementsAre;
using testing::IsEmpty;

class Uses : public BookFolder {
 protected:
    Uses() { site = book.add(example_site(book.add(example_client()))); }

    std::vector<RecordedOtherUse> uses_of(int year) const {
        return Book::open(path).other_uses(site, std::chrono::year{year});
    }

    std::filesystem::path path = in_folder("a.book");
    Book book = Book::create(path);
    observe::SiteId site = 0;
};

TEST_F(Uses, AreGivenBackByTheCalendarYear) {
    treat::OtherUse last_day = example_other_use(site);
    last_day.date = day("2026-12-31");
    last_day.id = book.add(last_day);
    treat::OtherUse first_day = example_other_use(site);
    first_day.date = day("2026-01-01");
    first_day.id = book.add(first_day);
    treat::OtherUse next_year = example_other_use(site);
    next_year.date = day("2027-01-01");
    next_year.id = book.add(next_year);
    EXPECT_THAT(standing(uses_of(2026)), ElementsAre(first_day, last_day));
    EXPECT_THAT(standing(uses_of(2027)), ElementsAre(next_year));
    EXPECT_THAT(uses_of(2025), IsEmpty());
}

TEST_F(Uses, AreCorrectedAndWithdrawn) {
    treat::OtherUse first = example_other_use(site);
    first.id = book.add(first);
    treat::OtherUse second = first;
    second.mass = measure::Mass::of("30", measure::units::gram);
    second.correction = example_correction(first.id);
    second.id = book.add(second);
    EXPECT_THAT(standing(uses_of(2026)), ElementsAre(second));
    EXPECT_THROW(book.add(second), InputError);  // corrected already
    treat::OtherUse third = second;
    third.correction = example_correction(second.id);
    third.correction->withdraws = true;
    book.add(third);
    EXPECT_THAT(standing(uses_of(2026)), IsEmpty());
    EXPECT_EQ(uses_of(2026).size(), 3U);
}

TEST_F(Uses, AreRefusedForASiteThatIsNotThereAndForNothing) {
    EXPECT_THROW(book.add(example_other_use(site + 1)), InputError);
    treat::OtherUse nothing = example_other_use(site);
    nothing.mass = measure::Mass{};
    EXPECT_THROW(book.add(nothing), InputError);
    EXPECT_EQ(book.info().other_uses, 0);
}

TEST_F(Uses, KeepRaisedAllowancesWithWhatConfirmsThem) {
    treat::RaisedAllowance raised = example_raised_allowance(site);
    raised.id = book.add(raised);
    EXPECT_THAT(standing(Book::open(path).raised_allowances(site)), ElementsAre(raised));
    treat::RaisedAllowance withdrawn = raised;
    withdrawn.correction = example_correction(raised.id);
    withdrawn.correction->withdraws = true;
    book.add(withdrawn);
    EXPECT_THAT(standing(book.raised_allowances(site)), IsEmpty());
    EXPECT_EQ(book.raised_allowances(site).size(), 2U);
    EXPECT_THAT(book.check(), IsEmpty());
}

TEST_F(Uses, RefuseAnAllowanceWithoutAReference) {
    treat::RaisedAllowance raised = example_raised_allowance(site);
    raised.reference.clear();
    EXPECT_THROW(book.add(raised), InputError);
    raised = example_raised_allowance(site + 1);
    EXPECT_THROW(book.add(raised), InputError);
    EXPECT_EQ(book.info().raised_allowances, 0);
}

}  // namespace
}  // namespace ashtriage::book
