#include "book/transaction.hpp"

#include <sqlite3.h>

namespace ashtriage::book {

Transaction::Transaction(Database& database)
    : database_(database), inner_(database.in_transaction()) {
    database_.execute(inner_ ? "SAVEPOINT inner_step" : "BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (open_) undo();
}

void Transaction::keep() {
    database_.execute(inner_ ? "RELEASE inner_step" : "COMMIT");
    open_ = false;
}

void Transaction::undo() noexcept {
    // After a full disk or a read error SQLite has undone everything by itself. A failure here is
    // of no consequence: what was not committed is undone when the book is next opened.
    if (!database_.in_transaction()) return;
    sqlite3_exec(database_.connection(),
                 inner_ ? "ROLLBACK TO inner_step; RELEASE inner_step" : "ROLLBACK", nullptr,
                 nullptr, nullptr);
}

}  // namespace ashtriage::book
