#include "present/triage_stream.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <istream>
#include <mutex>
#include <optional>
#include <ostream>
#include <thread>
#include <utility>
#include <vector>

#include "measure/input_error.hpp"
#include "packs/csv_blocks.hpp"
#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/triage_lines.hpp"
#include "present/triage_row.hpp"
#include "triage/labels_seen.hpp"
#include "triage/walk_sheet_rows.hpp"

namespace ashtriage::present {

namespace {

using packs::CsvBlock;

struct RowLeftOut {
    std::string problems;  // in words
    std::string row;       // as it is set aside
};

// A block of rows on its way: read, then judged, then written.
struct Load {
    enum class State { free, read, being_judged, judged };
    State state = State::free;
    CsvBlock block;
    std::vector<bool> repeated;  // by row: its label was there before
    std::string lines;
    std::vector<RowLeftOut> left_out;
    std::exception_ptr fault;  // of the program, while judging
};

// How rows are set aside: the columns of the sheet without an old `problem`, and a new one.
class SetAside {
 public:
    explicit SetAside(const packs::CsvHeader& header)
        : header_(header), old_problem_(header.find(triage::column::problem)) {}

    std::string header_row() const {
        std::string row;
        for (std::size_t i = 0; i < header_.names().size(); ++i) {
            if (i != old_problem_) add(row, header_.names()[i]);
        }
        row += triage::column::problem;
        row += csv_row_end;
        return row;
    }

    // Cells stay to the letter as they were. A row of the wrong width stays one.
    std::string row(const CsvBlock& block, const CsvBlock::Row& left_out,
                    std::string_view problem) const {
        const std::size_t columns = header_.names().size();
        const bool whole = left_out.fields == columns;
        std::size_t fields = 1;
        std::string row;
        for (std::size_t i = 0; i < left_out.fields; ++i) {
            if (whole && i == old_problem_) continue;
            add(row, block.field(left_out, i));
            ++fields;
        }
        const std::size_t width = old_problem_ ? columns : columns + 1;
        if (!whole && fields == width) add(row, {});
        append_csv_text(row, problem);
        row += csv_row_end;
        return row;
    }

 private:
    static void add(std::string& row, std::string_view field) {
        append_csv_plain(row, field);
        row += ',';
    }

    const packs::CsvHeader& header_;
    std::optional<std::size_t> old_problem_;
};

class TriageStream {
 public:
    TriageStream(std::istream& sheet, const std::string& file, const Knowledge& knowledge,
                 const measure::Date& as_of, const TriageStreamOutput& output, unsigned threads)
        : knowledge_(knowledge),
          as_of_(as_of),
          output_(output),
          blocks_(sheet, file),
          rows_(blocks_.header(), file, knowledge.judge.rules(), as_of),
          set_aside_(blocks_.header()),
          tree_column_(blocks_.header().require(triage::column::tree)),
          threads_(std::max(threads, 1U)),
          loads_(2 * std::size_t{threads_} + 2) {}

    TriageStreamEnd run() {
        write(output_.lines, triage_csv_header());
        if (output_.left_out != nullptr) write(*output_.left_out, set_aside_.header_row());
        std::vector<std::jthread> judges;
        const StopAtEnd stop{*this};
        for (unsigned i = 0; i < threads_; ++i) judges.emplace_back([this] { judge_loads(); });
        carry();
        if (labels_.some_not_kept()) end_.labels_kept = labels_.kept();
        return end_;
    }

 private:
    // Lets the judging threads go, whatever happens.
    struct StopAtEnd {
        TriageStream& stream;
        explicit StopAtEnd(TriageStream& s) : stream(s) {}
        ~StopAtEnd() { stream.stop(); }
        StopAtEnd(const StopAtEnd&) = delete;
        StopAtEnd& operator=(const StopAtEnd&) = delete;
    };

    // --- reading and writing: the calling thread --------------------------------------------

    void carry() {
        std::exception_ptr unreadable;
        std::size_t read = 0;
        std::size_t written = 0;
        while (!unreadable) {
            Load& load = loads_[read % loads_.size()];
            if (read - written == loads_.size()) write_judged(loads_[written++ % loads_.size()]);
            try {
                if (!blocks_.next(load.block)) break;
            } catch (const measure::InputError&) {
                unreadable = std::current_exception();  // once the rows before it are written
                break;
            }
            note_repeated(load);
            pass_on(load);
            ++read;
        }
        while (written < read) write_judged(loads_[written++ % loads_.size()]);
        if (unreadable) std::rethrow_exception(unreadable);
    }

