// What else counts in the yearly account of a site: other uses of an active ingredient, and local
// labels that allow more of it. Added and read and never changed.
#pragma once

#include <optional>
#include <vector>

#include "book/corrections.hpp"
#include "book/database.hpp"
#include "observe/records.hpp"
#include "treat/application_record.hpp"

namespace ashtriage::book {

// Each throws measure::InputError when the record cannot be true, when its site is not in the book,
// or when it corrects a record that is not there or has been corrected before.
treat::OtherUseId add_other_use(Database& database, const treat::OtherUse& use);
treat::RaisedAllowanceId add_raised_allowance(Database& database,
                                              const treat::RaisedAllowance& allowance);

// By date, superseded ones among them.
std::vector<RecordedOtherUse> read_other_uses(const Database& database, observe::SiteId site);
std::optional<RecordedOtherUse> find_other_use(const Database& database, treat::OtherUseId id);
// In the order in which they were confirmed, superseded ones among them.
std::vector<RecordedRaisedAllowance> read_raised_allowances(const Database& database,
                                                            observe::SiteId site);
std::optional<RecordedRaisedAllowance> find_raised_allowance(const Database& database,
                                                             treat::RaisedAllowanceId id);

}  // namespace ashtriage::book
