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
// that contradicts its card.
treat::ApplicationRecord application_of(const Book& book, const treat::ApplicationSheet& sheet,
                                        const treat::LabelCard* card, const std::string& card_text);

}  // namespace ashtriage::book
