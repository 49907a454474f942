// The record of an application as it is handed on: to the customer, to whoever treats an exposed
// person, on a post at the place, to the neighbours. All from the same record and the same label
// card, with nothing added that is not on them.
#pragma once

#include <string>
#include <vector>

#include "measure/date.hpp"
#include "present/document.hpp"
#include "treat/application_record.hpp"
#include "treat/label_card.hpp"
#include "treat/record_policy.hpp"

namespace ashtriage::present {

struct ApplicationShown {
    treat::ApplicationRecord record;
    std::string site;  // by its name
    // As it was when the record was written; null when there was none.
    const treat::LabelCard* card = nullptr;
    std::vector<treat::MissingFields> missing;
    measure::Date as_of{};
};

// What the customer gets: every entry that is filled in, the trees, and the label on keeping off.
Document customer_copy(const ApplicationShown& shown);

// For a health professional; also for a record that is not finished, which it then says.
Document medical_sheet(const ApplicationShown& shown);

// To be posted at the place, and to be given to neighbours. Neither names the customer. Before the
// day of the work they say what is planned, afterwards what was done.
Document site_notice(const ApplicationShown& shown);
Document neighbour_notice(const ApplicationShown& shown);

// Every entry by its group, the trees, and what was used against what was planned: for the record's
// own keeper.
Document whole_record(const ApplicationShown& shown);

// "Used 11.5 fl oz of product, 0.5 fl oz less than planned. Left over: 39.9 fl oz of mix." Empty
// when the record says nothing of it.
std::string used_words(const treat::ApplicationRecord& record);

}  // namespace ashtriage::present
