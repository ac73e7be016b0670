package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// SeverityIcon is the shape of a severity: a disc with a tick, a triangle with a
// stroke, an octagon with a bar. The shape tells as much as the color.
type SeverityIcon struct {
	widget.BaseWidget
	severity sizing.Severity
}

// NewSeverityIcon makes the mark of a severity, as high as a line of text.
func NewSeverityIcon(s sizing.Severity) *SeverityIcon {
	m := &SeverityIcon{severity: s}
	m.ExtendBaseWidget(m)
	return m
}

// Set changes the severity.
func (m *SeverityIcon) Set(s sizing.Severity) {
	if m.severity == s {
		return
	}
	m.severity = s
	m.Refresh()
}

// Severity that the mark shows.
func (m *SeverityIcon) Severity() sizing.Severity { return m.severity }

var severityWords = map[sizing.Severity]message.ID{sizing.Good: "GOOD", sizing.Caution: "CAUTION", sizing.Stop: "STOP"}

// SeverityWord is the severity as it is written beside its mark.
func SeverityWord(s sizing.Severity) string { return lang.T(severityWords[s]) }

// CreateRenderer draws the mark.
func (m *SeverityIcon) CreateRenderer() fyne.WidgetRenderer {
	r := &severityIconRenderer{
		m:        m,
		disc:     canvas.NewCircle(color.Transparent),
		triangle: canvas.NewPolygon(3, color.Transparent),
		octagon:  canvas.NewPolygon(8, color.Transparent),
		strokes:  [2]*canvas.Line{canvas.NewLine(color.Transparent), canvas.NewLine(color.Transparent)},
	}
	r.octagon.Angle = 22.5
	r.paint()
	return r
}

type severityIconRenderer struct {
	m                 *SeverityIcon
	disc              *canvas.Circle
	triangle, octagon *canvas.Polygon
	strokes           [2]*canvas.Line
	laid              fyne.Size
}

func (r *severityIconRenderer) Destroy() {}

func (r *severityIconRenderer) MinSize() fyne.Size {
	return fyne.NewSquareSize(r.m.Theme().Size(theme.SizeNameInlineIcon))
}

func (r *severityIconRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.disc, r.triangle, r.octagon, r.strokes[0], r.strokes[1]}
}

// Layout does nothing while the size stays: the window lays a mark out again
// whenever it was drawn.
func (r *severityIconRenderer) Layout(size fyne.Size) {
	if size == r.laid {
		return
	}
	r.laid = size
	r.place(size)
}

func (r *severityIconRenderer) place(size fyne.Size) {
	d := fyne.Min(size.Width, size.Height)
	x0, y0 := (size.Width-d)/2, (size.Height-d)/2
	square := fyne.NewSquareSize(d)
	for _, o := range []fyne.CanvasObject{r.disc, r.triangle, r.octagon} {
		o.Resize(square)
		o.Move(fyne.NewPos(x0, y0))
	}
	// A triangle fills less of its circle than disc and octagon do.
	r.triangle.Resize(fyne.NewSquareSize(1.2 * d))
	r.triangle.Move(fyne.NewPos(x0-0.1*d, y0+0.02*d))
	at := func(x, y float32) fyne.Position { return fyne.NewPos(x0+x*d, y0+y*d) }
	a, b := r.strokes[0], r.strokes[1]
	switch r.m.severity {
	case sizing.Good:
		a.Position1, a.Position2 = at(0.27, 0.52), at(0.44, 0.69)
		b.Position1, b.Position2 = at(0.44, 0.69), at(0.74, 0.34)
	case sizing.Caution:
		a.Position1, a.Position2 = at(0.5, 0.34), at(0.5, 0.62)
		b.Position1, b.Position2 = at(0.5, 0.72), at(0.5, 0.80)
	default:
		a.Position1, a.Position2 = at(0.27, 0.5), at(0.73, 0.5)
		b.Position1, b.Position2 = a.Position1, a.Position2
	}
	for _, s := range r.strokes {
		s.StrokeWidth = fyne.Max(1.4, d*0.12)
		s.Refresh()
	}
}

func (r *severityIconRenderer) Refresh() {
	r.paint()
	r.place(r.m.Size())
	canvas.Refresh(r.m)
}

func (r *severityIconRenderer) paint() {
	th := r.m.Theme()
	ink := look.Of(th, look.Ink(r.m.severity))
	r.disc.FillColor, r.triangle.FillColor, r.octagon.FillColor = ink, ink, ink
	s := r.m.severity
	r.disc.Hidden = s != sizing.Good
	r.triangle.Hidden = s != sizing.Caution
	r.octagon.Hidden = s != sizing.Stop
	_, known := severityWords[s]
	ground := look.Of(th, theme.ColorNameInputBackground)
	for _, l := range r.strokes {
		l.StrokeColor = ground
		l.Hidden = !known
	}
}
