package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
)

// Fitted is a table that is as tall as its rows, up to a limit.
type Fitted struct {
	*Table
	box  *fyne.Container
	most int
}

// NewFitted makes an empty table that shows at most so many rows without scrolling.
func NewFitted(most int) *Fitted {
	s := &Fitted{Table: New(), most: most}
	s.box = container.New(&fittedLayout{s}, s.Table)
	return s
}

// Object is the table for a layout.
func (s *Fitted) Object() *fyne.Container { return s.box }

// Set replaces heads and cells.
func (s *Fitted) Set(columns []Column, rows [][]string) {
	s.SetColumns(columns)
	s.SetRows(rows)
}

type fittedLayout struct{ s *Fitted }

// MinSize follows the number of rows.
func (r *fittedLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	row := r.s.rowHeight()
	least := o[0].MinSize() // the head and two rows
	least.Height += row * (float32(min(len(r.s.Rows()), r.s.atMost())-2) + 0.5)
	return least
}

// atMost is the most rows shown without scrolling: fewer where rows are higher
// for a finger, so that the table takes no more room. All round it is higher too,
// so a fifth of the room goes.
func (s *Fitted) atMost() int {
	th := s.Theme()
	if th.Size(look.Target) == 0 {
		return s.most
	}
	text := fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height
	return max(min(s.most, 3), int(0.8*float32(s.most)*text/s.rowHeight()))
}

// Layout gives the table all the room.
func (r *fittedLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }
