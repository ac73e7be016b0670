package table

import (
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

// tableBody draws the rows in sight.
type tableBody struct {
	widget.BaseWidget
	widgets.HoverTip
	t       *Table
	hovered int
}

var (
	_ desktop.Hoverable = (*tableBody)(nil)
	_ fyne.Tappable     = (*tableBody)(nil)
	_ fyne.Draggable    = (*tableBody)(nil)
)

func (b *tableBody) rowAt(p fyne.Position) int {
	row := int(p.Y / b.t.rowHeight())
	if row < 0 || row >= len(b.t.rows) {
		return -1
	}
	return row
}

// Tapped selects the row under the pointer.
func (b *tableBody) Tapped(e *fyne.PointEvent) {
	b.t.focusMe()
	if row := b.rowAt(e.Position); row >= 0 {
		b.t.Select(row)
	}
}

// Dragged moves the rows with a finger.
func (b *tableBody) Dragged(d *fyne.DragEvent) { widgets.DragScroll(b.t.pane, b.Theme(), d) }

// DragEnd has nothing to end.
func (b *tableBody) DragEnd() {}

// MouseIn lights the row under the pointer.
func (b *tableBody) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved lights the row under the pointer.
func (b *tableBody) MouseMoved(e *desktop.MouseEvent) {
	row := b.rowAt(e.Position)
	if row != b.hovered {
		b.hovered = row
		b.Refresh()
	}
	b.HoverTip.MouseMoved(e)
}

// cutTo is the beginning of a text that a column has room for.
func cutTo(text string, room, size float32, style fyne.TextStyle) string {
	fits := func(s string) bool { return fyne.MeasureText(s, size, style).Width <= room+0.5 }
	if fits(text) {
		return text
	}
	letters := []rune(text)
	n := sort.Search(len(letters), func(n int) bool { return !fits(string(letters[:n+1]) + "…") })
	return string(letters[:n]) + "…"
}

// cut is the cell of a row at a place, where its text has no room; empty: it has.
func (b *tableBody) cut(row int, at fyne.Position) (text string) {
	t, th := b.t, b.Theme()
	if row < 0 {
		return ""
	}
	y := at.Y - float32(row)*t.rowHeight()
	t.each(func(i int, x float32, line int) {
		top := float32(line) * t.lineHeight()
		if at.X < x || at.X >= x+t.widths[i] || y < top || y >= top+t.lineHeight() {
			return
		}
		cell, _, _ := strings.Cut(cellAt(t.rows[row], i), "\n")
		if cutTo(cell, t.widths[i]-4*th.Size(theme.SizeNameInnerPadding), th.Size(theme.SizeNameText), fyne.TextStyle{}) != cell {
			text = cell
		}
	})
	return text
}

// explained is the title of a row at a place, with the sentence on its term; or a cell
// that is cut, whole.
func (b *tableBody) explained(at fyne.Position) (from fyne.Position, size fyne.Size, text string) {
	t, row := b.t, b.rowAt(at)
	if t.lines > 1 {
		if cell := b.cut(row, at); cell != "" {
			return fyne.NewPos(at.X, float32(row)*t.rowHeight()), fyne.NewSize(0, t.rowHeight()), cell
		}
	}
	if t.RowTerm == nil || row < 0 || len(t.widths) == 0 || at.X-t.pane.Offset.X > t.widths[0] {
		return from, size, ""
	}
	h := t.rowHeight()
	return fyne.NewPos(t.pane.Offset.X, float32(row)*h), fyne.NewSize(t.widths[0], h), widgets.Explain(t.RowTerm(row))
}

// MouseOut puts the light out.
func (b *tableBody) MouseOut() {
	b.hovered = -1
	b.Refresh()
	b.HoverTip.MouseOut()
}

// CreateRenderer draws the rows.
func (b *tableBody) CreateRenderer() fyne.WidgetRenderer { return &bodyRenderer{b: b} }

type bodyRenderer struct {
	b       *tableBody
	objects []fyne.CanvasObject
	drawn   fyne.Size
}

// Layout draws again for a new size alone, as that of the head.
func (r *bodyRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.Refresh()
	}
}

func (r *bodyRenderer) Destroy()                     {}
func (r *bodyRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *bodyRenderer) MinSize() fyne.Size {
	t := r.b.t
	return fyne.NewSize(t.reach(), float32(len(t.rows))*t.rowHeight())
}

func (r *bodyRenderer) Refresh() {
	r.drawn = r.b.Size()
	t := r.b.t
	r.objects = r.objects[:0]
	h := t.rowHeight()
	first := max(0, int(t.pane.Offset.Y/h))
	last := min(len(t.rows)-1, int((t.pane.Offset.Y+t.pane.Size().Height)/h))
	for row := first; row <= last; row++ {
		r.drawRow(row, float32(row)*h, h)
	}
	canvas.Refresh(r.b)
}

