package strip

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

const arrow = " → "

// cell shows one Figure: its title, today and the proposal, and under them how
// well they are known.
type cell struct {
	widget.BaseWidget
	widgets.HoverTip
	figure Figure
	usual  Figure // as wide as most: what stands beside keeps its place
	dim    bool   // the numbers are older than the job
	ranged bool   // there is room for the range and the whole title
}

func newCell(usual Figure) *cell {
	c := &cell{usual: usual}
	c.OnAll(c, func() string { return widgets.Explain(c.figure.Term) })
	c.ExtendBaseWidget(c)
	return c
}

func (c *cell) set(f Figure, dim bool) {
	if c.figure != f || c.dim != dim {
		c.figure, c.dim = f, dim
		c.Refresh()
	}
}

// CreateRenderer draws the figure.
func (c *cell) CreateRenderer() fyne.WidgetRenderer {
	r := &cellRenderer{c: c}
	for i := range r.texts {
		r.texts[i] = canvas.NewText("", color.Black)
	}
	r.paint()
	return r
}

// Parts of a cell in the order of its texts.
const (
	partTitle = iota
	partBefore
	partArrow
	partAfter
	partRange
	parts
)

type cellRenderer struct {
	c     *cell
	texts [parts]*canvas.Text
}

func (r *cellRenderer) Destroy() {}

func (r *cellRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, 0, parts)
	for _, t := range r.texts {
		out = append(out, t)
	}
	return out
}

func (r *cellRenderer) MinSize() fyne.Size {
	title, value, spread := r.texts[partTitle].MinSize(), r.texts[partBefore].MinSize(), r.texts[partRange].MinSize()
	values := value.Width + r.texts[partArrow].MinSize().Width + r.texts[partAfter].MinSize().Width
	usual := fyne.Max(
		fyne.MeasureText(r.title(r.c.usual), r.texts[partTitle].TextSize, fyne.TextStyle{}).Width,
		fyne.MeasureText(r.c.usual.Before+arrow+r.c.usual.After, r.texts[partBefore].TextSize, fyne.TextStyle{Bold: true}).Width)
	size := fyne.NewSize(fyne.Max(usual, fyne.Max(title.Width, values)), title.Height+value.Height)
	if r.c.ranged {
		size = fyne.NewSize(fyne.Max(size.Width, spread.Width), size.Height+spread.Height)
	}
	return size
}

func (r *cellRenderer) Layout(fyne.Size) {
	put := func(i int, x, y float32) fyne.Size {
		size := r.texts[i].MinSize()
		r.texts[i].Move(fyne.NewPos(x, y))
		r.texts[i].Resize(size)
		return size
	}
	y, x := put(partTitle, 0, 0).Height, float32(0)
	for _, i := range []int{partBefore, partArrow, partAfter} {
		x += put(i, x, y).Width
	}
	put(partRange, 0, y+r.texts[partBefore].MinSize().Height)
}

func (r *cellRenderer) Refresh() {
	r.paint()
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}

func (r *cellRenderer) title(f Figure) string {
	if r.c.ranged {
		return f.Title
	}
	return f.Short
}

func (r *cellRenderer) paint() {
	th, f := r.c.Theme(), r.c.figure
	dress := func(i int, text string, size fyne.ThemeSizeName, name fyne.ThemeColorName, bold bool) {
		t := r.texts[i]
		t.Text, t.TextSize, t.TextStyle.Bold, t.Color = text, th.Size(size), bold, look.Of(th, name)
	}
	before, after, between := look.Today, look.Proposal, arrow
	if r.c.dim {
		before, after = theme.ColorNamePlaceHolder, theme.ColorNamePlaceHolder
	}
	if f.After == "" {
		between = ""
	}
	dress(partTitle, r.title(f), theme.SizeNameCaptionText, theme.ColorNameForeground, false)
	dress(partBefore, f.Before, theme.SizeNameSubHeadingText, before, true)
	dress(partArrow, between, theme.SizeNameSubHeadingText, theme.ColorNamePlaceHolder, false)
	dress(partAfter, f.After, theme.SizeNameSubHeadingText, after, true)
	dress(partRange, f.Range, theme.SizeNameCaptionText, theme.ColorNamePlaceHolder, false)
	r.texts[partRange].Hidden = !r.c.ranged
}
