package main

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/assets"
)

// packaged is a file of what Linux packages install.
func packaged(name string) string { return filepath.Join("..", "..", "assets", "linux", name) }

// spoken gives what the command line's own help says of each verb: its options.
func spoken(t *testing.T) map[string][]string {
	help := returnbench(t, "", "help")
	verbs := map[string][]string{}
	_, list, found := strings.Cut(help.out, "Commands:")
	require.True(t, found)
	for _, m := range regexp.MustCompile(`(?m)^  ([a-z]+)\b`).FindAllStringSubmatch(list, -1) {
		of := returnbench(t, "", "help", m[1])
		require.Equal(t, 0, of.status)
		verbs[m[1]] = nil
		for _, o := range regexp.MustCompile(`(?m)^ +(?:-., +)?--([a-z]+)`).FindAllStringSubmatch(of.out, -1) {
			if o[1] != "help" {
				verbs[m[1]] = append(verbs[m[1]], o[1])
			}
		}
	}
	require.Contains(t, verbs["report"], "paper")
	require.Greater(t, len(verbs), 10)
	return verbs
}

// TestManPage: the manual page names every verb and option of the help,
// and troff has nothing to say against it.
func TestManPage(t *testing.T) {
	page := returnbench(t, "", "man")
	require.Equal(t, 0, page.status, page.err)
	for verb, options := range spoken(t) {
		_, section, found := strings.Cut(page.out, `.SS "`+verb)
		require.True(t, found, verb)
		section, _, _ = strings.Cut(section, "\n.S")
		for _, o := range options {
			require.Contains(t, section, `\-\-`+o+`\fR`, verb)
		}
	}
	file := filepath.Join(t.TempDir(), "returnbench.1")
	require.NoError(t, os.WriteFile(file, []byte(page.out), 0o600))
	man := exec.Command("man", "--warnings", "-l", file)
	man.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "MANWIDTH=80", "MANPAGER=cat")
	var warnings strings.Builder
	man.Stderr = &warnings
	text, err := man.Output()
	require.NoError(t, err)
	require.Empty(t, warnings.String())
	require.Contains(t, string(text), "home's forced-air")
}

// TestCompletion: each shell's script names every verb and option.
func TestCompletion(t *testing.T) {
	verbs := spoken(t)
	for shell, dashes := range map[string]string{"bash": "--", "zsh": "--", "fish": " -l "} {
		script := returnbench(t, "", "completion", shell)
		require.Equal(t, 0, script.status, script.err)
		for verb, options := range verbs {
			require.Regexp(t, `\b`+verb+`\b`, script.out, shell)
			for _, o := range options {
				require.Contains(t, script.out, dashes+o, "%s, %s", shell, verb)
			}
		}
	}
	require.Equal(t, 2, returnbench(t, "", "completion", "tcsh").status)
}

// TestBashCompletion loads the script in bash and presses Tab.
func TestBashCompletion(t *testing.T) {
	script := returnbench(t, "", "completion", "bash").out
	for words, want := range map[string]string{
		"st":                            "study",
		"study x --format ":             "text json csv xlsx",
		"study x --format = j":          "json",
		"study x --u":                   "--units",
		"report x --for work-":          "work-order",
		"report x -":                    "--units --language --output -o --for --paper --firm --option",
		"completion ":                   "bash zsh fish",
		"help scr":                      "screen",
		"size x --misses ":              "",
		"charts x --format png --units": "--units",
		"size x --language e":           "en es es-US es-MX",
	} {
		list := strings.Split("returnbench "+words, " ")
		for i := range list {
			list[i] = "'" + list[i] + "'"
		}
		out, err := exec.Command("bash", "-c", script+`
compopt() { :; }
COMP_WORDS=(`+strings.Join(list, " ")+`)
COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
_returnbench
echo "${COMPREPLY[*]}"`).CombinedOutput()
		require.NoError(t, err, "%s", out)
		require.Equal(t, want, strings.TrimSpace(string(out)), words)
	}
}

// TestDesktopEntry: the entry stands up to the desktop's own check,
// opens what it is given with a verb that there is, and takes the very types
// that the file types declare for the endings of jobs and demonstrations.
func TestDesktopEntry(t *testing.T) {
	file := packaged(appID + ".desktop")
	out, err := exec.Command("desktop-file-validate", file).CombinedOutput()
	require.NoError(t, err, "%s", out)
	require.Empty(t, string(out))
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	entry := map[string]string{}
	for line := range strings.Lines(string(data)) {
		name, value, _ := strings.Cut(strings.TrimSpace(line), "=")
		entry[name] = value
	}
	exe := strings.Fields(entry["Exec"])
	require.Len(t, exe, 3)
	require.Equal(t, "%F", exe[2])
	require.Contains(t, spoken(t), exe[1])

	var types struct {
		Types []struct {
			Type   string `xml:"type,attr"`
			Parent struct {
				Type string `xml:"type,attr"`
			} `xml:"sub-class-of"`
			Glob struct {
				Pattern string `xml:"pattern,attr"`
			} `xml:"glob"`
		} `xml:"mime-type"`
	}
	data, err = os.ReadFile(packaged("returnbench.xml"))
	require.NoError(t, err)
	require.NoError(t, xml.Unmarshal(data, &types))
	var names, patterns []string
	for _, m := range types.Types {
		require.Equal(t, "application/json", m.Parent.Type)
		names, patterns = append(names, m.Type), append(patterns, m.Glob.Pattern)
	}
	require.Equal(t, []string{"*.job.json", "*" + assets.LessonSuffix}, patterns)
	require.Equal(t, strings.Join(names, ";")+";", entry["MimeType"])
}

// TestInstallScript: the tarball's script puts its files into a folder
// and takes away those alone.
func TestInstallScript(t *testing.T) {
	from, to := t.TempDir(), filepath.Join(t.TempDir(), "a folder")
	copyOf := func(name, file string) {
		data, err := os.ReadFile(packaged(name))
		require.NoError(t, err)
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(from, file)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(from, file), data, 0o755))
	}
	entry := "share/applications/" + appID + ".desktop"
	copyOf("install.sh", "install.sh")
	copyOf(appID+".desktop", entry)
	copyOf("copyright", "bin/returnbench")
	others := filepath.Join(to, "bin", "another")
	require.NoError(t, os.MkdirAll(filepath.Dir(others), 0o755))
	require.NoError(t, os.WriteFile(others, nil, 0o755))

	install := func(args ...string) {
		out, err := exec.Command("sh", append([]string{filepath.Join(from, "install.sh")}, args...)...).CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
	install(to)
	require.FileExists(t, filepath.Join(to, "bin", "returnbench"))
	data, err := os.ReadFile(filepath.Join(to, entry))
	require.NoError(t, err)
	require.Contains(t, string(data), `Exec="`+to+`/bin/returnbench" open %F`)

	install("--remove", to)
	require.NoFileExists(t, filepath.Join(to, "bin", "returnbench"))
	require.NoFileExists(t, filepath.Join(to, entry))
	require.FileExists(t, others)
}

// TestPackageScript: a word it does not know is wrong usage, and
// nothing is built.
func TestPackageScript(t *testing.T) {
	out, err := exec.Command("sh", filepath.Join("..", "package.sh"), "macos").CombinedOutput()
	var ended *exec.ExitError
	require.ErrorAs(t, err, &ended)
	require.Equal(t, 2, ended.ExitCode())
	require.Contains(t, string(out), "want linux, deb, windows or all")
}
