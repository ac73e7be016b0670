package table

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/sizing"
)

// trendIcon is the shape of a change: a tick for the better, a cross for the
// worse, two level strokes for what is too close to tell. No arrow: the number
// beside it has its own direction, and less is often better.
type trendIcon struct {
	widget.BaseWidget
	trend sizing.Trend
}

func newTrendIcon(t sizing.Trend) *trendIcon {
	m := &trendIcon{trend: t}
	m.ExtendBaseWidget(m)
	return m
}

func trendInk(t sizing.Trend) fyne.ThemeColorName {
	switch t {
	case sizing.Better:
		return theme.ColorNameSuccess
	case sizing.Worse:
		return theme.ColorNameWarning
	}
	return theme.ColorNameForeground
}

// CreateRenderer draws the strokes.
func (m *trendIcon) CreateRenderer() fyne.WidgetRenderer {
	r := &trendIconRenderer{m: m}
	for range 2 {
		r.strokes = append(r.strokes, canvas.NewLine(color.Transparent))
	}
	return r
}

type trendIconRenderer struct {
	m       *trendIcon
	strokes []fyne.CanvasObject
	laid    fyne.Size
}

func (r *trendIconRenderer) Destroy()                     {}
func (r *trendIconRenderer) Objects() []fyne.CanvasObject { return r.strokes }

func (r *trendIconRenderer) MinSize() fyne.Size {
	return fyne.NewSquareSize(r.m.Theme().Size(theme.SizeNameInlineIcon))
}

// Layout does nothing while the size stays, as that of Mark.
func (r *trendIconRenderer) Layout(size fyne.Size) {
	if size != r.laid {
		r.laid = size
		r.draw()
	}
}

func (r *trendIconRenderer) Refresh() {
	r.draw()
	canvas.Refresh(r.m)
}

func (r *trendIconRenderer) draw() {
	d := fyne.Min(r.laid.Width, r.laid.Height)
	at := func(x, y float32) fyne.Position { return fyne.NewPos(x*d, y*d) }
	var ends [2][2]fyne.Position
	switch r.m.trend {
	case sizing.Better:
		ends = [2][2]fyne.Position{{at(0.14, 0.54), at(0.4, 0.8)}, {at(0.4, 0.8), at(0.88, 0.2)}}
	case sizing.Worse:
		ends = [2][2]fyne.Position{{at(0.2, 0.2), at(0.8, 0.8)}, {at(0.2, 0.8), at(0.8, 0.2)}}
	default:
		ends = [2][2]fyne.Position{{at(0.16, 0.36), at(0.84, 0.36)}, {at(0.16, 0.64), at(0.84, 0.64)}}
	}
	ink := look.Of(r.m.Theme(), trendInk(r.m.trend))
	for i, o := range r.strokes {
		l := o.(*canvas.Line)
		l.Position1, l.Position2 = ends[i][0], ends[i][1]
		l.StrokeColor, l.StrokeWidth = ink, fyne.Max(1.6, d*0.13)
		l.Refresh()
	}
}
