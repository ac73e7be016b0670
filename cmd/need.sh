# need PACKAGE... makes sure of Debian packages; read by run.sh, test.sh and package.sh.
# What is there is left alone; what is missing is named before it is installed.

need() {
	if ! command -v go >/dev/null 2>&1; then
		echo "Go 1.26 or newer is needed and not found; see https://go.dev/dl/" >&2
		exit 3
	fi
	if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
		need_by_hand "$@"
		return
	fi
	missing=""
	for package in "$@"; do
		state=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
		[ "$state" = "install ok installed" ] || missing="$missing $package"
	done
	[ -n "$missing" ] || return 0
	echo "About to install:$missing"
	if [ "$(id -u)" = 0 ]; then
		as_root=""
	elif command -v sudo >/dev/null 2>&1; then
		as_root="sudo"
	else
		echo "This needs root and there is no sudo. As root run:" >&2
		echo "  apt-get install -y$missing" >&2
		exit 3
	fi
	# shellcheck disable=SC2086
	$as_root apt-get update -q && $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing
}

# need_by_hand is for systems without apt: it goes on where what the packages
# hold is found, else it names them and stops.
need_by_hand() {
	found=yes
	for package in "$@"; do
		case $package in
		gcc | pkg-config | xdotool | xclip | openbox | wmctrl | qpdf | parallel | zip | lintian | mmdebstrap) command -v "$package" >/dev/null 2>&1 || found=no ;;
		xvfb) command -v Xvfb >/dev/null 2>&1 || found=no ;;
		imagemagick) command -v import >/dev/null 2>&1 || found=no ;;
		libreoffice-calc-nogui) command -v soffice >/dev/null 2>&1 || found=no ;;
		desktop-file-utils) command -v desktop-file-validate >/dev/null 2>&1 || found=no ;;
		man-db) command -v man >/dev/null 2>&1 || found=no ;;
		librsvg2-bin) command -v rsvg-convert >/dev/null 2>&1 || found=no ;;
		icoutils) command -v icotool >/dev/null 2>&1 || found=no ;;
		dpkg-dev) command -v dpkg-shlibdeps >/dev/null 2>&1 || found=no ;;
		gcc-mingw-w64-x86-64) command -v x86_64-w64-mingw32-gcc >/dev/null 2>&1 || found=no ;;
		python3-scipy) /usr/bin/python3 -c 'import scipy' 2>/dev/null || python3 -c 'import scipy' 2>/dev/null || found=no ;;
		poppler-utils) command -v pdftotext >/dev/null 2>&1 || found=no ;;
		libgl1-mesa-dev) pkg-config --exists gl 2>/dev/null || found=no ;;
		xorg-dev) pkg-config --exists x11 xcursor xrandr xinerama xi xxf86vm 2>/dev/null || found=no ;;
		libxkbcommon-dev) pkg-config --exists xkbcommon 2>/dev/null || found=no ;;
		esac
	done
	[ "$found" = no ] || return 0
	cat >&2 <<END
Some packages are missing and there is no apt-get to install them with.
  Debian names:  $*
  Fedora:        gcc pkgconf-pkg-config mesa-libGL-devel libX11-devel libXcursor-devel libXrandr-devel
                 libXinerama-devel libXi-devel libXxf86vm-devel libxkbcommon-devel
                 (tests also: xorg-x11-server-Xvfb xdotool xclip ImageMagick openbox wmctrl poppler-utils qpdf
                 libreoffice-calc desktop-file-utils man-db python3-scipy parallel)
  Arch:          gcc pkgconf mesa libx11 libxcursor libxrandr libxinerama libxi libxxf86vm libxkbcommon
                 (tests also: xorg-server-xvfb xdotool xclip imagemagick openbox wmctrl poppler qpdf libreoffice-still
                 desktop-file-utils man-db python-scipy parallel)
END
	exit 3
}

# What the window is built with.
window_packages="gcc pkg-config libgl1-mesa-dev xorg-dev libxkbcommon-dev"
