#!/usr/bin/env bash
# Installs what is missing, builds the program and starts it. Anything given is passed on: bash ui/start.sh bay FILE
set -euo pipefail
source "$(dirname "$0")/setup.sh"

install_missing "${program_packages[@]}"
folder=$top/build/optimised
[ -f "$folder/build.ninja" ] || configure "$folder" -DVOLTFALL_TESTS=OFF
cmake --build "$folder" --target voltfall
exec "$folder/voltfall" "$@"
