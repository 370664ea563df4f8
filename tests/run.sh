#!/usr/bin/env bash
# Installs what is missing, builds and runs every test.
#   bash tests/run.sh              optimised
#   bash tests/run.sh --sanitize   under AddressSanitizer and UndefinedBehaviorSanitizer
#   bash tests/run.sh --style      formatting and clang-tidy
set -euo pipefail
source "$(dirname "$0")/../ui/setup.sh"

install_missing "${program_packages[@]}" "${test_packages[@]}"
jobs=$(nproc)

run_tests() {
  ctest --test-dir "$1" --output-on-failure -j "$jobs"
}

case "${1:-}" in
  "")
    build "$top/build/optimised" all
    run_tests "$top/build/optimised"
    ;;
  --sanitize)
    build "$top/build/sanitised" all -DVOLTFALL_SANITIZE=ON -DCMAKE_BUILD_TYPE=Debug
    run_tests "$top/build/sanitised"
    ;;
  --style)
    cd "$top"
    git ls-files '*.cpp' '*.h' | xargs clang-format --dry-run --Werror
    cmake -G Ninja -S . -B build/optimised >/dev/null
    git ls-files '*.cpp' | xargs -P "$jobs" -n 4 clang-tidy --quiet -p build/optimised
    echo "formatting and clang-tidy: clean"
    ;;
  *)
    echo "tests/run.sh: $1 is not known; nothing, --sanitize or --style is allowed" >&2
    exit 2
    ;;
esac