    void note_repeated(Load& load) {
        load.repeated.clear();
        for (const CsvBlock::Row& row : load.block.rows()) {
            const bool whole = row.fields == blocks_.header().names().size();
            const std::string_view label =
                whole ? packs::trimmed(load.block.field(row, tree_column_)) : std::string_view{};
            load.repeated.push_back(!label.empty() && !labels_.add(label));
        }
    }

    void pass_on(Load& load) {
        const std::scoped_lock lock(mutex_);
        load.state = Load::State::read;
        changed_.notify_all();
    }

    void write_judged(Load& load) {
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [&] { return load.state == Load::State::judged; });
            load.state = Load::State::free;
        }
        if (load.fault) std::rethrow_exception(load.fault);
        write(output_.lines, load.lines);
        end_.rows += load.block.rows().size();
        for (const RowLeftOut& left_out : load.left_out) {
            if (++end_.left_out <= rows_told_in_full) output_.problems << left_out.problems << '\n';
            if (output_.left_out != nullptr) write(*output_.left_out, left_out.row);
        }
    }

    static void write(std::ostream& stream, const std::string& text) {
        stream << text;
        if (!stream) {
            throw measure::InputError("The output could not be written", {}, "Is the disk full?");
        }
    }

    // --- judging: the other threads ---------------------------------------------------------

    void judge_loads() {
        TriageLines lines(knowledge_, rows_, as_of_);
        while (Load* load = next_to_judge()) {
            try {
                judge(*load, lines);
            } catch (...) {
                load->fault = std::current_exception();
            }
            const std::scoped_lock lock(mutex_);
            load->state = Load::State::judged;
            changed_.notify_all();
        }
    }

    // Null when there is nothing more to do.
    Load* next_to_judge() {
        std::unique_lock lock(mutex_);
        Load* load = nullptr;
        changed_.wait(lock, [&] {
            load = &loads_[next_ % loads_.size()];
            return stopped_ || load->state == Load::State::read;
        });
        if (stopped_) return nullptr;
        load->state = Load::State::being_judged;
        ++next_;
        return load;
    }

    void judge(Load& load, TriageLines& lines) const {
        load.lines.clear();
        load.left_out.clear();
        const std::vector<CsvBlock::Row>& rows = load.block.rows();
        for (std::size_t i = 0; i < rows.size(); ++i) {
            packs::Problems problems;
            if (lines.append(load.block, rows[i], load.repeated[i], load.lines, problems)) continue;
            std::string in_short;
            for (const packs::Problem& problem : problems.list()) {
                if (!in_short.empty()) in_short += "; ";
                in_short += problem.message;
                if (!problem.hint.empty()) in_short += ". " + problem.hint;
            }
            load.left_out.push_back(
                {problems.text(), set_aside_.row(load.block, rows[i], in_short)});
        }
    }

    void stop() {
        const std::scoped_lock lock(mutex_);
        stopped_ = true;
        changed_.notify_all();
    }

    const Knowledge& knowledge_;
    measure::Date as_of_;
    TriageStreamOutput output_;
    packs::CsvBlocks blocks_;
    triage::WalkSheetRows rows_;
    SetAside set_aside_;
    std::size_t tree_column_;
    triage::LabelsSeen labels_;
    TriageStreamEnd end_;

    unsigned threads_;
    std::vector<Load> loads_;  // used in turn, so that what is written keeps the order of the sheet
    std::size_t next_ = 0;     // to be judged
    bool stopped_ = false;
    std::mutex mutex_;  // over the states of the loads, next_ and stopped_
    std::condition_variable changed_;
};

}  // namespace

unsigned usual_threads() {
    constexpr unsigned most = 8;  // reading alone keeps no more of them busy
    return std::clamp(std::thread::hardware_concurrency(), 2U, most);
}

TriageStreamEnd stream_triage(std::istream& sheet, const std::string& file,
                              const Knowledge& knowledge, const measure::Date& as_of,
                              const TriageStreamOutput& output, unsigned threads) {
    return TriageStream(sheet, file, knowledge, as_of, output, threads).run();
}

}  // namespace ashtriage::present
