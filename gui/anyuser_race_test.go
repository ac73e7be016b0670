//go:build race

package gui

// Actions of a run under the race detector, which takes several times as long
// for each.
const (
	wholeRun = 500
	shortRun = 3_000
)
