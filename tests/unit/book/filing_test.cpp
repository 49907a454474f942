// Taking sheets into the book: nothing is lost, nothing is taken twice.
#include "book/filing.hpp"

#include <gmock/gmock.h>

#include "book_folder.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::book {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

observe::SheetTree sheet_tree(std::string label) {
    observe::SheetTree entry;
    entry.tree.label = std::move(label);
    entry.tree.place = "by the gate";
    entry.walk_around = example_walk_around(0, "2026-07-06");
    entry.place = "sheet.yaml:12";
    return entry;
}

observe::WalkSheet some_sheet() {
    observe::WalkSheet sheet;
    sheet.client = example_client();
    sheet.site = example_site(0);
    sheet.trees = {sheet_tree("A-1"), sheet_tree("A-2")};
    return sheet;
}

class Filing : public BookFolder {
 protected:
    Filed file(const observe::WalkSheet& sheet, const std::string& site_name = {}) {
        return book.in_transaction(
            [&] { return file_sheet(book, sheet, site_name, day("2026-07-10")); });
    }
    std::string refusal(const observe::WalkSheet& sheet, const std::string& site_name = {}) {
        const Content before = content_of(book);
        try {
            file(sheet, site_name);
        } catch (const measure::InputError& error) {
            EXPECT_EQ(content_of(book), before);
            return std::string(error.what()) + " | " + error.where();
        }
        ADD_FAILURE() << "nothing was refused";
        return {};
    }
    observe::Site site() const { return *book.find_site("Mill Lane"); }
    std::vector<FiledWalkAround> walks(std::string_view label) const {
        return book.walk_arounds(book.find_tree(site().id, label)->id);
    }

    Book book = Book::create(in_folder("a.book"));
};

TEST_F(Filing, TakesInAWholeSheet) {
    const Filed filed = file(some_sheet());
    EXPECT_EQ(filed.sites_added, 1);
    EXPECT_EQ(filed.trees_added, 2);
    EXPECT_EQ(filed.walk_arounds_added, 2);
    EXPECT_EQ(filed.site, site().id);
    ASSERT_THAT(book.clients(), SizeIs(1));
    EXPECT_EQ(site().client, book.clients().front().id);
    EXPECT_EQ(book.clients().front().email, example_client().email);
    EXPECT_EQ(book.trees(site().id).front().place, "by the gate");
    EXPECT_EQ(walks("A-1").front().seen.findings, example_walk_around(0, "2026-07-06").findings);
}

TEST_F(Filing, TheSameSheetAgainChangesNothing) {
    file(some_sheet());
    const Content before = content_of(book);
    const Filed again = file(some_sheet());
    EXPECT_EQ(content_of(book), before);
    EXPECT_EQ(again.clients_changed, 0);
    EXPECT_EQ(again.sites_added, 0);
    EXPECT_EQ(again.sites_changed, 0);
    EXPECT_EQ(again.trees_added, 0);
    EXPECT_EQ(again.trees_changed, 0);
    EXPECT_EQ(again.walk_arounds_added, 0);
    EXPECT_EQ(again.walk_arounds_corrected, 0);
    EXPECT_EQ(again.walk_arounds_unchanged, 2);
}

TEST_F(Filing, AnotherAccountOfTheSameDaySupersedesTheFirst) {
    file(some_sheet());
    observe::WalkSheet corrected = some_sheet();
    corrected.trees[0].walk_around.findings[0].value = "40-50 %";
    const Filed filed = file(corrected);
    EXPECT_EQ(filed.walk_arounds_corrected, 1);
    EXPECT_EQ(filed.walk_arounds_unchanged, 1);
    EXPECT_EQ(filed.walk_arounds_added, 0);
    ASSERT_THAT(walks("A-1"), SizeIs(2));
    EXPECT_EQ(walks("A-1")[0].superseded_by, walks("A-1")[1].seen.id);
    EXPECT_EQ(walks("A-1")[0].seen.findings[0].value, "20-30 %");  // what was seen stays
    EXPECT_EQ(walks("A-1")[1].seen.findings[0].value, "40-50 %");
    EXPECT_FALSE(walks("A-1")[1].superseded_by);
    EXPECT_THAT(walks("A-2"), SizeIs(1));
}

TEST_F(Filing, ACorrectionCanBeCorrectedAndFiledAgain) {
    observe::WalkSheet sheet = some_sheet();
    for (const char* loss : {"20-30 %", "30-40 %", "40-50 %"}) {
        sheet.trees[0].walk_around.findings[0].value = loss;
        file(sheet);
    }
    EXPECT_EQ(file(sheet).walk_arounds_unchanged, 2);
    ASSERT_THAT(walks("A-1"), SizeIs(3));
    EXPECT_TRUE(walks("A-1")[0].superseded_by);
    EXPECT_TRUE(walks("A-1")[1].superseded_by);
    EXPECT_FALSE(walks("A-1")[2].superseded_by);
}

TEST_F(Filing, AnotherDayIsAnotherWalkAround) {
    file(some_sheet());
    observe::WalkSheet later = some_sheet();
    later.trees[0].walk_around.date = day("2026-07-07");
    const Filed filed = file(later);
    EXPECT_EQ(filed.walk_arounds_added, 1);
    EXPECT_EQ(filed.walk_arounds_corrected, 0);
    EXPECT_FALSE(walks("A-1")[0].superseded_by);
}

