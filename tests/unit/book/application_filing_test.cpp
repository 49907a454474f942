// A sheet becomes a record of the book: what the card knows is filled in, and what contradicts it
// is refused.

#include "book/application_filing.hpp"

#include <gmock/gmock.h>

#include "../treat/card_text.hpp"
#include "book/site_history.hpp"
#include "book_folder.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {
namespace {

using measure::InputError;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
namespace units = measure::units;

class ApplicationFiling : public BookFolder {
 protected:
    ApplicationFiling() {
        site = book.add(example_site(book.add(example_client())));
        tree = book.add(example_tree(site, "A-1"));
        sheet.site = "Mill Lane";
        sheet.record.written_on = day("2026-05-18");
        sheet.record.work_date = day("2026-05-18");
        sheet.record.label_card = "invented-spray";
        sheet.record.trees = {{.tree = {},
                               .label = "A-1",
                               .dbh = {},
                               .product = measure::Volume::of("100", units::millilitre),
                               .mix = {},
                               .rate = {}}};
    }
    treat::ApplicationRecord made() const { return application_of(book, sheet, &card, "the card"); }
    std::string refusal() const {
        try {
            made();
        } catch (const InputError& error) {
            return std::string(error.what()) + " " + error.hint();
        }
        ADD_FAILURE() << "nothing was refused";
        return {};
    }

