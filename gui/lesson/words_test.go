package lesson

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
)

// Each word that a file may hold has one that people say.
func TestWordsOfAFileHaveMessages(t *testing.T) {
	said := func(word string, id message.ID, known bool) {
		require.True(t, known, word)
		require.EqualValues(t, strings.ReplaceAll(word, "_", " "), id)
	}
	for _, c := range lesson.Charts() {
		id, ok := chartWords[c]
		said(string(c), id, ok)
	}
	for _, s := range lesson.States() {
		id, ok := stateWords[s]
		said(string(s), id, ok)
	}
	for _, w := range lesson.Directions() {
		id, ok := trendWords[w]
		said(string(w), id, ok)
	}
}
