// The values of one record as they lie in the book, and the seal that shows they are unchanged.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::book {

using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;

class Row {
 public:
    Row() = default;
    explicit Row(std::vector<Cell> cells) : cells_(std::move(cells)) {}

    // Throws measure::InputError for text that is not UTF-8 or holds a zero byte.
    Row& add(std::string_view text);
    Row& add(const char* text) { return add(std::string_view{text}); }
    Row& add(std::int64_t number);
    Row& add(double number);  // throws measure::InputError when it is not finite
    Row& add(bool yes) { return add(std::int64_t{yes}); }
    Row& add(const measure::Date& date);  // as YYYY-MM-DD
    template <class Dimension>
    Row& add(const measure::Quantity<Dimension>& quantity) {
        return add(quantity.ticks());
    }
    template <class Value>
    Row& add(const std::optional<Value>& value) {
        if (value) return add(*value);
        cells_.emplace_back();
        return *this;
    }
    Row& add(const Row& other);

    const std::vector<Cell>& cells() const { return cells_; }

 private:
    std::vector<Cell> cells_;
};

// The 64-bit FNV-1a of Fowler, Noll and Vo (constants from memory; the tests hold it against
// published values). A change to one byte changes it for certain, any other change all but
// certainly. It guards against damage, not against a forger.
std::uint64_t fingerprint(std::string_view bytes);

// The fingerprint of the cells with their kinds, as SQLite can keep it.
std::int64_t seal_of(const Row& row);

// Hands out the cells of a row in order. Throws BookError (damaged) when a cell is not of the kind
// its column has; `path` is that of the book.
class RowReader {
 public:
    RowReader(const Row& row, const std::filesystem::path& path)
        : cells_(row.cells()), path_(path) {}

    std::string text();
    std::int64_t integer();
    double real();
    bool flag() { return integer() != 0; }
    measure::Date date();
    std::optional<std::int64_t> optional_integer();
    std::optional<double> optional_real();
    std::optional<bool> optional_flag();
    std::optional<std::string> optional_text();
    std::optional<measure::Date> optional_date();
    template <class Quantity>
    std::optional<Quantity> optional_quantity() {
        const std::optional<std::int64_t> ticks = optional_integer();
        if (!ticks) return std::nullopt;
        return Quantity::from_ticks(*ticks);
    }

 private:
    const Cell& next();
    bool next_is_empty();
    [[noreturn]] void fail() const;

    const std::vector<Cell>& cells_;
    const std::filesystem::path& path_;
    std::size_t position_ = 0;
};

}  // namespace ashtriage::book
