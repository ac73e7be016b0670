// Package sheet is a table that is as tall as its rows, up to a limit.
package sheet

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/widgets"
	"returnbench/sizing/units"
)

// Sheet is the table in its room.
type Sheet struct {
	*widgets.Table
	box  *fyne.Container
	most int
}

// New makes an empty sheet that shows at most so many rows without scrolling.
func New(most int) *Sheet {
	s := &Sheet{Table: widgets.NewTable(), most: most}
	s.box = container.New(&room{s}, s.Table)
	return s
}

// Object is the sheet for a layout.
func (s *Sheet) Object() *fyne.Container { return s.box }

// Set replaces heads and cells.
func (s *Sheet) Set(columns []widgets.Column, rows [][]string) {
	s.SetColumns(columns)
	s.SetRows(rows)
}

type room struct{ s *Sheet }

// MinSize follows the number of rows.
func (r *room) MinSize(o []fyne.CanvasObject) fyne.Size {
	th := fyne.CurrentApp().Settings().Theme()
	row := fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height + th.Size(theme.SizeNameInnerPadding)
	least := o[0].MinSize() // the head and two rows
	least.Height += row * (float32(min(len(r.s.Rows()), r.s.most)-2) + 0.5)
	return least
}

// Layout gives the table all the room.
func (r *room) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// Unit names the usual unit of a quantity's kind, for the head of a column.
func Unit(q units.Quantity, sys units.System) string { return q.Kind().Usual(sys).Label() }

// Number writes a quantity for a column whose head holds the unit.
func Number(q units.Quantity, sys units.System) string { return q.Kind().Number(q.SI(), sys) }

// Spread writes how far a quantity may be off: two digits at most, which is what
// sampling knows of it.
func Spread(q units.Quantity, sys units.System) string {
	const digits = 2
	text := Number(q, sys)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || len(strings.TrimLeft(strings.ReplaceAll(text, ".", ""), "0")) <= digits {
		return text
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Known writes a quantity, or a dash where it is zero for want of knowing.
func Known(q units.Quantity, sys units.System) string {
	if q.SI() == 0 {
		return "–"
	}
	return Number(q, sys)
}

// Nominal writes a nominal size, which is a whole number of its unit or nearly,
// or a dash where it is zero for want of knowing.
func Nominal(q units.Quantity, sys units.System) string {
	n := Known(q, sys)
	if strings.Contains(n, ".") {
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
	}
	return n
}
