#!/bin/sh
# package-try.sh VERSION installs the Linux packages of out/packages in a fresh
# Debian root, works with them there, removes them and looks for what is left.
# The root is made of Debian's packages and thrown away.
set -eu
cd "$(dirname "$0")/.."
. cmd/need.sh

version=${1:?package-try.sh: want the version, as package.sh prints it}
need mmdebstrap lintian
packages=$PWD/out/packages
deb=$packages/returnbench_${version}_$(dpkg --print-architecture).deb
tarball=$packages/returnbench-$version-linux-$(go env GOARCH).tar.gz
ls "$deb" "$tarball" >/dev/null

echo "== lintian"
# A package of the project's own: no bug of Debian's to close, no address that
# mail reaches.
lintian --allow-root --fail-on error --suppress-tags bogus-mail-host,bogus-mail-host-in-debian-changelog,initial-upload-closes-no-bugs "$deb"

# The release that this machine runs: the program is linked with its libraries.
suite=$(. /etc/os-release && echo "${RETURNBENCH_SUITE:-$VERSION_CODENAME}")
echo "== a fresh root of Debian $suite"
mmdebstrap --quiet --variant=apt --format=null \
	--customize-hook='mkdir "$1/try"' \
	--customize-hook="upload \"$deb\" /try/returnbench.deb" \
	--customize-hook="upload \"$tarball\" /try/returnbench.tar.gz" \
	--customize-hook="upload \"$PWD/testdata/jobs/five-faults.job.json\" /try/five-faults.job.json" \
	--customize-hook="upload \"$PWD/cmd/package-inside.sh\" /try/inside.sh" \
	--customize-hook="chroot \"\$1\" sh /try/inside.sh '$version'" \
	"$suite" /dev/null
echo "== the packages install, run and are removed"
