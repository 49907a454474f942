#!/usr/bin/env bash
# Installs what is needed, builds everything and runs every check: formatting, warnings as errors,
# static analysis, the tests as users get the program, the tests under the address and
# undefined-behaviour sanitizers, and some fuzzing. A second run builds only what is left to build.
set -euo pipefail
cd "$(dirname "$0")/.."

source cli/packages.sh
test_packages="libgtest-dev libgmock-dev libbenchmark-dev libcsv-dev coinor-libcbc-dev \
clang-format clang-tidy cppcheck git python3 python3-pexpect python3-icalendar python3-vobject python3-scipy \
chromium clang libclang-rt-14-dev"
# Debian's npm does not go together with other builds of node, which may be there already.
command -v npm >/dev/null || test_packages+=" nodejs npm"
# shellcheck disable=SC2086  # the lists are meant to be split
install_packages $build_packages $test_packages

echo "== Rule libraries to be held against"
(
    cd tests/bench/peers
    [ node_modules/.package-lock.json -nt package-lock.json ] ||
        npm ci --no-audit --no-fund --ignore-scripts
)

echo "== Formatting"
find engine cli tests -name '*.hpp' -o -name '*.cpp' | sort | xargs clang-format --dry-run -Werror

echo "== Build and tests, as users get the program"
cmake -S . -B .build/tested -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build .build/tested
ctest --test-dir .build/tested --output-on-failure -j2

echo "== Static analysis: cppcheck"
mkdir -p .build/cppcheck
cppcheck --quiet -j2 --std=c++20 --language=c++ --enable=warning,performance,portability \
    --error-exitcode=1 --inline-suppr --cppcheck-build-dir=.build/cppcheck \
    --suppress=missingInclude --suppress=unknownMacro --suppress=internalAstError \
    engine cli

# It follows every path through a file by itself, which takes long: over all but the output.
echo "== Static analysis: clang's analyzer"
cmake -S . -B .build/analyzed -G Ninja -DCMAKE_UNITY_BUILD=OFF -DASHTRIAGE_TESTS=OFF \
    -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ >/dev/null
run-clang-tidy -quiet -j2 -p .build/analyzed -checks='-*,clang-analyzer-*' \
    "$PWD/engine/(?!present/)" >.build/analyzed/found 2>&1 || {
    grep -A8 "error:" .build/analyzed/found
    exit 1
}

# One build serves the sanitizers, clang-tidy and the fuzzers; it is made by the other compiler, which
# warns of other things.
echo "== Build with sanitizers, and static analysis: clang-tidy"
cmake -S . -B .build/sanitized -G Ninja -DCMAKE_BUILD_TYPE=Debug -DASHTRIAGE_SANITIZE=ON \
    -DASHTRIAGE_CLANG_TIDY=ON -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++ >/dev/null
cmake --build .build/sanitized

echo "== Fuzzing: a minute for the rule files, less for the others"
tests/fuzz/fuzz.sh .build/sanitized 60 rules
tests/fuzz/fuzz.sh .build/sanitized 20 job sheet values

echo "== Tests under the address and undefined-behaviour sanitizers"
ctest --test-dir .build/sanitized --output-on-failure -j2 --exclude-regex "^bench[.]"
