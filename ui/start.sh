#!/usr/bin/env bash
# Installs what is missing, builds the program and starts it. Anything given is passed on: bash ui/start.sh bay FILE
set -euo pipefail
source "$(dirname "$0")/setup.sh"

install_missing "${program_packages[@]}"
build "$top/build/program" voltfall -DVOLTFALL_TESTS=OFF
exec "$top/build/program/voltfall" "$@"
