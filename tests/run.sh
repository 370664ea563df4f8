#!/usr/bin/env bash
# Installs what is missing, builds and runs every test.
#   bash tests/run.sh              optimised
#   bash tests/run.sh --sanitize   under AddressSanitizer and UndefinedBehaviorSanitizer
#   bash tests/run.sh --style      formatting and clang-tidy
#   bash tests/run.sh --fuzz [S]   every reader of strangers' files for S seconds (60), from the corpus in tests/fuzz
set -euo pipefail
source "$(dirname "$0")/../ui/setup.sh"

install_missing "${program_packages[@]}" "${test_packages[@]}"
jobs=$(nproc)

# build_and_test FOLDER CMAKE_OPTION...
build_and_test() {
  local folder=$1
  configure "$@" -DVOLTFALL_TESTS=ON
  cmake --build "$folder"
  ctest --test-dir "$folder" --output-on-failure -j "$jobs"
}

case "${1:-}" in
  "")
    build_and_test "$top/build/optimised"
    ;;
  --sanitize)
    build_and_test "$top/build/sanitised" -DVOLTFALL_SANITIZE=ON -DCMAKE_BUILD_TYPE=Debug
    ;;
  --style)
    cd "$top"
    git ls-files '*.cpp' '*.h' | xargs clang-format --dry-run --Werror
    configure build/optimised -DVOLTFALL_TESTS=ON
    git ls-files '*.cpp' | xargs -P "$jobs" -n 4 clang-tidy --quiet --extra-arg=-Wno-unknown-warning-option -p build/optimised
    echo "formatting and clang-tidy: clean"
    ;;
  --fuzz)
    install_missing "${fuzz_packages[@]}"
    CXX=clang++ configure "$top/build/fuzz" -DVOLTFALL_FUZZ=ON
    cmake --build "$top/build/fuzz"
    # All at once: each has its whole time, and none works more than one processor.
    at_work=()
    for reader in scenario sealed record walk; do
      found="$top/build/fuzz/found/$reader"
      mkdir -p "$found"
      # What is found stays in build/; the corpus in tests/ is read alone. A case has half a minute.
      (cd "$found" && "$top/build/fuzz/${reader}_fuzz" -max_total_time="${2:-60}" -timeout=30 -rss_limit_mb=3000 \
        -max_len=20000 -print_final_stats=1 -verbosity=0 "$found" "$top/tests/fuzz/corpus/$reader" &&
        echo "fuzzed the reader of: $reader") &
      at_work+=($!)
    done
    for process in "${at_work[@]}"; do wait "$process"; done
    ;;
  *)
    echo "tests/run.sh: $1 is not known; nothing, --sanitize, --style or --fuzz is allowed" >&2
    exit 2
    ;;
esac
