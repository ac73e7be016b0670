//go:build !race

package gui

// Actions of a run in the usual checks; RETURNBENCH_STEPS=20000 takes a long one.
const (
	wholeRun = 3_000
	shortRun = 1_000
)
