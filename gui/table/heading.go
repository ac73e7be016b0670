package table

import (
	"cmp"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

// tableHead draws titles and units, moved sideways with the body.
type tableHead struct {
	widget.BaseWidget
	widgets.HoverTip
	t *Table
}

var _ fyne.Tappable = (*tableHead)(nil)

// Tapped tells the column.
func (h *tableHead) Tapped(e *fyne.PointEvent) {
	h.t.focusMe()
	if h.t.OnHead == nil {
		return
	}
	if at, _ := h.columnAt(e.Position); at >= 0 {
		h.t.OnHead(at)
	}
}

// columnAt is the column at a place, and where it begins; -1: none.
func (h *tableHead) columnAt(at fyne.Position) (column int, left float32) {
	column = -1
	h.t.each(func(i int, x float32, line int) {
		x -= h.t.pane.Offset.X
		if at.X >= x && at.X < x+h.t.widths[i] && at.Y >= h.t.headTop(line) && at.Y < h.t.heads[line] {
			column, left = i, x
		}
	})
	return column, left
}

// explained is the column at a place, with the sentence on its term or its name whole.
func (h *tableHead) explained(at fyne.Position) (from fyne.Position, size fyne.Size, text string) {
	i, left := h.columnAt(at)
	if i < 0 {
		return from, size, ""
	}
	c := h.t.columns[i]
	top := h.t.headTop(h.t.line[i])
	return fyne.NewPos(left, top), fyne.NewSize(h.t.widths[i], h.t.heads[h.t.line[i]]-top), cmp.Or(c.Whole, widgets.Explain(cmp.Or(c.Term, c.Title)))
}

// CreateRenderer draws the head.
func (h *tableHead) CreateRenderer() fyne.WidgetRenderer {
	return &headRenderer{h: h, ground: canvas.NewRectangle(color.Transparent), line: canvas.NewRectangle(color.Transparent)}
}

type headRenderer struct {
	h            *tableHead
	ground, line *canvas.Rectangle
	texts        []fyne.CanvasObject
	drawn        fyne.Size
}

func (r *headRenderer) Destroy()           {}
func (r *headRenderer) MinSize() fyne.Size { return fyne.NewSize(1, r.h.t.headHeight()) }

func (r *headRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.ground, r.line}, r.texts...)
}

// Layout draws again for a new size alone: the window lays out whatever was
// drawn again, which would go on for ever.
func (r *headRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.Refresh()
	}
}

func (r *headRenderer) Refresh() {
	r.drawn = r.h.Size()
	t := r.h.t
	th := t.Theme()
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	height := t.headHeight()
	r.ground.FillColor = look.Of(th, theme.ColorNameHeaderBackground)
	r.ground.Resize(r.h.Size())
	r.line.FillColor = look.Of(th, theme.ColorNameSeparator)
	r.line.Resize(fyne.NewSize(r.h.Size().Width, 1))
	r.line.Move(fyne.NewPos(0, height-1))
	r.texts = r.texts[:0]
	fixed, _ := t.fixed()
	t.each(func(i int, x float32, line int) {
		if x -= t.pane.Offset.X; i < fixed {
			ground := canvas.NewRectangle(look.Of(th, theme.ColorNameHeaderBackground))
			ground.Move(fyne.NewPos(x, 0))
			ground.Resize(fyne.NewSize(t.widths[i], height-1))
			r.texts = append(r.texts, ground)
		}
		w, right := t.widths[i]-2*pad, t.right[i]
		if t.columns[i].Over && i+1 < len(t.widths) {
			w, right = w+t.widths[i+1], false
		}
		r.title(t.titleLines(i), t.columns[i].Unit, x+pad, t.headTop(line), w, right)
	})
	canvas.Refresh(r.h)
}

// title writes a column's title, a line under the other, and its unit.
func (r *headRenderer) title(lines []string, under string, x, top, w float32, right bool) {
	th := r.h.t.Theme()
	var texts []*canvas.Text
	for _, line := range lines {
		title := canvas.NewText(line, look.Of(th, theme.ColorNameForeground))
		title.TextStyle.Bold = true
		title.TextSize = th.Size(theme.SizeNameText)
		texts = append(texts, title)
	}
	unit := canvas.NewText(under, look.Of(th, theme.ColorNamePlaceHolder))
	unit.TextSize = th.Size(theme.SizeNameCaptionText)
	y := top + th.Size(theme.SizeNameInnerPadding)/2
	for _, text := range append(texts, unit) {
		if right {
			text.Alignment = fyne.TextAlignTrailing
		}
		text.Move(fyne.NewPos(x, y))
		text.Resize(fyne.NewSize(w, text.MinSize().Height))
		y += text.MinSize().Height
		if text.Text != "" {
			r.texts = append(r.texts, text)
		}
	}
}
