package main

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/published"
)

var argument = regexp.MustCompile(`\{\w+\}`)

// TestReadingGrade: the English sentences of each part of the program read
// at grade 10 or lower, those of the pages at 8, by the formula of ReadingGrade; an
// argument counts as a word of one syllable. A part with fewer than ten is too short
// to have a grade.
func TestReadingGrade(t *testing.T) {
	most := func(file string) float64 {
		if strings.HasPrefix(file, "plots.report") {
			return 8
		}
		return 10
	}
	graded := 0
	for file, entries := range message.Entries("en") {
		var sentences []string
		for _, id := range slices.Sorted(maps.Keys(entries)) {
			if text := entries[id].Other; strings.HasSuffix(text, ".") && len(strings.Fields(text)) > 4 {
				sentences = append(sentences, argument.ReplaceAllString(text, "it"))
			}
		}
		if len(sentences) < 10 {
			continue
		}
		graded++
		got := published.ReadingGrade(sentences)
		t.Logf("%s: grade %.1f over %d texts", file, got, len(sentences))
		assert.LessOrEqual(t, got, most(file), file)
	}
	require.Greater(t, graded, 5)
}
