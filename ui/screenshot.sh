#!/usr/bin/env bash
# Makes the README's pictures from the program as it is, in a virtual screen:
#   assets/pictures/bay.png    the corroded-clamp job: made safe, the battery and the clamp measured at rest and cranking,
#                              the second reading still on the meter
#   assets/pictures/bench.png  the open bench, a healthy engagement gone over again while the teeth slide in
# Usage: bash ui/screenshot.sh [PROGRAM]   (default: build/optimised/voltfall; needs xvfb, openbox, xdotool, imagemagick)
set -euo pipefail
cd "$(dirname "$0")/.."
program=${1:-build/optimised/voltfall}
[ -x "$program" ] || { echo "screenshot.sh: $program is not built; run: bash ui/start.sh" >&2; exit 1; }
for tool in Xvfb openbox xdotool import; do
  command -v "$tool" > /dev/null || {
    echo "screenshot.sh: $tool is missing; apt-get install xvfb openbox xdotool imagemagick" >&2
    exit 1
  }
done

work=$(mktemp -d)
exec 3< <(Xvfb -noreset -displayfd 1 -screen 0 1280x800x24 2> "$work/xvfb.log")
xvfb=$!
read -r number <&3
export DISPLAY=":$number" LIBGL_ALWAYS_SOFTWARE=1 XDG_DATA_HOME="$work"
openbox > "$work/openbox.log" 2>&1 &
openbox=$!
trap 'kill "$voltfall" "$openbox" "$xvfb" 2> /dev/null || true; rm -rf "$work"' EXIT

start() {  # start ARGUMENT... : the program, its window in focus
  "$program" "$@" &
  voltfall=$!
  window=
  for _ in $(seq 60); do
    window=$(xdotool search --onlyvisible --name '^Voltfall$' 2> /dev/null | head -n 1) || true
    [ -n "$window" ] && break
    sleep 0.5
  done
  [ -n "$window" ] || { echo "screenshot.sh: the program opened no window" >&2; exit 1; }
  sleep 1
  xdotool windowfocus "$window"
  sleep 2
}
keep() {  # keep NAME : the window as it is
  import -window "$window" "$work/$1.png"
  mkdir -p assets/pictures
  mv "$work/$1.png" "assets/pictures/$1.png"
  echo "assets/pictures/$1.png"
  kill "$voltfall"
  wait "$voltfall" 2> /dev/null || true
}
key() { for name in "$@"; do xdotool key --delay 120 "$name"; sleep 0.3; done; }
lead() {  # lead LETTER NUMBER
  key "$1"
  xdotool type --delay 120 "$2"
  key Return
}

start bay scenarios/clicks_in_the_morning.toml --record "$work/picture.vfrec"
xdotool mousemove --window "$window" 1100 640  # off the picture
key e p i  # make safe

lead r 1; lead b 13
sleep 2; key n          # at rest
key 1; sleep 1.6; key n # cranking
sleep 2; key k          # key off again
lead a pos
lead r 1; lead b 2
sleep 2; key n
key 2; sleep 1.2; key n    # a crank of 5 s: the picture is taken while it lasts
keep bay

start bench
xdotool mousemove --window "$window" 1100 790
xdotool keydown c; sleep 1.3; xdotool keyup c; sleep 1.5
key l       # over the engagement again, slowly
sleep 4.3   # to where the teeth slide in
key p
sleep 0.5
keep bench
