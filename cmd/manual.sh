#!/bin/sh
# Draws the pictures of README.md and of assets/manual anew with the program's own verb,
# small enough to be kept: assets/manual/*.png. What was drawn is in
# assets/manual/drawn.sha256. With --check it changes nothing: it draws them once
# more and exits with 1 where one is no longer what the window shows.
set -eu
cd "$(dirname "$0")/.."

check=no
case ${1:-} in
"") command -v convert >/dev/null || {
	echo "manual.sh: the pictures are made small by convert, of the package imagemagick; install it" >&2
	exit 3
} ;;
--check) check=yes ;;
*)
	echo "manual.sh: given $1; want nothing or --check" >&2
	exit 2
	;;
esac

drawn=$(mktemp -d)
trap 'rm -rf "$drawn"' EXIT
CGO_ENABLED=0 go build -tags headless -o "$drawn/returnbench" ./cmd/returnbench

# draw NAME JOB PLACE [THEME]. No picture of the pages: they hold the day's date.
draw() {
	"$drawn/returnbench" picture "$2" -o "$drawn/$1.png" --place "$3" --theme "${4:-light}" --size 1120x700
}
house=assets/jobs/one-inch-slot.job.json
draw start testdata/manual/start.job.json start
draw blower $house blower
draw readings $house readings
draw problems $house problems
draw sizes $house sizes
draw compare $house compare
draw dark $house charts dark
draw class $house lesson

if [ $check = yes ]; then
	cp assets/manual/drawn.sha256 "$drawn/"
	if ! (cd "$drawn" && sha256sum --quiet -c drawn.sha256); then
		echo "manual.sh: the window no longer looks like assets/manual; run sh cmd/manual.sh, look at the pictures, and read assets/manual/README.md beside them" >&2
		exit 1
	fi
	exit 0
fi
for picture in "$drawn"/*.png; do
	convert "$picture" +dither -colors 96 -strip -define png:exclude-chunks=date,time "PNG8:assets/manual/$(basename "$picture")"
done
(cd "$drawn" && sha256sum -- *.png) >assets/manual/drawn.sha256
