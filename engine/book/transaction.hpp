// All or nothing: what is written while a Transaction lives is kept by keep() and otherwise undone.
#pragma once

#include "book/database.hpp"

namespace ashtriage::book {

// Takes the right to write at once, so that two writers meet at the beginning and not at the end.
// Inside another Transaction it is a savepoint: undone on its own, kept only if the outer one is.
class Transaction {
 public:
    explicit Transaction(Database& database);  // throws BookError, e.g. in_use
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();

    void keep();  // throws BookError; then nothing is kept

 private:
    void undo() noexcept;

    Database& database_;
    bool inner_;
    bool open_ = true;
};

}  // namespace ashtriage::book
