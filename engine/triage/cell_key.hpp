// What of an observation can make a difference to a table: for each fact behind it the cells that
// its value may lie in. Two observations with the same key get the same answer, so that an answer
// once found can be remembered by its key.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "reason/engine.hpp"

namespace ashtriage::triage {

enum class EyeError {
    ignored,
    minded,  // the key also tells apart where the values may lie within the error of the eye
};

class CellKey {
 public:
    // The engine must outlive the object.
    CellKey(const reason::Engine& engine, reason::TableIndex table, EyeError eye_error);

    // How many numbers a key has; 0: there is no key for this table, and nothing to remember.
    std::size_t size() const { return size_; }

    // Writes the key of the observation; `key` has size() numbers.
    void write(const reason::Observation& values, std::span<std::uint64_t> key) const;

 private:
    // A stretch of bits in which each cell of a fact has one; all clear for an unknown fact.
    struct Part {
        reason::FactIndex fact = 0;
        std::size_t number = 0;
        unsigned shift = 0;
        double margin = 0.0;  // the value is first widened by so much
    };

    const reason::Engine* engine_;
    std::vector<Part> parts_;
    std::size_t size_ = 0;
};

// The answers of a table by their keys: at most `places` (a power of two), of which a newer one
// takes the place of an older one.
template <class Answer>
class AnswerMemory {
 public:
    AnswerMemory(CellKey key, std::size_t places) : key_(std::move(key)) {
        if (key_.size() == 0) return;
        asked_.resize(key_.size());
        keys_.resize(places * key_.size());
        answers_.resize(places);
        used_.resize(places, 0);
    }

    // What `work()` gives for this observation, perhaps from an earlier time. Valid until the next
    // call.
    template <class Work>
    const Answer& answer(const reason::Observation& values, Work&& work) {
        if (key_.size() == 0) return unremembered_ = std::forward<Work>(work)();
        key_.write(values, asked_);
        std::uint64_t hash = 0;
        for (const std::uint64_t number : asked_) {
            hash = (hash ^ number) * std::uint64_t{0x9E3779B97F4A7C15};
            hash ^= hash >> 29U;
        }
        const std::size_t place = static_cast<std::size_t>(hash) & (answers_.size() - 1);
        const std::span key(&keys_[place * key_.size()], key_.size());
        if (used_[place] == 0 || !std::equal(key.begin(), key.end(), asked_.begin())) {
            answers_[place] = std::forward<Work>(work)();
            std::copy(asked_.begin(), asked_.end(), key.begin());
            used_[place] = 1;
        }
        return answers_[place];
    }

 private:
    CellKey key_;
    std::vector<std::uint64_t> asked_;
    std::vector<std::uint64_t> keys_;
    std::vector<Answer> answers_;
    std::vector<std::uint8_t> used_;
    Answer unremembered_{};
};

}  // namespace ashtriage::triage
