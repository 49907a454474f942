// Taking the sheet of an application into a book.
#pragma once

#include <string>

#include "book/book.hpp"
#include "treat/application_sheet.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::book {

// The record that a sheet makes: with the site and the trees of the book, what the sheet leaves out
// filled in from the card (product, registration number, restricted use, active ingredients, the
// sites of the label) and what can be worked out worked out (the product used, when every tree's is
// given; the active ingredient in it, rounded up), and the text of the card kept with it. A
// correction keeps the day on which the record was first written.
//
// `card` may be null: then the sheet stands alone. Throws measure::InputError for a site or tree
// that is not in the book, a card that is an example, which nothing may be recorded by, and a sheet
// that contradicts its card, also in how much active ingredient there was in the product.
treat::ApplicationRecord application_of(const Book& book, const treat::ApplicationSheet& sheet,
                                        const treat::LabelCard* card, const std::string& card_text);

// Empties the amounts of active ingredient that follow from the product used and its card, so that
// they are worked out anew when the amount of product is corrected.
void leave_actives_to_be_worked_out(treat::ApplicationRecord& record, const treat::LabelCard& card);

}  // namespace ashtriage::book
