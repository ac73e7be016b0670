//go:build !race

package gui

// Actions of a run.
const (
	wholeRun = 20_000
	shortRun = 2_000
)
