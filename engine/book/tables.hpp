// The names of the sealed tables and their columns, as schema.cpp makes them.
#pragma once

#include "book/sealed_table.hpp"

namespace ashtriage::book {

const SealedTable& clients_table();
const SealedTable& sites_table();
const SealedTable& trees_table();
const SealedTable& earlier_descriptions_table();
// Read and written by walk_arounds.cpp alone: its seal covers the stems and findings as well.
const SealedTable& walk_arounds_table();
const SealedTable& recommendations_table();
// Written and read by applications.cpp alone: its seal covers the lists of the application.
const SealedTable& applications_table();
const SealedTable& other_uses_table();
const SealedTable& raised_allowances_table();
const SealedTable& drafts_table();

}  // namespace ashtriage::book
