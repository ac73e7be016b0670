#!/bin/sh
# Builds returnbench and opens its window on the first example. Without a
# display it writes what the window would show to out/ instead, and needs no
# package for that but Go.
set -eu
cd "$(dirname "$0")/.."
. cmd/need.sh

mkdir -p out
job=out/one-inch-slot.job.json
[ -e "$job" ] || cp assets/jobs/one-inch-slot.job.json "$job"

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
	# shellcheck disable=SC2086
	need $window_packages
	echo "Building; the first time takes a few minutes."
	go build -tags no_emoji -o out/returnbench ./cmd/returnbench
	exec out/returnbench open "$job"
fi

need
echo "There is no display (neither DISPLAY nor WAYLAND_DISPLAY is set); building without a window."
CGO_ENABLED=0 go build -tags headless -o out/returnbench-headless ./cmd/returnbench
out/returnbench-headless study "$job" >out/study.txt
out/returnbench-headless study "$job" --json >out/study.json
out/returnbench-headless charts "$job" -o out/charts --format png >/dev/null
out/returnbench-headless picture "$job" -o out/window.png
echo "Written to out/: study.txt, study.json, charts/, window.png (the window as it would look)"
