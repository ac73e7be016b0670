package table

import (
	"sync/atomic"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

var trendWords = map[sizing.Trend]message.ID{sizing.Better: "better", sizing.Worse: "worse", sizing.TrendTooClose: "too close to tell"}

// cellWords are the words that give a cell a mark, in one language. They are looked
// for in every cell that is drawn, so they are written once.
type cellWords struct {
	language   string
	severities map[sizing.Severity][]string
	trends     map[sizing.Trend][]string
}

var lastWords atomic.Pointer[cellWords]

// wordsOfCells are those of the language of the windows.
func wordsOfCells() *cellWords {
	l := lang.Locale()
	if w := lastWords.Load(); w != nil && w.language == l.Language {
		return w
	}
	w := &cellWords{l.Language, map[sizing.Severity][]string{}, map[sizing.Trend][]string{}}
	for _, s := range []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop} {
		w.severities[s] = []string{string(s), message.Rows{Items: []any{s}}.Show(l), widgets.SeverityWord(s)}
	}
	for t, id := range trendWords {
		w.trends[t] = []string{string(t), lang.T(id)}
	}
	lastWords.Store(w)
	return w
}
