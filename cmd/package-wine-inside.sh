#!/bin/sh
# package-wine-inside.sh VERSION runs in the root that package-wine.sh makes.
set -eu
version=$1
export HOME=/root WINEDEBUG=-all LC_ALL=C.UTF-8
cd /try
unzip -q returnbench.zip
mv returnbench-*/* .

fail() {
	echo "package-wine-inside.sh: $*" >&2
	exit 1
}
wineboot --init >wineboot.log 2>&1 || true # it complains of the display it has not got
wine --version

for program in returnbench-console.exe returnbench.exe; do
	echo "-- $program"
	case $(wine $program version 2>/dev/null) in
	"returnbench $version, "*) ;;
	*) fail "version: $(wine $program version 2>&1)" ;;
	esac
	wine $program check slot.job.json
	status=0
	wine $program check five-faults.job.json 2>faults || status=$?
	[ "$status" = 1 ] || fail "a job at fault: status $status; want 1"
	[ "$(grep -c '^five-faults.job.json: ' faults)" = 5 ] || fail "faults: $(cat faults)"
	wine $program study slot.job.json --format json >windows.json 2>/dev/null
	cmp windows.json study.json || fail "the study differs from the Linux program's"
	wine $program report slot.job.json -o work.pdf --for work-order
	[ "$(head -c 5 work.pdf)" = "%PDF-" ] || fail "no PDF"
	rm work.pdf
done

echo "-- file-type.cmd"
wine cmd /c file-type.cmd
wine reg query 'HKCU\Software\Classes\Applications\returnbench.exe\shell\open\command' /ve | grep -q 'returnbench.exe" open "%1"' ||
	fail "the command is not registered"
wine cmd /c file-type.cmd /remove
if wine reg query 'HKCU\Software\Classes\Applications\returnbench.exe' >/dev/null 2>&1; then
	fail "the command is still registered"
fi
wineserver -k || true