TEST_F(Filing, WhatASheetSaysOfASiteIsTakenOverAndTheRestStays) {
    file(some_sheet());
    observe::WalkSheet sheet = some_sheet();
    sheet.client.reset();
    sheet.site = observe::Site{};
    sheet.site->name = "Mill Lane";
    sheet.site->soil = "sandy";
    sheet.site->in_quarantined_county = false;
    const Filed filed = file(sheet);
    EXPECT_EQ(filed.sites_changed, 1);
    EXPECT_EQ(filed.sites_added, 0);
    observe::Site expected = example_site(site().client);
    expected.id = site().id;
    expected.soil = "sandy";
    expected.in_quarantined_county = false;
    EXPECT_EQ(site(), expected);
    EXPECT_THAT(book.earlier_of_site(site().id), SizeIs(1));  // what it said before is kept
}

TEST_F(Filing, WhatASheetSaysOfATreeIsTakenOverAndTheRestStays) {
    file(some_sheet());
    observe::WalkSheet sheet = some_sheet();
    sheet.trees[0].tree.place.clear();
    sheet.trees[0].tree.position = observe::Position{44.5, -93.5, {}};
    EXPECT_EQ(file(sheet).trees_changed, 1);
    const auto tree = *book.find_tree(site().id, "A-1");
    EXPECT_EQ(tree.place, "by the gate");
    EXPECT_EQ(tree.position, sheet.trees[0].tree.position);
}

TEST_F(Filing, ATableWithoutASiteGoesToTheSiteThatIsNamed) {
    observe::WalkSheet table;
    table.trees = {sheet_tree("A-1")};
    EXPECT_THAT(refusal(table), HasSubstr("which site"));
    EXPECT_EQ(file(table, "Mill Lane").sites_added, 1);
    EXPECT_EQ(file(table, "Mill Lane").walk_arounds_unchanged, 1);
    EXPECT_THAT(book.sites(), SizeIs(1));
}

TEST_F(Filing, ASheetsOwnSiteCountsBeforeTheOneThatIsNamed) {
    file(some_sheet(), "Elsewhere");
    EXPECT_FALSE(book.find_site("Elsewhere"));
}

TEST_F(Filing, AClientAtAnotherAddressIsRefused) {
    file(some_sheet());
    observe::WalkSheet same_site = some_sheet();
    same_site.client->address = "2 Example Road";
    EXPECT_THAT(refusal(same_site), HasSubstr("another address"));
    observe::WalkSheet new_site = same_site;
    new_site.site->name = "Hill Lane";
    EXPECT_THAT(refusal(new_site), HasSubstr("another address"));
}

TEST_F(Filing, ASiteOfSomebodyElseIsRefused) {
    file(some_sheet());
    observe::WalkSheet sheet = some_sheet();
    sheet.client->name = "Somebody Else";
    EXPECT_THAT(refusal(sheet), AllOf(HasSubstr("Mill Lane"), HasSubstr("Somebody Else")));
}

TEST_F(Filing, WhatASheetSaysOfAClientIsTakenOverAndTheRestStays) {
    file(some_sheet());
    observe::WalkSheet sheet = some_sheet();
    sheet.client = observe::Client{0, example_client().name, {}, "555-0199", {}};
    EXPECT_EQ(file(sheet).clients_changed, 1);
    const observe::Client client = book.clients().at(0);
    EXPECT_EQ(client.telephone, "555-0199");
    EXPECT_EQ(client.address, example_client().address);
    EXPECT_EQ(client.email, example_client().email);
}

TEST_F(Filing, ASecondSiteOfAKnownClientIsTheSameClients) {
    file(some_sheet());
    observe::WalkSheet sheet = some_sheet();
    sheet.site->name = "Hill Lane";
    file(sheet);
    EXPECT_THAT(book.clients(), SizeIs(1));
    EXPECT_EQ(book.find_site("Hill Lane")->client, site().client);
}

TEST_F(Filing, AClientIsNamedLaterThanTheSite) {
    observe::WalkSheet table;
    table.trees = {sheet_tree("A-1")};
    file(table, "Mill Lane");
    file(some_sheet());
    EXPECT_EQ(book.find_client(site().client)->name, example_client().name);
}

TEST_F(Filing, ARehearsalLeavesNoTrace) {
    file(some_sheet());
    const Content before = content_of(book);
    const std::string bytes = bytes_of(in_folder("a.book"));
    observe::WalkSheet sheet = some_sheet();
    sheet.site->soil = "sandy";
    sheet.client->telephone = "555-0199";
    sheet.trees.push_back(sheet_tree("A-3"));
    sheet.trees[0].walk_around.findings[0].value = "40-50 %";
    const Filed filed =
        book.rehearse([&] { return file_sheet(book, sheet, {}, day("2026-07-10")); });
    EXPECT_EQ(filed.trees_added, 1);
    EXPECT_EQ(filed.walk_arounds_corrected, 1);
    EXPECT_EQ(filed.sites_changed, 1);
    EXPECT_EQ(content_of(book), before);
    EXPECT_EQ(bytes_of(in_folder("a.book")), bytes);
}

TEST_F(Filing, ATreeThatCannotBeTakenIsNamedByItsPlaceAndNothingIsTaken) {
    observe::WalkSheet sheet = some_sheet();
    sheet.trees[1].walk_around.observer.clear();
    sheet.trees[1].place = "sheet.yaml:30";
    EXPECT_THAT(refusal(sheet), AllOf(HasSubstr("observer"), HasSubstr("sheet.yaml:30")));
    sheet = some_sheet();
    sheet.trees[0].tree.label = " A-1";
    EXPECT_THAT(refusal(sheet), HasSubstr("sheet.yaml:12"));
    EXPECT_THAT(book.sites(), SizeIs(0));
    EXPECT_THAT(book.clients(), SizeIs(0));
}

}  // namespace
}  // namespace ashtriage::book
