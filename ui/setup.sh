# Sourced by ui/start.sh and tests/run.sh: installing what is missing, and building. Debian 12.

top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

program_packages=(g++ cmake ninja-build libsfml-dev libimgui-dev libstb-dev libbox2d-dev libtomlplusplus-dev
  nlohmann-json3-dev libcli11-dev libfmt-dev libsodium-dev pkg-config libx11-dev libgl-dev libgl1-mesa-dri fonts-b612 fonts-inter)
test_packages=(libgtest-dev libgmock-dev libbenchmark-dev libsundials-dev ngspice clang-format clang-tidy xvfb
  xauth openbox xdotool imagemagick chromium)
fuzz_packages=(clang libclang-rt-14-dev)

# install_missing PACKAGE...: asks apt for those that dpkg does not have; says nothing when all are there.
install_missing() {
  local missing=() package
  for package in "$@"; do
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  local as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  echo "installing: ${missing[*]}"
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" \
    >/dev/null
}

# configure FOLDER CMAKE_OPTION...
configure() {
  local folder=$1
  shift
  cmake -G Ninja -S "$top" -B "$folder" "$@" >/dev/null
}
