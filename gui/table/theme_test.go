package table

import (
	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/stretchr/testify/assert"
)

// Another theme changes the widths of a table that is already there.
func TestThemeChangeReachesTable(t *testing.T) {
	table := someTable(3)
	tableWindow(t, table, 600, 300)
	before := table.widths[0]
	guitest.UseTheme(t, look.Dark, 1.5)
	table.Refresh()
	assert.Greater(t, table.widths[0], before)
}

func TestNoTextOfATableIsCutOff(t *testing.T) {
	guitest.NoTextIsCutOff(t, map[string]func() fyne.CanvasObject{
		"table": func() fyne.CanvasObject { return container.NewGridWrap(fyne.NewSize(900, 200), someTable(3)) },
	})
}
