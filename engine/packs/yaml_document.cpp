#include "packs/yaml_document.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <optional>
#include <set>
#include <sstream>
#include <utility>

#include "packs/utf8.hpp"

namespace ashtriage::packs {

namespace {

// Ends the reading of a file; the problem has been added already.
struct Stop {};

class FileReader : public YAML::EventHandler {
 public:
    FileReader(std::string_view text, const std::string& file, Problems& problems)
        : text_(text), file_(file), problems_(problems) {}

    Node take_root() { return std::move(root_); }

    void refuse(std::string id, Place place, std::string message, std::string hint) {
        problems_.add(
            {std::move(id), file_, place, std::move(message), std::move(hint), /*source_line=*/{}});
    }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (!started_) {
            started_ = true;
            return;
        }
        refuse("second-document", place(mark),
               "the file goes on after its end: a second document begins here",
               "put everything into one mapping, without '---' or '...' between");
        throw Stop{};
    }
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        refuse_properties(mark, anchor);
        // The parser tells of what is missing at what comes after it, perhaps lines below.
        if (!open_.empty() && open_.back().key) {
            Node nothing;
            nothing.place = open_.back().key->place;
            finished(std::move(nothing));
            return;
        }
        scalar(mark, {}, false);
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
        refuse("alias", place(mark),
               "an alias ('*name') stands here, which these files do not have",
               "write the value out again; if it is meant as text, put it in quotes");
        scalar(mark, {}, false);
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        refuse_properties(mark, anchor);
        refuse_open_quote(mark);
        // The parser reports "!" for text in quotes or blocks and "?" for plain text.
        scalar(mark, value, tag == "!");
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& /*tag*/, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value /*style*/) override {
        refuse_properties(mark, anchor);
        open(mark, Node::Kind::sequence);
    }
    void OnSequenceEnd() override { close(); }

    void OnMapStart(const YAML::Mark& mark, const std::string& /*tag*/, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value /*style*/) override {
        refuse_properties(mark, anchor);
        open(mark, Node::Kind::mapping);
    }
    void OnMapEnd() override { close(); }

 private:
    // A mapping or sequence whose end has not come yet.
    struct Open {
        Node node;
        std::optional<Entry> key;    // mapping: the key whose value comes next
        std::set<std::string> keys;  // mapping: all so far
        bool key_refused = false;    // mapping: the value that comes next is left out
        bool is_key = false;         // stands where a key should: read and then left out
    };

    static Place place(const YAML::Mark& mark) {
        if (mark.is_null()) return {};
        return {static_cast<std::size_t>(mark.line) + 1, static_cast<std::size_t>(mark.column) + 1};
    }

    // Neither plain text nor a quoted or nested value can begin with '&' or '!'.
    void refuse_properties(const YAML::Mark& mark, YAML::anchor_t anchor) {
        const auto at = static_cast<std::size_t>(mark.pos);
        const char first = at < text_.size() ? text_[at] : '\0';
        if (anchor != 0 || first == '&') {
            refuse("anchor", place(mark),
                   "an anchor ('&name') stands here, which these files do not have",
                   "leave it out; if it is meant as text, put it in quotes");
        } else if (first == '!') {
            refuse("tag", place(mark), "a tag ('!name') stands here, which these files do not have",
                   "leave it out; if it is meant as text, put it in quotes");
        }
    }

    // The parser takes a text in quotes that ends with the file for complete when a line ends
    // before.
    void refuse_open_quote(const YAML::Mark& mark) {
        const auto start = static_cast<std::size_t>(mark.pos);
        const char quote = start < text_.size() ? text_[start] : '\0';
        if (quote != '"' && quote != '\'') return;
        for (std::size_t i = start + 1; i < text_.size(); ++i) {
            if (quote == '"' && text_[i] == '\\') {
                ++i;
            } else if (text_[i] == quote) {
                if (quote == '"' || text_.substr(i + 1, 1) != "'") return;
                ++i;  // '' stands for one '
            }
        }
        refuse("open-quote", place(mark), "the quotation mark that begins here is never closed",
               fmt::format("write another {} where the text ends", quote));
    }

    bool key_comes_next() const {
        return !open_.empty() && open_.back().node.kind == Node::Kind::mapping && !open_.back().key;
    }

    void scalar(const YAML::Mark& mark, const std::string& value, bool quoted) {
        if (key_comes_next()) {
            key(mark, value, quoted);
            return;
        }
        Node node;
        node.text = value;
        node.quoted = quoted;
        node.place = place(mark);
        finished(std::move(node));
    }

    void key(const YAML::Mark& mark, const std::string& name, bool quoted) {
        count_node(mark);
        Open& mapping = open_.back();
        mapping.key_refused = true;
        if (name.empty()) {
            refuse("empty-key", place(mark), "a name is missing before the ':'",
                   "write the name of the entry before the ':'");
        } else if (name == "<<" && !quoted) {
            refuse("merge-key", place(mark),
                   "a merge key ('<<') stands here, which these files do not have",
                   "write the entries out");
        } else if (!mapping.keys.insert(name).second) {
            refuse("duplicate-key", place(mark),
                   fmt::format("'{}' stands here for the second time in the same mapping", name),
                   "keep one of the two");
        } else {
            mapping.key_refused = false;
        }
        mapping.key = Entry{name, place(mark), Node{}};
    }

    void open(const YAML::Mark& mark, Node::Kind kind) {
        if (open_.size() >= deepest_yaml_nesting) {
            refuse(
                "too-deep", place(mark),
                fmt::format("lists and mappings are nested more than {} deep here",
                            deepest_yaml_nesting),
                "a bracket or brace that was never closed, or indentation that keeps growing, may "
                "be the reason");
            throw Stop{};
        }
        Open opened;
        opened.is_key = key_comes_next();
        if (opened.is_key) {
            refuse("key-not-text", place(mark),
                   "a list or a mapping stands where a name is expected",
                   "write a plain name before the ':'; text that contains braces or brackets needs "
                   "quotes");
        }
        opened.node.kind = kind;
        opened.node.place = place(mark);
        open_.push_back(std::move(opened));
    }

