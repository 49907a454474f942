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

    std::vector<RecordedOtherUse> uses() const { return Book::open(path).other_uses(site); }

    std::filesystem::path path = in_folder("a.book");
    Book book = Book::create(path);
    observe::SiteId site = 0;
};

TEST_F(Uses, AreGivenBackByTheirDate) {
    treat::OtherUse later = example_other_use(site);
    later.date = day("2027-01-01");
    later.id = book.add(later);
    treat::OtherUse earlier = example_other_use(site);
    earlier.date = day("2026-12-31");
    earlier.id = book.add(earlier);
    EXPECT_THAT(standing(uses()), ElementsAre(earlier, later));
    EXPECT_EQ(book.find_other_use(earlier.id)->record, earlier);
    EXPECT_FALSE(book.find_other_use(99));
}

TEST_F(Uses, AreCorrectedAndWithdrawn) {
    treat::OtherUse first = example_other_use(site);
    first.id = book.add(first);
    treat::OtherUse second = first;
    second.mass = measure::Mass::of("30", measure::units::gram);
    second.correction = example_correction(first.id);
    second.id = book.add(second);
    EXPECT_THAT(standing(uses()), ElementsAre(second));
    EXPECT_THROW(book.add(second), InputError);  // corrected already
    treat::OtherUse third = second;
    third.correction = example_correction(second.id);
    third.correction->withdraws = true;
    book.add(third);
    EXPECT_THAT(standing(uses()), IsEmpty());
    EXPECT_EQ(uses().size(), 3U);
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
