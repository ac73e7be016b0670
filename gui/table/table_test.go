package table

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/sizing"
)

func someTable(rows int) *Table {
	t := New()
	t.SetColumns([]Column{{Title: "Option"}, {Title: "Airflow", Unit: "cfm"}, {Title: "Static", Unit: "in. w.c."}, {Title: "Verdict"}})
	cells := make([][]string, rows)
	for i := range cells {
		cells[i] = []string{fmt.Sprintf("Option %d", i+1), fmt.Sprint(1000 + i), "0.62", []string{"good", "caution", "stop"}[i%3]}
	}
	t.SetRows(cells)
	return t
}

func tableWindow(t *testing.T, table *Table, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, container.NewStack(table))
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

func TestTableKeyboard(t *testing.T) {
	table := someTable(40)
	var got []int
	table.OnSelected = func(i int) { got = append(got, i) }
	activated := -1
	table.OnActivated = func(i int) { activated = i }
	w := tableWindow(t, table, 400, 150)
	test.FocusNext(w.Canvas())
	require.Equal(t, fyne.Focusable(table), w.Canvas().Focused())
	key := func(k fyne.KeyName) { table.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyDown)
	key(fyne.KeyDown)
	key(fyne.KeyUp)
	assert.Equal(t, []int{0, 1, 0}, got)
	key(fyne.KeyEnd)
	assert.Equal(t, 39, table.Selected())
	assert.Greater(t, table.pane.Offset.Y, float32(0), "the selected row comes into sight")
	assert.Contains(t, guitest.Words(table), "Option 40")
	assert.NotContains(t, guitest.Words(table), "Option 1\n", "rows out of sight are not drawn")
	key(fyne.KeyHome)
	assert.Zero(t, table.pane.Offset.Y)
	key(fyne.KeyReturn)
	assert.Equal(t, 0, activated)
	key(fyne.KeyUp)
	assert.Equal(t, 0, table.Selected(), "no further than the first")
}

func TestTableMouse(t *testing.T) {
	table := someTable(5)
	picked := -1
	table.OnSelected = func(i int) { picked = i }
	w := tableWindow(t, table, 400, 300)
	y := table.headHeight() + 2.5*table.rowHeight()
	test.TapCanvas(w.Canvas(), fyne.NewPos(50, y))
	assert.Equal(t, 2, picked)
	assert.Equal(t, fyne.Focusable(table), w.Canvas().Focused())
	picked = -1
	test.TapCanvas(w.Canvas(), fyne.NewPos(50, table.headHeight()+8*table.rowHeight()))
	assert.Equal(t, -1, picked, "below the last row is nothing")
}

func TestTableHeadFollowsSideways(t *testing.T) {
	table := someTable(5)
	tableWindow(t, table, 160, 200)
	head := func() float32 {
		for _, o := range test.WidgetRenderer(table.head).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Text == "Airflow" {
				return text.Position().X
			}
		}
		t.Fatal("no head")
		return 0
	}
	before := head()
	table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.InDelta(t, before-40, head(), 1e-3)
	for range 20 {
		table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	assert.InDelta(t, table.FullWidth()-table.pane.Size().Width, table.pane.Offset.X, 1, "no further than the last column")
	assert.Contains(t, guitest.Words(table), "Airflow", "the head stays")
}

// Where its columns have no room side by side, a table first breaks their titles over
// lines and then places the columns in several lines of each row, under heads that do the
// same. It moves nothing sideways, and a click finds its row and its column.
func TestATableWithoutRoomFolds(t *testing.T) {
	table := New()
	table.Folds = true
	table.SetColumns([]Column{{Title: "Nominal size"}, {Title: "Verdict"}, {Title: "Filter drop, in a table", Name: "Filter drop in a table"}, {Title: "Airflow"}, {Title: "Filter"}})
	long := strings.Repeat("a filter of a long name ", 4)
	table.SetRows([][]string{{"20x20x1", "caution", "0.27", "914", "pleated 11"}, {"20x25x4", "good", "0.10", "1144", long}})
	tableWindow(t, table, 900, 300)
	table.SetRows([][]string{{"20x20x1", "caution", "0.27", "914", "pleated 11"}, {"20x25x4", "good", "0.10", "1144", "pleated 13"}})
	require.Equal(t, 1, table.Lines())
	wide, head := table.FullWidth(), table.headHeight()

	tableWindow(t, table, wide-40, 300)
	require.Equal(t, 1, table.Lines())
	require.Greater(t, table.headHeight(), head, "a title is broken first")
	require.False(t, table.MovesSideways())
	require.Equal(t, wide, table.FullWidth())

	table.SetRows([][]string{{"20x20x1", "caution", "0.27", "914", "pleated 11"}, {"20x25x4", "good", "0.10", "1144", long}})
	tableWindow(t, table, 240, 300)
	require.Greater(t, table.Lines(), 1)
	require.False(t, table.MovesSideways())
	for _, part := range []fyne.Widget{table.head, table.body} {
		for _, o := range test.WidgetRenderer(part).Objects() {
			if text, ok := o.(*canvas.Text); ok {
				require.LessOrEqual(t, text.Position().X+text.MinSize().Width, float32(241), text.Text)
			}
		}
	}
	require.Contains(t, guitest.Words(table), "…")
	last := len(table.columns) - 1
	at := fyne.NewPos(table.starts[last]+20, table.rowHeight()+(float32(table.line[last])+0.5)*table.lineHeight())
	_, _, tip := table.body.explained(at)
	require.Equal(t, long, tip, "a cell that is cut is whole under the pointer")
	column, _ := table.head.columnAt(fyne.NewPos(table.starts[last]+20, table.heads[table.line[last]]-3))
	require.Equal(t, last, column)
	require.Equal(t, 1, table.body.rowAt(at))
}

func TestTableVerdicts(t *testing.T) {
	table := someTable(3)
	tableWindow(t, table, 500, 300)
	assert.Equal(t, []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop}, guitest.Severities(table))
	assert.Contains(t, guitest.Words(table), "CAUTION", "the word stands beside the mark")
	s, text := verdictOf("stop: coil may freeze")
	assert.Equal(t, sizing.Stop, s)
	assert.Equal(t, "STOP coil may freeze", text)
	s, _ = verdictOf("stopped")
	assert.Empty(t, s)
	s, _ = verdictOf("good enough")
	assert.Equal(t, sizing.Good, s)
}

func TestTableColumnsFit(t *testing.T) {
	table := someTable(3)
	tableWindow(t, table, 500, 300)
	assert.Equal(t, []bool{false, true, true, false}, table.right, "numbers stand to the right")
	narrow := table.widths[0]
	table.SetRows([][]string{{"An option with a very long name", "1000", "–", "good"}})
	assert.Greater(t, table.widths[0], narrow)
	assert.True(t, table.right[1])
}

func TestTableSelectionSurvives(t *testing.T) {
	table := someTable(5)
	tableWindow(t, table, 500, 300)
	table.Select(3)
	told := false
	table.OnSelected = func(int) { told = true }
	table.SetRows(someTable(4).Rows())
	assert.Equal(t, 3, table.Selected())
	assert.False(t, told)
	table.SetRows(someTable(2).Rows())
	assert.Equal(t, -1, table.Selected())
	table.SetRows(nil)
	table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Equal(t, -1, table.Selected())
}

func BenchmarkTableScroll(b *testing.B) {
	table := someTable(500)
	w := test.NewTempWindow(b, table)
	w.Resize(fyne.NewSize(900, 500))
	for b.Loop() {
		table.Select((table.Selected() + 7) % 500)
	}
}
