// The records of applications in a book, which are added and read and never changed.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "book/corrections.hpp"
#include "book/database.hpp"
#include "observe/records.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::book {

// The word for what counts toward the yearly amount on an acre, as it lies in a column; reading
// one that is none of them throws BookError (damaged).
std::string_view counted_word(treat::CountedUse use);
treat::CountedUse read_counted_use(std::string_view word, const Database& database);

// Throws measure::InputError when the record cannot be true, when its site is not in the book or
// one of its trees is not on that site, or when it corrects a record that is not there or has been
// corrected before. A correction keeps the day on which the record was first written and is not
// dated before what it corrects.
treat::ApplicationId add_application(Database& database, const treat::ApplicationRecord& record);

// By the date of the work, superseded ones among them.
std::vector<RecordedApplication> read_applications(const Database& database, observe::SiteId site);
std::vector<RecordedApplication> read_applications_of_tree(const Database& database,
                                                           observe::TreeId tree);
std::optional<RecordedApplication> find_application(const Database& database,
                                                    treat::ApplicationId id);
// The record with all that it corrects and all that corrects it, oldest first; empty when there is
// no such record.
std::vector<RecordedApplication> read_application_history(const Database& database,
                                                          treat::ApplicationId id);

}  // namespace ashtriage::book
