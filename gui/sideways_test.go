package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/table"
)

// In the smallest window with the largest letters the sizes and the calculations do not
// move sideways.
func TestSizesAndCalculationsDoNotMoveSideways(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.settings.TextSize = 1.5
	b.retheme()
	seen := 0
	for _, size := range []fyne.Size{{Width: 1024, Height: 600}, {Width: 1366, Height: 768}} {
		b.window.Resize(size)
		for _, place := range []string{"sizes", "working"} {
			b.enter(place)
			for _, o := range test.LaidOutObjects(b.body) {
				if one, ok := o.(*table.Table); ok && one.Folds {
					seen++
					require.False(t, one.MovesSideways(), "%s at %v", place, size)
				}
			}
		}
	}
	require.Equal(t, 4, seen)
}
