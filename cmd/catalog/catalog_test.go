package main

import (
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
)

var program = []string{"./assets/...", "./sizing/...", "./plots/...", "./gui/...", "./cmd/..."}

var ofProgram = sync.OnceValues(func() (map[message.ID]string, error) { return collect("../..", program...) })

// Each language has every message of the program, no other, and with the same arguments.
func TestTheCatalogIsComplete(t *testing.T) {
	used, err := ofProgram()
	require.NoError(t, err)
	require.Greater(t, len(used), 1000)
	require.Contains(t, message.Languages(), "es")
	for _, lang := range append([]string{"en"}, message.Languages()...) {
		assert.Empty(t, compare(used, message.Entries(lang)), "%s: run go run ./cmd/catalog, then translate what it lists", lang)
	}
}

func TestCompareFindsFaults(t *testing.T) {
	used := map[message.ID]string{"{a} is {b}": "x.json", "{count} homes": "x.json", "plain": "x.json"}
	whole := func() map[string]map[message.ID]message.Entry {
		return map[string]map[message.ID]message.Entry{"x.json": {
			"{a} is {b}": {Other: "{b} es {a}"}, "{count} homes": {One: "una casa", Other: "{count} casas"}, "plain": {Other: "simple"}}}
	}
	require.Empty(t, compare(used, whole()))
	for want, spoil := range map[string]func(map[message.ID]message.Entry){
		`"plain" is missing`:             func(e map[message.ID]message.Entry) { delete(e, "plain") },
		`"old" is not used`:              func(e map[message.ID]message.Entry) { e["old"] = message.Entry{Other: "viejo"} },
		`"{b} es" has the arguments [b]`: func(e map[message.ID]message.Entry) { e["{a} is {b}"] = message.Entry{Other: "{b} es"} },
		`"{c} casas" has the arguments`:  func(e map[message.ID]message.Entry) { e["{count} homes"] = message.Entry{Other: "{c} casas"} },
		`"" has the arguments []`:        func(e map[message.ID]message.Entry) { e["{a} is {b}"] = message.Entry{} },
	} {
		entries := whole()
		spoil(entries["x.json"])
		got := compare(used, entries)
		require.Len(t, got, 1, want)
		require.Contains(t, got[0], want)
	}
}

// What a person reads stands in the catalog. What reads like prose and is for no
// person, or is no text of the program, is listed with the reason.
func TestNoTextOutsideTheCatalog(t *testing.T) {
	allowed := readAllowed(t)
	list, err := outside("../..", program...)
	require.NoError(t, err)
	root, err := os.Getwd()
	require.NoError(t, err)
	root = strings.TrimSuffix(root, "cmd/catalog")
	used := map[string]bool{}
	for _, s := range list {
		s = strings.TrimPrefix(s, root)
		file, rest, _ := strings.Cut(s, ":")
		_, text, _ := strings.Cut(rest, ": ")
		key := file + " " + text
		if _, ok := allowed[key]; !ok {
			if _, ok = allowed[file+" *"]; ok {
				used[file+" *"] = true
				continue
			}
			t.Errorf("%s is outside the catalog", s)
			continue
		}
		used[key] = true
	}
	for key := range allowed {
		assert.True(t, used[key], "testdata/not_messages.txt: %s is not in the code", key)
	}
}

// readAllowed reads the lines of testdata/not_messages.txt: a file and a quoted
// text, or a file and * for all its texts; lines that begin with # give the reason
// for those below.
func readAllowed(t *testing.T) map[string]bool {
	t.Helper()
	data, err := os.ReadFile("testdata/not_messages.txt")
	require.NoError(t, err)
	out, reason := map[string]bool{}, ""
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		switch {
		case line == "":
			reason = ""
		case strings.HasPrefix(line, "#"):
			reason = line
		default:
			require.NotEmpty(t, reason, "no reason for %s", line)
			out[line] = true
		}
	}
	return out
}

// closedSets are types of a few words, each of which is an entry of the catalog; what a
// person wrote is of none of them.
var closedSets = map[string]string{
	"returnbench/sizing/airpath.PartName": "the parts of the path of the air",
	"returnbench/sizing/compare.Claim":    "what the samples agree on",
	"returnbench/sizing/compare.Trend":    "better, worse or neither",
	"returnbench/sizing/lesson.Number":    "the numbers that a demonstration may show; the check of its file refuses others",
	"returnbench/sizing/study.Problem":    "the codes of findings",
}

// A person's words are never looked up in the catalog: a filter named "filter" keeps its
// name in every language. No text that is known only while the program runs becomes the
// name of an entry, unless its type is one of a few words.
func TestNoNameIsLookedUp(t *testing.T) {
	list, err := conversions("../..", program...)
	require.NoError(t, err)
	met := map[string]bool{}
	for _, c := range list {
		met[c.from] = true
		assert.Contains(t, closedSets, c.from, "%s: a %s becomes the name of an entry", c.at, c.from)
	}
	for name := range closedSets {
		assert.True(t, met[name], "%s is converted nowhere", name)
	}
}

// A text of the program that names a number of inches, feet, cfm or degrees Fahrenheit
// names the metric one beside it, since the same text stands in a metric house. The
// columns of a list of homes tell the unit of a bare number, and so stand for themselves.
func TestInchesAreNotAlone(t *testing.T) {
	require.Empty(t, inchesAlone(map[string]map[message.ID]message.Entry{"x.json": {
		"a hole of 3/8 in (10 mm)": {}, "under 300 fpm (1.5 m/s)": {}, "10 in all": {}, "9 in 10 samples": {}, "MERV 1 to 16": {}}}))
	require.Len(t, inchesAlone(map[string]map[message.ID]message.Entry{"x.json": {
		"for a 14 in duct": {}, "10 % or 0.03 in. w.c.": {}, "each 1000 ft": {}, "over 500 fpm": {}, "350 cfm per ton": {}, "under 40 F": {}}}), 6)
	require.Empty(t, inchesAlone(message.Entries("en")))
}

var (
	inchNumber   = regexp.MustCompile(`\d (ft|fpm|cfm|F|in2|in\. w\.c\.|in)(\W|$)`)
	notInches    = regexp.MustCompile(`\d in (all|a|older|\d)`)
	metricNumber = regexp.MustCompile(`\d (mm|cm|m|m/s|Pa|L/s|C)\b`)
)

func inchesAlone(entries map[string]map[message.ID]message.Entry) (out []string) {
	for file, texts := range entries {
		for id := range texts {
			text := notInches.ReplaceAllString(string(id), "")
			if file != "sizing.homes.json" && inchNumber.MatchString(text) && !metricNumber.MatchString(text) {
				out = append(out, file+": "+string(id))
			}
		}
	}
	return out
}
