// The program: understands the command line, runs one command, and turns every kind of failure into
// one short message and an exit code.
#include <algorithm>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "book/book_error.hpp"
#include "command_line.hpp"
#include "measure/input_error.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::cli {

namespace {

// Control characters that came with the input must not reach the terminal.
std::string printable(std::string text) {
    std::ranges::replace_if(
        text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }, ' ');
    return text;
}

void complain(const std::string& message, const std::string& where, const std::string& hint) {
    std::cerr << "ashtriage: ";
    if (!where.empty()) std::cerr << printable(where) << ": ";
    std::cerr << printable(message) << '\n';
    if (!hint.empty()) std::cerr << "  " << printable(hint) << '\n';
}

ExitCode run(int count, char** words) {
    Options options;
    Selection selection;
    const auto app = command_line(options, selection);
    try {
        app->parse(count, words);
    } catch (const CLI::Success& wanted) {  // --help, --version
        return app->exit(wanted) == 0 ? ExitCode::done : ExitCode::fault;
    } catch (const CLI::ParseError& error) {
        complain(
            usage_message(*app, error, std::vector<std::string>(words + 1, words + count)), {},
            "\"ashtriage --help\" lists the commands, \"ashtriage COMMAND --help\" explains one.");
        return ExitCode::usage;
    }
    static_cast<void>(options.date());  // a mistaken date is refused whether or not it is used
    const ExitCode code = selection.action(options);
    std::cout.flush();
    if (!std::cout) {
        complain("The output could not be written", {}, "Is the disk full?");
        return ExitCode::bad_input;
    }
    return code;
}

ExitCode run_guarded(int count, char** words) {
    try {
        return run(count, words);
    } catch (const book::BookError& error) {
        complain(error.what(), error.where(), error.hint());
        return ExitCode::book;
    } catch (const packs::BadFile& error) {
        std::cerr << error.what() << '\n';
        return ExitCode::bad_input;
    } catch (const measure::InputError& error) {
        complain(error.what(), error.where(), error.hint());
        return ExitCode::bad_input;
    } catch (const std::exception& error) {
        complain(std::string("A fault in the program: ") + error.what(), {},
                 "Nothing was half written. \"ashtriage doctor\" shows what to report.");
        return ExitCode::fault;
    }
}

}  // namespace

}  // namespace ashtriage::cli

int main(int count, char** words) {
    return static_cast<int>(ashtriage::cli::run_guarded(count, words));
}