    void close() {
        Open closed = std::move(open_.back());
        open_.pop_back();
        if (closed.is_key) {
            open_.back().key = Entry{{}, closed.node.place, Node{}};
            open_.back().key_refused = true;
            return;
        }
        finished(std::move(closed.node));
    }

    void finished(Node node) {
        count_node({});
        if (open_.empty()) {
            root_ = std::move(node);
            return;
        }
        Open& parent = open_.back();
        if (parent.node.kind == Node::Kind::sequence) {
            parent.node.items.push_back(std::move(node));
            return;
        }
        Entry entry = std::move(*parent.key);
        parent.key.reset();
        if (parent.key_refused) return;
        entry.value = std::move(node);
        parent.node.entries.push_back(std::move(entry));
    }

    void count_node(const YAML::Mark& mark) {
        if (++nodes_ <= most_yaml_nodes) return;
        refuse("too-many-values", place(mark),
               fmt::format("the file has more than {} names and values", most_yaml_nodes),
               "split it into several files");
        throw Stop{};
    }

    std::string_view text_;
    const std::string& file_;
    Problems& problems_;
    bool started_ = false;
    std::size_t nodes_ = 0;
    std::vector<Open> open_;
    Node root_;
};

Place place_of(std::string_view text, std::size_t position) {
    Place place{1, 1};
    for (std::size_t i = 0; i < position; ++i) {
        if (text[i] == '\n') {
            ++place.line;
            place.column = 1;
        } else {
            ++place.column;
        }
    }
    return place;
}

bool is_control_character(std::string_view text, std::size_t i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == '\t' || byte == '\n') return false;
    if (byte == '\r') return i + 1 == text.size() || text[i + 1] != '\n';
    return byte < 0x20 || byte == 0x7F;
}

// What can be said of a text before it is parsed. False: the parser must not see it.
bool check_text(std::string_view text, FileReader& reader) {
    if (text.size() > largest_yaml_file) {
        reader.refuse(
            "file-too-large", {},
            fmt::format("the file is larger than the {} MiB allowed", largest_yaml_file >> 20U),
            "make sure that this is the right file");
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!is_control_character(text, i)) continue;
        reader.refuse(
            "not-text", place_of(text, i),
            fmt::format("a control character (byte {}) stands here: this is not a text file",
                        static_cast<unsigned>(static_cast<unsigned char>(text[i]))),
            "write the file as plain text, UTF-8");
        return false;
    }
    if (const auto at = first_invalid_utf8(text)) {
        reader.refuse("not-utf8", place_of(text, *at), "this is not UTF-8 text",
                      "save the file as UTF-8");
        return false;
    }
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        reader.refuse("empty-file", {}, "the file is empty", "");
        return false;
    }
    std::size_t line = 1;
    for (std::size_t start = 0; start < text.size(); ++line) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        if (end - start > longest_yaml_line) {
            reader.refuse("line-too-long", {line, 1},
                          fmt::format("the line is longer than {} KiB", longest_yaml_line >> 10U),
                          "break it into several lines");
            return false;
        }
        const std::size_t first = text.find_first_not_of(" \t", start);
        const std::size_t tab = text.find('\t', start);
        if (tab < first && first < end && text[first] != '#') {
            reader.refuse("tab", {line, tab - start + 1},
                          "the line is indented with a tab, which YAML does not allow",
                          "indent with blanks only; most editors can be set to write them for the "
                          "tab key");
            return false;
        }
        if (text[start] == '%') {
            reader.refuse(
                "directive", {line, 1},
                "a line that begins with '%' is a YAML directive, which these files do not "
                "have",
                "leave it out; if it is meant as text, put it in quotes");
            return false;
        }
        start = end + 1;
    }
    return true;
}

}  // namespace

const Node* Node::find(std::string_view key) const {
    for (const Entry& entry : entries) {
        if (entry.key == key) return &entry.value;
    }
    return nullptr;
}

std::string_view kind_text(Node::Kind kind) {
    switch (kind) {
        case Node::Kind::scalar:
            return "a value";
        case Node::Kind::sequence:
            return "a list";
        case Node::Kind::mapping:
            break;
    }
    return "a mapping";
}

Node read_yaml(std::string_view text, const std::string& file, Problems& problems) {
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    problems.add_file(file, text.substr(0, largest_yaml_file));
    FileReader reader(text, file, problems);
    if (!check_text(text, reader)) return {};

    std::istringstream stream{std::string(text)};
    try {
        YAML::Parser parser(stream);
        if (!parser.HandleNextDocument(reader)) {
            reader.refuse("empty-file", {}, "the file holds nothing but comments", "");
            return {};
        }
        // Anything that is left makes the reader stop with "second-document".
        parser.HandleNextDocument(reader);
    } catch (const Stop&) {
    } catch (const YAML::Exception& error) {
        const Place place = error.mark.is_null()
                                ? Place{}
                                : Place{static_cast<std::size_t>(error.mark.line) + 1,
                                        static_cast<std::size_t>(error.mark.column) + 1};
        reader.refuse(
            "not-yaml", place, fmt::format("the text cannot be read as YAML: {}", error.msg),
            "look at indentation, ':' and quotes on this line and the one before; text that "
            "contains ': ' or ' #', begins with a special sign, or stands in braces and "
            "contains ',' or '?' needs quotes");
    }
    return reader.take_root();
}

}  // namespace ashtriage::packs
