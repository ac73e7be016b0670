#!/bin/sh
# package.sh [linux | deb | windows | all] [--try] builds what is handed out, in
# out/packages: a tarball and a Debian package for Linux, a zip for Windows.
# With --try the Linux packages are also installed, run and removed in a fresh
# Debian root, and the verbs of the Windows programs run under wine. The same
# commit gives the same bytes, wherever it is built with the same compilers.
set -eu
cd "$(dirname "$0")/.."
. cmd/need.sh

try=no
what=""
for arg in "$@"; do
	case $arg in
	--try) try=yes ;;
	linux | deb | windows | all) what="$what $arg" ;;
	*)
		echo "package.sh: given $arg; want linux, deb, windows or all, and --try to install the result in a fresh root" >&2
		exit 2
		;;
	esac
done
what=${what:- all}
[ "$try" = no ] || what="$what linux deb"
wanted() {
	case "$what " in
	*" $1 "* | *" all "*) return 0 ;;
	esac
	return 1
}

# One thread: more of them cut what xz packs into other pieces.
export LC_ALL=C TZ=UTC DPKG_DEB_THREADS_MAX=1
umask 022

# The version is FyneApp.toml's. A commit before the tag of that version is
# called 0.1.0~N, so that the release replaces it, one after the tag 0.1.0+N.
base=$(sed -n 's/^Version = "\(.*\)"$/\1/p' FyneApp.toml)
version=$base
commits=0
if commit=$(git rev-parse --short=12 HEAD 2>/dev/null); then
	if after=$(git describe --tags --match "v$base" --long --abbrev=12 2>/dev/null); then
		commits=${after#"v$base-"}
		commits=${commits%%-*}
		[ "$commits" = 0 ] || version="$base+$commits.g$commit"
	else
		commits=$(git rev-list --count HEAD)
		version="$base~$commits.g$commit"
	fi
	SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct)}
	if [ -n "$(git status --porcelain)" ]; then
		version="$version.changed"
		echo "The source has changes that are not committed; the version says so." >&2
	fi
else
	# An unpacked source has no history; its files have the date of its making.
	SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(stat -c %Y FyneApp.toml)}
fi
export SOURCE_DATE_EPOCH

need librsvg2-bin
echo "returnbench $version into out/packages"

packages=$PWD/out/packages
mkdir -p "$packages"
work=$(mktemp -d)
resource=cmd/returnbench/returnbench_windows_amd64.syso
trap 'rm -rf "$work" "$resource"' EXIT
trap 'exit 3' INT TERM

# compile OUTPUT [LINKER FLAGS] links the program with its version.
compile() {
	output=$1
	shift
	go build -trimpath -buildvcs=false ${tags:+-tags "$tags"} -ldflags "-s -w -buildid= -X main.version=$version $*" -o "$output" ./cmd/returnbench
}

icon() { rsvg-convert -w "$1" -h "$1" -o "$2" assets/icon.svg; }

# licenses writes the license of every module that the program holds, and of Go.
licenses() {
	echo "returnbench $version holds these modules. Each stands under its own license."
	go list -deps -f '{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}' ./cmd/returnbench | sort -u | sed '/^$/d' >"$work/modules"
	echo "Go $(go env GOVERSION) $(go env GOROOT)" >>"$work/modules"
	while read -r path module_version dir; do
		printf '\n%s\n%s %s\n' "------------------------------------------------------------" "$path" "$module_version"
		texts=$(find "$dir" -maxdepth 2 -type f \( -iname 'license*' -o -iname 'copying*' -o -iname 'notice*' -o -iname 'unlicense*' \) | sort)
		if [ -z "$texts" ]; then
			echo "package.sh: $path has no license file; it cannot be handed out" >&2
			return 1
		fi
		echo "$texts" | while read -r file; do
			echo
			cat "$file"
		done
	done <"$work/modules"
}

# compress FILE... as gzip with neither name nor date.
compress() { gzip -9 -n "$@"; }

