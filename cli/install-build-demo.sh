#!/usr/bin/env bash
# Installs what is needed, builds the program and runs the whole job on the invented demonstration
# property. A second run only does what is left to do.
#
# Usage: bash cli/install-build-demo.sh [folder for the demonstration, default .build/demo]
set -euo pipefail
cd "$(dirname "$0")/.."

source cli/packages.sh
# shellcheck disable=SC2086  # the list is meant to be split
install_packages $build_packages

cmake -S . -B .build/release -G Ninja -DCMAKE_BUILD_TYPE=Release -DASHTRIAGE_TESTS=OFF >/dev/null
cmake --build .build/release

demo_folder=${1:-.build/demo}
rm -rf "$demo_folder"
.build/release/cli/ashtriage demo "$demo_folder"
echo
echo "The program is .build/release/cli/ashtriage"
