#!/usr/bin/env bash
# How long a frame of the open bench takes while a person cranks, turns knobs and goes back over it: drives the real
# program under Xvfb with software OpenGL at 1280x800, once for each view, and prints frames a second and percentiles.
#   bash tests/speed/frames.sh [SECONDS of each view, 20]
set -euo pipefail
source "$(dirname "$0")/../../ui/setup.sh"
seconds=${1:-20}
work=$(mktemp -d)
export LIBGL_ALWAYS_SOFTWARE=1 XDG_DATA_HOME=$work VOLTFALL_FRAME_TIMES=$work/frames DISPLAY=:93
Xvfb :93 -noreset -screen 0 1280x800x24 >/dev/null 2>&1 &
screen=$!
trap 'kill $screen 2>/dev/null || true; rm -rf "$work"' EXIT
sleep 2

# The views are keys of the bar; the bench turns its key every two seconds, so that engagements are in what is measured.
for view in "engage 150" "volts 262" "threshold 374"; do
  read -r name x <<<"$view"
  "$top/build/optimised/voltfall" bench >/dev/null 2>&1 &
  program=$!
  sleep 3
  xdotool mousemove "$x" 24 click 1
  began=$(date +%s%N)
  while [ $((($(date +%s%N) - began) / 1000000000)) -lt "$seconds" ]; do
    xdotool keydown c
    sleep 1.2
    xdotool keyup c
    sleep 0.8
  done
  kill "$program" 2>/dev/null || true
  wait "$program" 2>/dev/null || true
  # Fonts and first pictures are made in the first second.
  tail -n +60 "$work/frames" | sort -n | awk -v name="$name" -v s="$seconds" '{ms[NR] = $1; sum += $1} END {
    printf "%-10s %6d frames, mean %5.1f ms, median %5.1f, 99 in 100 within %5.1f, longest %5.1f\n",
           name, NR, sum / NR, ms[int(NR / 2) + 1], ms[int(NR * 0.99)], ms[NR]}'
done
