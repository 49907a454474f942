// Whether the record of an application, however much of it is still missing, can be true at all.
#pragma once

#include "treat/application_record.hpp"

namespace ashtriage::treat {

// Each throws measure::InputError that names everything wrong with the record at once. What is
// missing is not wrong: a record may be stored before it is finished, with no more than its site,
// the date of the work and the day of writing.
void check(const ApplicationRecord& record);
void check(const OtherUse& use);
void check(const RaisedAllowance& allowance);

}  // namespace ashtriage::treat
