#!/bin/sh
# package-inside.sh VERSION runs in the fresh root that package-try.sh makes.
set -eu
version=$1
export DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 HOME=/root
cd /try

say() { echo "-- $*"; }
fail() {
	echo "package-inside.sh: $*" >&2
	exit 1
}
# same WHAT GIVEN WANTED
same() { [ "$2" = "$3" ] || fail "$1: given $2; want $3"; }

say "install, with what the package recommends"
apt-get update -q >/dev/null
apt-get install -y -q --install-recommends ./returnbench.deb >install.log 2>&1 || {
	cat install.log
	exit 1
}
say "programs to look at it with"
apt-get install -y -q --no-install-recommends xvfb xauth xdotool libglib2.0-bin libfile-mimeinfo-perl man-db \
	bash-completion zsh fish >tools.log 2>&1 || {
	cat tools.log
	exit 1
}

say "verbs"
case $(returnbench version) in
"returnbench $version, "*) ;;
*) fail "version: $(returnbench version)" ;;
esac
examples=/usr/share/doc/returnbench/examples
for file in "$examples"/*.json; do
	returnbench check "$file" >/dev/null
done
job=$examples/one-inch-slot.job.json
returnbench study "$job" | grep -q cfm
returnbench report "$job" -o work.pdf --for work-order
same "a PDF" "$(head -c 5 work.pdf)" "%PDF-"
returnbench picture "$job" -o window.png
status=0
returnbench check five-faults.job.json 2>faults || status=$?
same "status of a job at fault" "$status" 1
same "faults" "$(wc -l <faults)" 5

say "desktop entry, file types, icons"
desktop-file-validate /usr/share/applications/org.returnbench.bench.desktop
cp "$job" elm.job.json
cp "$examples/altitude.lesson.json" slope.lesson.json
echo '{}' >other.json
for kind in job lesson; do
	type=application/x-returnbench-$kind+json
	file=$(ls ./*."$kind.json" | head -n 1)
	same "xdg-mime of $file" "$(xdg-mime query filetype "$file")" "$type"
	gio info -a standard::content-type "$file" | grep -q "$type" || fail "gio does not know $file"
	same "program of $type" "$(xdg-mime query default "$type")" org.returnbench.bench.desktop
done
same "type of another JSON file" "$(xdg-mime query filetype other.json)" application/json
[ -s /usr/share/icons/hicolor/48x48/apps/returnbench.png ]

say "manual page"
same "warnings of man" "$(man --warnings returnbench 2>&1 >page)" ""
grep -q 'work-order' page

say "completion in bash, zsh and fish"
bash -c '
	. /usr/share/bash-completion/bash_completion
	_completion_loader returnbench
	COMP_WORDS=(returnbench study --format "")
	COMP_CWORD=3
	_returnbench
	echo "${COMPREPLY[*]}"' >bash.out
same bash "$(cat bash.out)" "text json csv xlsx"
same zsh "$(zsh -c 'autoload -U compinit; compinit -u -D; echo $_comps[returnbench]')" _returnbench
same fish "$(fish -c 'complete -C "returnbench report x.job.json --paper "' | cut -f 1 | tr '\n' ' ')" "a4 letter "

say "a file opened as a double click does"
for file in elm.job.json slope.lesson.json; do
	# The window bears the name of its job; beside a demonstration that is a new one.
	title="elm.job.json - returnbench"
	[ "$file" = elm.job.json ] || title="new job - returnbench"
	timeout 300 xvfb-run -a -s "-screen 0 1400x900x24" sh -c '
		gio open "$1" >opened.log 2>&1
		timeout 240 xdotool search --sync --onlyvisible --name "^$2\$" >windows
		xdotool getwindowpid "$(head -n 1 windows)" >pid
		kill "$(cat pid)"' open "$file" "$title" || {
		cat opened.log
		fail "$file opened no window"
	}
done

say "removal"
apt-get purge -y -q returnbench >remove.log 2>&1 || {
	cat remove.log
	exit 1
}
left() {
	# What man has rendered it keeps in its own cache for a while.
	find / -xdev \( -path /proc -o -path /sys -o -path /try -o -path /root -o -path /var/log -o -path /var/cache/man \) -prune \
		-o -iname '*returnbench*' -print
	grep -rl returnbench /usr/share/mime /usr/share/applications /usr/share/icons /etc /var/lib/dpkg/status /var/lib/dpkg/info \
		/var/lib/dpkg/triggers 2>/dev/null || true
}
same "what is left" "$(left)" ""
same "type of a job without the program" "$(xdg-mime query filetype elm.job.json)" application/json

say "the tarball, into a folder and out of it"
tar -xzf returnbench.tar.gz
(cd returnbench-*/ && ./install.sh /opt/bench) >/dev/null
/opt/bench/bin/returnbench check elm.job.json >/dev/null
desktop-file-validate /opt/bench/share/applications/org.returnbench.bench.desktop
grep -q '^Exec="/opt/bench/bin/returnbench" open' /opt/bench/share/applications/org.returnbench.bench.desktop
(cd returnbench-*/ && ./install.sh --remove /opt/bench) >/dev/null
same "files that the tarball leaves" "$(find /opt/bench -type f | grep -v -e /mime/ -e mimeinfo.cache || true)" ""
same "what is left" "$(left)" ""