    Book book = Book::create(in_folder("a.book"));
    observe::SiteId site = 0;
    observe::TreeId tree = 0;
    treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    treat::ApplicationSheet sheet;
};

TEST_F(ApplicationFiling, FillsInWhatTheCardKnowsAndWhatCanBeWorkedOut) {
    const treat::ApplicationRecord record = made();
    EXPECT_EQ(record.site, site);
    EXPECT_EQ(record.trees.front().tree, tree);
    EXPECT_EQ(record.product_name, "Invented Product");
    EXPECT_EQ(record.registration_number, "00000-0");
    EXPECT_EQ(record.restricted_use, false);
    EXPECT_EQ(record.method, "basal trunk spray");
    EXPECT_EQ(record.counted_as, treat::CountedUse::bark);
    EXPECT_EQ(record.label_card_text, "the card");
    EXPECT_EQ(record.total_product, treat::Amount{measure::Volume::of("100", units::millilitre)});
    ASSERT_THAT(record.actives, SizeIs(1));
    EXPECT_EQ(record.actives.front().name, "inventine");
    EXPECT_EQ(record.actives.front().mass, measure::Mass::of("10", units::gram));  // 100 g/L
}

TEST_F(ApplicationFiling, KeepsWhatTheSheetSaysWhereTheCardLeavesItOpen) {
    sheet.record.method = "basal trunk spray, two passes";
    sheet.record.total_product = measure::Volume::of("105", units::millilitre);
    EXPECT_EQ(made().method, "basal trunk spray, two passes");
    EXPECT_EQ(made().actives.front().mass, measure::Mass::of("10.5", units::gram));
}

TEST_F(ApplicationFiling, RefusesAnAmountOfActiveIngredientThatIsNotInTheProduct) {
    // 100 mL at 100 g a litre hold 10 g.
    sheet.record.actives = {{"inventine", measure::Mass::of("20", units::gram)}};
    EXPECT_THAT(refusal(), HasSubstr("20 g of inventine"));
    sheet.record.actives = {{"inventine", measure::Mass::of("5", units::gram)}};
    EXPECT_THAT(refusal(), HasSubstr("worked out"));
}

TEST_F(ApplicationFiling, TakesARoundedAmountOfActiveIngredientAndNeverCountsLessThanThereWas) {
    sheet.record.actives = {{"inventine", measure::Mass::of("9.95", units::gram)}};
    EXPECT_EQ(made().actives.front().mass, measure::Mass::of("10", units::gram));
    sheet.record.actives = {{"inventine", measure::Mass::of("10.05", units::gram)}};
    EXPECT_EQ(made().actives.front().mass, measure::Mass::of("10.05", units::gram));
}

TEST_F(ApplicationFiling, WorksTheActiveIngredientOutAnewWhenTheProductIsCorrected) {
    sheet.record = made();
    leave_actives_to_be_worked_out(sheet.record, card);
    sheet.record.trees.front().product = measure::Volume::of("200", units::millilitre);
    sheet.record.total_product = measure::Volume::of("200", units::millilitre);
    EXPECT_EQ(made().actives.front().mass, measure::Mass::of("20", units::gram));
}

TEST_F(ApplicationFiling, KeepsAnAmountThatDoesNotFollowFromTheCard) {
    sheet.record = made();
    sheet.record.actives.front().mass = measure::Mass::of("10.05", units::gram);
    leave_actives_to_be_worked_out(sheet.record, card);
    EXPECT_EQ(sheet.record.actives.front().mass, measure::Mass::of("10.05", units::gram));
}

TEST_F(ApplicationFiling, RefusesASheetThatContradictsItsCard) {
    sheet.record.registration_number = "00000-1";
    EXPECT_THAT(refusal(), HasSubstr("registration number"));
    sheet.record.registration_number = "00000-0";
    sheet.record.restricted_use = true;
    EXPECT_THAT(refusal(), HasSubstr("restricted use"));
    sheet.record.restricted_use.reset();
    sheet.record.actives = {{"dinotefuran", {}}};
    EXPECT_THAT(refusal(), HasSubstr("inventine"));
}

TEST_F(ApplicationFiling, RefusesToRecordByAnExample) {
    card.example = true;
    EXPECT_THAT(refusal(), HasSubstr("EXAMPLE"));
    card.example = false;
    card.from_label.reset();
    EXPECT_THAT(refusal(), HasSubstr("EXAMPLE"));
}

TEST_F(ApplicationFiling, RefusesAPlaceOrATreeThatIsNotInTheBook) {
    sheet.record.trees.front().label = "A-2";
    EXPECT_THAT(refusal(), HasSubstr("A-1"));
    sheet.site = "Mil Lane";
    EXPECT_THAT(refusal(), HasSubstr("Mill Lane"));
}

TEST_F(ApplicationFiling, RefusesAWeightOfALiquid) {
    sheet.record.trees.front().product = measure::Mass::of("100", units::gram);
    EXPECT_THROW(made(), InputError);
}

TEST_F(ApplicationFiling, KeepsTheDayAndTheLabelOfWhatIsCorrected) {
    treat::ApplicationRecord first = made();
    first.id = book.add(first);
    sheet.record.correction = example_correction(first.id);
    sheet.record.written_on = day("2026-05-21");
    const treat::ApplicationRecord second = application_of(book, sheet, &card, "a later card");
    EXPECT_EQ(second.written_on, first.written_on);
    EXPECT_EQ(second.label_card_text, "the card");
    book.add(second);
    EXPECT_THAT(standing(book.applications(site)), SizeIs(1));
}

TEST_F(ApplicationFiling, FeedsTheHistoryOfTheSite) {
    treat::ApplicationRecord first = made();
    first.id = book.add(first);
    treat::OtherUse use = example_other_use(site);
    use.id = book.add(use);
    book.add(example_raised_allowance(site));
    treat::SiteHistory history = site_history(book, site);
    EXPECT_THAT(history.spent, SizeIs(2));
    EXPECT_THAT(history.raised, SizeIs(1));
    EXPECT_THAT(history.on_trees, SizeIs(1));
    EXPECT_THAT(site_history(book, site, first.id).on_trees, IsEmpty());

    use.correction = example_correction(use.id);
    use.correction->withdraws = true;
    book.add(use);
    first.correction = example_correction(first.id);
    first.correction->withdraws = true;
    book.add(first);
    history = site_history(book, site);
    EXPECT_THAT(history.spent, IsEmpty());
    EXPECT_THAT(history.on_trees, IsEmpty());
    EXPECT_THAT(history.untold, IsEmpty());
}

}  // namespace
}  // namespace ashtriage::book
