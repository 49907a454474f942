#!/usr/bin/env bash
# Installs what is needed, builds everything and runs every check: formatting, warnings as errors,
# static analysis, the tests as users get the program, and the tests under the address and
# undefined-behaviour sanitizers. A second run only does what is left to do.
set -euo pipefail
cd "$(dirname "$0")/.."

source cli/packages.sh
test_packages="libgtest-dev libgmock-dev libbenchmark-dev libcsv-dev clang-format clang-tidy cppcheck \
git python3 python3-pexpect chromium"
# shellcheck disable=SC2086  # the lists are meant to be split
install_packages $build_packages $test_packages

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

echo "== Build with sanitizers, and static analysis: clang-tidy"
cmake -S . -B .build/sanitized -G Ninja -DCMAKE_BUILD_TYPE=Debug -DASHTRIAGE_SANITIZE=ON \
    -DASHTRIAGE_CLANG_TIDY=ON >/dev/null
cmake --build .build/sanitized

echo "== Tests under the address and undefined-behaviour sanitizers"
ctest --test-dir .build/sanitized --output-on-failure -j2