func (r *bodyRenderer) fill(name fyne.ThemeColorName, x, y, w, h float32) {
	rect := canvas.NewRectangle(look.Of(r.b.t.Theme(), name))
	rect.Resize(fyne.NewSize(w, h))
	rect.Move(fyne.NewPos(x, y))
	r.objects = append(r.objects, rect)
}

// ground is what lies under a row, or under a fixed cell of it.
func (r *bodyRenderer) ground(row int, x, y, w, h float32) {
	switch row {
	case r.b.t.selected:
		r.fill(theme.ColorNameSelection, x, y, w, h)
	case r.b.hovered:
		r.fill(theme.ColorNameHover, x, y, w, h)
	}
	r.fill(theme.ColorNameSeparator, x, y+h-1, w, 1)
}

func (r *bodyRenderer) drawRow(row int, y, h float32) {
	t := r.b.t
	r.ground(row, 0, y, fyne.Max(r.b.Size().Width, t.reach()), h)
	fixed, _ := t.fixed()
	t.each(func(i int, x float32, line int) {
		if i < fixed {
			r.fill(theme.ColorNameBackground, x, y, t.widths[i], h)
			r.ground(row, x, y, t.widths[i], h)
		}
		r.drawCell(cellAt(t.rows[row], i), i, x, y+float32(line)*t.lineHeight(), t.lineHeight())
	})
	if row == t.selected {
		r.fill(theme.ColorNamePrimary, t.pane.Offset.X, y, 3, h) // a bar, so that color is not alone
	}
}

// drawCell writes one cell, with its mark where it tells a severity or a trend.
func (r *bodyRenderer) drawCell(cell string, i int, x, y, h float32) {
	t := r.b.t
	th := t.Theme()
	if t.double {
		above, under, _ := strings.Cut(cell, "\n")
		low := fyne.MeasureText("M", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
		r.drawUnder(under, i, x, y+h-low-th.Size(theme.SizeNameInnerPadding)/2)
		cell, h = above, h-low
	}
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	side := th.Size(theme.SizeNameInlineIcon)
	gap := th.Size(theme.SizeNameInnerPadding)
	s, words := verdictOf(cell)
	ink := look.Ink(s)
	var mark fyne.CanvasObject
	switch {
	case s != "":
		mark = widgets.NewSeverityIcon(s)
	case t.columns[i].Trend:
		if way := trendOf(cell); way != "" {
			mark, ink = newTrendIcon(way), trendInk(way)
		}
	}
	text := canvas.NewText("", look.Of(th, ink))
	text.TextSize = th.Size(theme.SizeNameText)
	text.TextStyle.Bold = s != "" || t.double && t.right[i]
	text.Text = cutTo(words, t.widths[i]-2*pad, text.TextSize, text.TextStyle)
	left, right := x+pad, x+t.widths[i]-pad
	if t.right[i] {
		text.Alignment = fyne.TextAlignTrailing
		if mark != nil {
			left = right - text.MinSize().Width - side - gap
		}
	}
	if mark != nil {
		mark.Resize(fyne.NewSquareSize(side))
		mark.Move(fyne.NewPos(left, y+(h-side)/2))
		r.objects = append(r.objects, mark)
	}
	if mark != nil || t.columns[i].Trend && !t.double {
		left += side + gap
	}
	text.Resize(fyne.NewSize(right-left, text.MinSize().Height))
	text.Move(fyne.NewPos(left, y+(h-text.MinSize().Height)/2))
	r.objects = append(r.objects, text)
}

// drawUnder writes the second line of a cell, with its mark where it tells a
// trend.
func (r *bodyRenderer) drawUnder(words string, i int, x, y float32) {
	if words == "" {
		return
	}
	t := r.b.t
	th := t.Theme()
	size, pad := th.Size(theme.SizeNameCaptionText), 2*th.Size(theme.SizeNameInnerPadding)
	way, ink := trendOf(words), theme.ColorNamePlaceHolder
	if way != "" {
		ink = trendInk(way)
	}
	text := canvas.NewText(words, look.Of(th, ink))
	text.TextSize = size
	wide := text.MinSize()
	left := x + pad
	if t.right[i] {
		left = x + t.widths[i] - pad - wide.Width
	}
	text.Move(fyne.NewPos(left, y))
	text.Resize(wide)
	r.objects = append(r.objects, text)
	if t.columns[i].Trend && way != "" {
		mark := newTrendIcon(way)
		mark.Resize(fyne.NewSquareSize(size))
		mark.Move(fyne.NewPos(left-size-th.Size(theme.SizeNameInnerPadding), y+(wide.Height-size)/2))
		r.objects = append(r.objects, mark)
	}
}
