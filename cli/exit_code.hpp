// How the program ends, for whoever called it.
#pragma once

namespace ashtriage::cli {

enum class ExitCode : int {
    done = 0,
    finding = 1,    // done, and the answer is a finding: a rule check failed, a STOP
    usage = 2,      // the command line could not be understood
    bad_input = 3,  // data or rules that cannot be used
    book = 4,       // the book cannot be opened, read or written
    fault = 70,     // a fault in the program itself
};

}  // namespace ashtriage::cli
