package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/table"
)

// In the smallest window with the largest letters no table moves sideways, but that of
// Compare, whose options stand side by side.
func TestNoTableMovesSideways(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.settings.TextSize = 1.5
	b.retheme()
	seen := 0
	for _, size := range []fyne.Size{{Width: 1024, Height: 600}, {Width: 1366, Height: 768}} {
		b.window.Resize(size)
		for _, p := range places() {
			if p.key == "compare" {
				continue
			}
			b.enter(p.key)
			for _, o := range test.LaidOutObjects(b.window.Content()) {
				if one, ok := o.(*table.Table); ok && one.Visible() && one.Size().Width > 0 {
					seen++
					assert.False(t, one.MovesSideways(), "%s at %v", p.key, size)
				}
			}
		}
	}
	require.Greater(t, seen, 12)
}
