#!/bin/sh
# Runs every check of the project: formatting, vet, staticcheck, the builds with
# and without a window, all tests, the race detector where there is concurrency,
# and the real window on a display of its own. Goes on after a failure; exits
# with 1 if anything failed. With --packages it also builds what is handed out,
# twice in two folders, and installs it in a fresh Debian root; that takes a
# quarter of an hour. --long has the race detector, the random user, the generated
# jobs and the pictures at their full length, for hours. --faults plants faults in
# the joints of the engine instead, for tens of minutes, and exits with 1 if the
# tests catch too few of them.
set -u
cd "$(dirname "$0")/.."
. cmd/need.sh

packages=no
long=no
case ${1:-} in
"" | --faults) ;;
--packages) packages=yes ;;
--long) long=yes ;;
*)
	echo "test.sh: given $1; want nothing, --packages, --long or --faults" >&2
	exit 2
	;;
esac

# shellcheck disable=SC2086
need $window_packages xvfb xdotool xclip imagemagick openbox wmctrl poppler-utils qpdf libreoffice-calc-nogui desktop-file-utils man-db python3-scipy parallel || exit 3

if [ "${1:-}" = --faults ]; then
	# The rooms that join the parts; the tests of the part itself hold a part.
	set -- sizing/*.go
	for room in house assume option money search upgrade readings recommend judge fit compare perturb sampling airpath; do
		set -- "$@" sizing/$room/*.go
	done
	exec nice go run ./cmd/mutate -n 150 -last 'Independent|Golden' -test "./sizing ./sizing/..." "$@"
fi

passed=""
failed=""
step() {
	name=$1
	shift
	echo "== $name"
	if "$@"; then
		passed="$passed
  ok      $name"
	else
		failed="$failed
  FAILED  $name"
	fi
}

formatted() {
	wrong=$(gofmt -l .) || return 1
	[ -z "$wrong" ] && return 0
	echo "gofmt would change:"
	echo "$wrong"
	return 1
}

headless() {
	CGO_ENABLED=0 go build -tags headless -o out/returnbench-headless ./cmd/returnbench &&
		out/returnbench-headless check assets/jobs/one-inch-slot.job.json || return 1
	# Its open verb has no window to open: wrong usage.
	out/returnbench-headless open 2>/dev/null
	[ $? = 2 ]
}

# Property tests draw the same houses everywhere, so that the verdict depends on
# the code alone; without the seed they look for new ones.
tests() {
	drawing=$(go list -f '{{$p := .ImportPath}}{{range .TestImports}}{{if eq . "pgregory.net/rapid"}}{{$p}}{{end}}{{end}}
{{range .XTestImports}}{{if eq . "pgregory.net/rapid"}}{{$p}}{{end}}{{end}}' "$@" | sort -u)
	others=$(go list "$@" | grep -vxF "$drawing")
	code=0
	# shellcheck disable=SC2086
	go test $race -timeout $timeout $drawing -rapid.seed=1 || code=1
	# shellcheck disable=SC2086
	go test $race -timeout $timeout $others || code=1
	return $code
}

# concurrent lists the packages of the engine and of the session that start a
# goroutine or share something between goroutines, and the front of the engine,
# where the tests of its rooms stand.
concurrent() {
	echo ./sizing
	find sizing gui/session -name '*.go' ! -name '*_test.go' -exec grep -lE '"sync"|"sync/atomic"|errgroup|^[[:space:]]*go (func|[a-z])' {} + |
		xargs -n 1 dirname | sort -u | sed 's,^,./,'
}

# same_bytes builds the packages of the commit once more, in another folder.
same_bytes() {
	other=$(mktemp -d) || return 1
	git clone -q . "$other/source" &&
		(cd "$other/source" && sh cmd/package.sh) &&
		diff out/packages/SHA256SUMS "$other/source/out/packages/SHA256SUMS"
	code=$?
	rm -rf "$other"
	return $code
}

# Memory is cheaper here than the collector's time.
export GOGC=300
mkdir -p out
step "gofmt" formatted
step "modules as they were published" go mod verify
# The toolkit is compiled here, once; what follows finds it built.
step "build" go build ./...
step "vet" go vet ./...
step "staticcheck" go tool staticcheck ./...
step "build without a window or cgo" headless
step "pictures of the manual" sh cmd/manual.sh --check
race=""
timeout=30m
if [ "$long" = yes ]; then
	timeout=10h
	export RETURNBENCH_EVERY_PICTURE=1 RETURNBENCH_JOBS=5000 RETURNBENCH_KILLS=500 RETURNBENCH_STEPS=20000
fi
step "tests" tests ./...
race="-race"
if [ "$long" = yes ]; then
	step "race detector" tests ./sizing/... ./gui/...
	step "many edits in one window" go test -tags longrun -timeout 10h -run 'LongRun|SameProcess' ./gui
else
	# The independent solver is another program, which the detector cannot look into.
	race="-race -skip Independent"
	# shellcheck disable=SC2046
	step "race detector" tests $(concurrent)
	# The toolkit is compiled once more for it, which takes a minute or two.
	step "race detector in the window" go test -race -timeout 30m -run 'TestAnyUser' ./gui
fi
step "the real window, and a spreadsheet program" env RETURNBENCH_PICTURES="$PWD/out/pictures" go test -tags e2e -timeout 30m -count=1 -run 'TestWindow|TestSpreadsheet' ./cmd/returnbench
if [ "$packages" = yes ]; then
	step "packages, tried in fresh roots" sh cmd/package.sh all --try
	step "the same packages from another folder" same_bytes
fi

echo "== summary$passed$failed"
[ -z "$failed" ]
