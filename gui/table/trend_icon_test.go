package table

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"

	"returnbench/sizing"
)

func TestTrendOfACell(t *testing.T) {
	for cell, want := range map[string]sizing.Trend{
		"+12 better": sizing.Better, "worse": sizing.Worse, "-0.1 too close to tell": sizing.TrendTooClose,
		"too close to tell": sizing.TrendTooClose, "same": "", "+3": "", "": "", "nobetter": "",
	} {
		assert.Equal(t, want, trendOf(cell), cell)
	}
}

// TestTrendMarksDiffer: the shape alone tells the three apart, and what is too
// close to tell takes neither's ink.
func TestTrendMarksDiffer(t *testing.T) {
	test.NewTempApp(t)
	seen := map[[2]fyne.Position]sizing.Trend{}
	for _, way := range []sizing.Trend{sizing.Better, sizing.Worse, sizing.TrendTooClose} {
		m := newTrendIcon(way)
		m.Resize(fyne.NewSquareSize(20))
		first := test.WidgetRenderer(m).Objects()[0].(*canvas.Line)
		ends := [2]fyne.Position{first.Position1, first.Position2}
		assert.Empty(t, seen[ends])
		seen[ends] = way
		assert.Equal(t, way == sizing.TrendTooClose, first.Position1.Y == first.Position2.Y, "level")
	}
	assert.Equal(t, theme.ColorNameForeground, trendInk(sizing.TrendTooClose))
}
