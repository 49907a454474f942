#!/usr/bin/env bash
# fuzz.sh BUILD SECONDS [TARGET...] runs the fuzzers of a build with ASHTRIAGE_SANITIZE and clang, each for so many
# seconds, and ends with the first finding. BUILD keeps what they found and what they learnt, so that
# another run goes on from there. A finding that has been mended belongs into the folder corpus.
set -euo pipefail

here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "$1" && pwd)
seconds=$2
shift 2
[ $# -gt 0 ] || set -- job rules sheet values

for target in "$@"; do
    work=$build/tests/fuzz/work-$target
    mkdir -p "$work/learnt"
    dictionary=values
    [[ $target = rules || $target = job ]] && dictionary=yaml
    # A text of 16 KiB that takes 20 seconds, or 2 GiB of memory, is a finding too.
    if ! "$build/tests/fuzz/fuzz_$target" -dict="$here/$dictionary.dict" -max_total_time="$seconds" \
        -max_len=16384 -timeout=20 -rss_limit_mb=2048 -malloc_limit_mb=256 -print_final_stats=1 \
        -artifact_prefix="$work/" "$work/learnt" "$here/corpus/$target" >"$work/log" 2>&1; then
        cat "$work/log"
        exit 1
    fi
    executed=$(sed -n 's/^stat::number_of_executed_units: *//p' "$work/log")
    echo "$target: $executed texts, no finding"
done
