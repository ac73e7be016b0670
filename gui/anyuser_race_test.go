//go:build race

package gui

// Actions of a run under the race detector, which takes seven times as long for
// each. A long run, before a release:
//
//	RETURNBENCH_STEPS=20000 go test -race -timeout 60m -run TestAnyUser ./gui
const (
	wholeRun = 300
	shortRun = 1_500
)
