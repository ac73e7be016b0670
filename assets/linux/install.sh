#!/bin/sh
# install.sh [--remove] [FOLDER] puts returnbench into FOLDER, ~/.local where
# none is named (/usr/local needs root), or takes it away again. Jobs and
# settings are left alone.
set -eu
cd "$(dirname "$0")"
remove=no
if [ "${1:-}" = --remove ]; then
	remove=yes
	shift
fi
prefix=${1:-$HOME/.local}
case $prefix in
/*) ;;
*) prefix=$PWD/$prefix ;;
esac

find bin share -type f | while read -r file; do
	if [ "$remove" = yes ]; then
		rm -f "$prefix/$file"
		continue
	fi
	mkdir -p "$prefix/$(dirname "$file")"
	cp -p "$file" "$prefix/$file"
done
if [ "$remove" = no ]; then
	# The desktop need not have this folder in its path.
	entry=$prefix/share/applications/org.returnbench.bench.desktop
	sed "s|^Exec=returnbench |Exec=\"$prefix/bin/returnbench\" |" share/applications/org.returnbench.bench.desktop >"$entry"
fi

# So that the desktop knows the files at once, where it has these programs.
refresh() {
	[ -d "$2" ] && command -v "$1" >/dev/null 2>&1 || return 0
	"$@" || echo "$1 failed; the desktop may see the change after the next login" >&2
}
refresh update-mime-database "$prefix/share/mime"
refresh update-desktop-database "$prefix/share/applications"
if [ "$remove" = yes ]; then
	# Only folders that nothing else is in.
	find bin share -depth -type d | while read -r dir; do
		rmdir "$prefix/$dir" 2>/dev/null || true
	done
	echo "Removed from $prefix"
else
	echo "Installed in $prefix; it runs as $prefix/bin/returnbench"
fi