# linux_tree lays out what both Linux packages install, below bin and share.
linux_tree() {
	[ ! -d "$work/tree" ] || return 0
	# shellcheck disable=SC2086
	need $window_packages
	share=$work/tree/share
	doc=$share/doc/returnbench
	mkdir -p "$work/tree/bin" "$share/applications" "$share/mime/packages" "$share/man/man1" "$doc/examples" \
		"$share/bash-completion/completions" "$share/zsh/vendor-completions" "$share/fish/vendor_completions.d"
	tags=no_emoji compile "$work/tree/bin/returnbench"
	cp assets/linux/org.returnbench.bench.desktop "$share/applications/"
	cp assets/linux/returnbench.xml "$share/mime/packages/"
	for size in 16 22 24 32 48 64 128 256 512; do
		mkdir -p "$share/icons/hicolor/${size}x$size/apps"
		icon $size "$share/icons/hicolor/${size}x$size/apps/returnbench.png"
	done
	mkdir -p "$share/icons/hicolor/scalable/apps"
	cp assets/icon.svg "$share/icons/hicolor/scalable/apps/returnbench.svg"

	"$work/tree/bin/returnbench" man >"$share/man/man1/returnbench.1"
	"$work/tree/bin/returnbench" completion bash >"$share/bash-completion/completions/returnbench"
	"$work/tree/bin/returnbench" completion zsh >"$share/zsh/vendor-completions/_returnbench"
	"$work/tree/bin/returnbench" completion fish >"$share/fish/vendor_completions.d/returnbench.fish"

	mkdir -p "$doc/assets/manual"
	cp README.md "$doc/"
	cp assets/manual/README.md assets/manual/*.png "$doc/assets/manual/"
	cp assets/linux/copyright "$doc/copyright"
	cp assets/RELEASES.md "$doc/NEWS"
	licenses >"$doc/third-party.txt"
	cp assets/jobs/*.job.json assets/lessons/*.lesson.json "$doc/examples/"
	compress "$share/man/man1/returnbench.1" "$doc/NEWS" "$doc/third-party.txt"
	chmod -R u=rwX,go=rX "$work/tree"
}

linux() {
	linux_tree
	name=returnbench-$version-linux-$(go env GOARCH)
	cp -r "$work/tree" "$work/$name"
	cp assets/linux/install.sh "$work/$name/"
	chmod 755 "$work/$name/install.sh"
	tar --sort=name --mtime="@$SOURCE_DATE_EPOCH" --owner=0 --group=0 --numeric-owner -C "$work" -cf "$work/$name.tar" "$name"
	compress "$work/$name.tar"
	mv "$work/$name.tar.gz" "$packages/"
}

deb() {
	need dpkg-dev
	linux_tree
	maintainer=${RETURNBENCH_MAINTAINER:-returnbench maintainers <maintainers@returnbench.invalid>}
	root=$work/deb
	mkdir -p "$root/usr" "$root/DEBIAN" "$work/debian"
	cp -r "$work/tree/." "$root/usr/"
	# dpkg-shlibdeps finds what the program is linked with; it wants this file.
	# What GLFW opens as it starts is named below (x11_init.c, glx_context.c).
	printf 'Source: returnbench\n\nPackage: returnbench\nArchitecture: any\n' >"$work/debian/control"
	depends=$(cd "$work" && dpkg-shlibdeps -O deb/usr/bin/returnbench | sed 's/^shlibs:Depends=//')
	cat >"$root/DEBIAN/control" <<END
Package: returnbench
Version: $version
Architecture: $(dpkg --print-architecture)
Maintainer: $maintainer
Installed-Size: $(find "$root/usr" -type f -printf '%s\n' | awk '{sum += $1} END {print int(sum / 1024) + 1}')
Depends: $depends, libxcursor1, libxi6, libxinerama1, libxrandr2, libxrender1, libxxf86vm1
Recommends: desktop-file-utils, hicolor-icon-theme, libgl1-mesa-dri, shared-mime-info, xdg-utils
Suggests: cups-client
Section: science
Priority: optional
Description: workbench for the return side of a home's forced-air system
 Finds what a filter and the return of a furnace or an air handler cost now,
 which grille, duct, slot or deeper cabinet the airflow wants, and where the
 blower will then run. Makes pages for the owner and a work order, and checks
 the work with the gauge's readings. Works with a window, and without one by
 verbs for scripts.
END
	cat >"$work/changelog" <<END
returnbench ($version) unstable; urgency=medium

  * What is new in each release stands in NEWS.gz.

 -- $maintainer  $(date -u -R -d "@$SOURCE_DATE_EPOCH")
END
	compress "$work/changelog"
	mv "$work/changelog.gz" "$root/usr/share/doc/returnbench/"
	(cd "$root" && find usr -type f | sort | xargs md5sum >DEBIAN/md5sums)
	chmod -R u=rwX,go=rX "$root"
	dpkg-deb --root-owner-group -Zxz --build "$root" "$packages/returnbench_${version}_$(dpkg --print-architecture).deb" >/dev/null
}

# windows_resource NAME gives the program to be linked its icon, version and
# manifest. The number of commits stands in for the fourth part of the version.
windows_resource() {
	numbers=$base.$commits
	for file in returnbench.rc returnbench.manifest; do
		sed -e "s/@VERSION@/$version/g" -e "s/@NAME@/$1/g" -e "s/@NUMBERS@/$numbers/g" \
			-e "s/@COMMAS@/$(echo "$numbers" | tr . ,)/g" "assets/windows/$file" >"$work/$file"
	done
	x86_64-w64-mingw32-windres -I "$work" -O coff -i "$work/returnbench.rc" -o "$resource"
}

windows() {
	need gcc-mingw-w64-x86-64 icoutils zip
	name=returnbench-$version-windows-amd64
	mkdir -p "$work/$name/examples" "$work/ico"
	for size in 16 24 32 48 64 128 256; do
		icon $size "$work/ico/$size.png"
	done
	(cd "$work/ico" && icotool -c -o ../returnbench.ico 16.png 24.png 32.png 48.png 64.png 128.png -r 256.png)

	# A Windows program has either a window or a console; so there are two.
	windows_resource returnbench
	(
		export GOOS=windows GOARCH=amd64 CGO_ENABLED=1 CC=x86_64-w64-mingw32-gcc
		tags=no_emoji compile "$work/$name/returnbench.exe" -H windowsgui
	)
	windows_resource returnbench-console
	(
		export GOOS=windows GOARCH=amd64 CGO_ENABLED=0
		tags=headless compile "$work/$name/returnbench-console.exe"
	)
	rm -f "$resource"

	mkdir -p "$work/$name/assets/manual"
	cp assets/manual/*.png "$work/$name/assets/manual/"
	sed 's/$/\r/' assets/manual/README.md >"$work/$name/assets/manual/README.md"
	for file in README.md assets/RELEASES.md assets/windows/file-type.cmd; do
		# Windows programs want their lines ended as there.
		sed 's/$/\r/' "$file" >"$work/$name/$(basename "$file")"
	done
	(
		export GOOS=windows CGO_ENABLED=1
		licenses
	) >"$work/third-party"
	sed 's/$/\r/' "$work/third-party" >"$work/$name/third-party.txt"
	cp assets/jobs/*.job.json assets/lessons/*.lesson.json "$work/$name/examples/"
	chmod -R u=rwX,go=rX "$work/$name"
	find "$work/$name" -exec touch -d "@$SOURCE_DATE_EPOCH" {} +
	rm -f "$packages/$name.zip"
	(cd "$work" && find "$name" -type f | sort | zip -q -X -9 "$packages/$name.zip" -@)
}

for system in linux deb windows; do
	if wanted $system; then
		echo "== $system"
		$system
	fi
done
(cd "$packages" && sha256sum ./*"$version"* | sed 's|\./||' >SHA256SUMS)
ls -l "$packages"/*"$version"*
if [ "$try" = yes ]; then
	sh cmd/package-try.sh "$version"
	! wanted windows || sh cmd/package-wine.sh "$version"
fi
