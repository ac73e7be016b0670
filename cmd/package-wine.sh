#!/bin/sh
# package-wine.sh VERSION runs the verbs of the Windows programs of out/packages
# under wine, in a root of Debian's that is thrown away, and holds a study against
# that of the Linux program. Go loads bcryptprimitives.dll, which wine has since
# Debian 13.
set -eu
cd "$(dirname "$0")/.."
. cmd/need.sh

version=${1:?package-wine.sh: want the version, as package.sh prints it}
need mmdebstrap
zip=$PWD/out/packages/returnbench-$version-windows-amd64.zip
tarball=$PWD/out/packages/returnbench-$version-linux-$(go env GOARCH).tar.gz
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tar -xzf "$tarball" -C "$work" --strip-components=1
job=assets/jobs/one-inch-slot.job.json
"$work/bin/returnbench" study "$job" --format json >"$work/study.json"

suite=${RETURNBENCH_WINE_SUITE:-trixie}
echo "== wine in a fresh root of Debian $suite"
mmdebstrap --quiet --variant=apt --include=wine,wine64,unzip --format=null \
	--customize-hook='mkdir "$1/try"' \
	--customize-hook="upload \"$zip\" /try/returnbench.zip" \
	--customize-hook="upload \"$PWD/$job\" /try/slot.job.json" \
	--customize-hook="upload \"$PWD/testdata/jobs/five-faults.job.json\" /try/five-faults.job.json" \
	--customize-hook="upload \"$work/study.json\" /try/study.json" \
	--customize-hook="upload \"$PWD/cmd/package-wine-inside.sh\" /try/inside.sh" \
	--customize-hook="chroot \"\$1\" sh /try/inside.sh '$version'" \
	"$suite" /dev/null
echo "== the Windows programs' verbs run under wine"
