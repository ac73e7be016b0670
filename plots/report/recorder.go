package report

import (
	"bytes"
	"image"
	"slices"

	"codeberg.org/go-pdf/fpdf"
)

// recorder writes a PDF and keeps what it drew, page by page, so that the very same
// drawing can be shown as a picture. Every method by which the sheet, the
// canvas or the pages draw is one of its own; the embedded ones only measure
// and describe.
type recorder struct {
	*fpdf.Fpdf
	pages [][]drawn
	now   ink
	path  []step // since the last drawn path
}

// ink is how the next shape will look.
type ink struct {
	line, area, text shade
	alpha            float64
	width            float64
	dash             []float64
	offset           float64
	size             float64
	bold             bool
	turns            []turn
}

// turn is a rotation about a point, in degrees, counter-clockwise.
type turn struct{ degrees, x, y float64 }

// step is a piece of a path: a move, a line or a cubic to its last point, or
// the line back to its start.
type step struct {
	kind   byte // m, l, c, z
	points [6]float64
}

// drawn is one thing drawn: a path stroked or filled or both, a text, or a
// picture.
type drawn struct {
	ink
	path         []step
	stroke, fill bool
	text         string
	picture      image.Image
	x, y, w, h   float64
}

func newRecorder(pdf *fpdf.Fpdf) *recorder {
	return &recorder{Fpdf: pdf, now: ink{alpha: 1, width: 0.57}}
}

func (t *recorder) keep(m drawn) {
	m.ink = t.now
	m.turns = slices.Clone(t.now.turns)
	n := len(t.pages) - 1
	t.pages[n] = append(t.pages[n], m)
}

func (t *recorder) AddPage() {
	t.Fpdf.AddPage()
	t.pages = append(t.pages, nil)
}

func (t *recorder) SetFont(family, weight string, size float64) {
	t.Fpdf.SetFont(family, weight, size)
	t.now.size, t.now.bold = size, weight == "B"
}

func (t *recorder) SetTextColor(r, g, b int) {
	t.Fpdf.SetTextColor(r, g, b)
	t.now.text = shade{r, g, b}
}

func (t *recorder) SetDrawColor(r, g, b int) {
	t.Fpdf.SetDrawColor(r, g, b)
	t.now.line = shade{r, g, b}
}

func (t *recorder) SetFillColor(r, g, b int) {
	t.Fpdf.SetFillColor(r, g, b)
	t.now.area = shade{r, g, b}
}

func (t *recorder) SetLineWidth(w float64) {
	t.Fpdf.SetLineWidth(w)
	t.now.width = w
}

func (t *recorder) SetDashPattern(dash []float64, offset float64) {
	t.Fpdf.SetDashPattern(dash, offset)
	t.now.dash, t.now.offset = slices.Clone(dash), offset
}

func (t *recorder) SetAlpha(alpha float64, blend string) {
	t.Fpdf.SetAlpha(alpha, blend)
	t.now.alpha = alpha
}

func (t *recorder) TransformBegin() {
	t.Fpdf.TransformBegin()
}

func (t *recorder) TransformRotate(degrees, x, y float64) {
	t.Fpdf.TransformRotate(degrees, x, y)
	t.now.turns = append(slices.Clone(t.now.turns), turn{degrees, x, y})
}

func (t *recorder) TransformEnd() {
	t.Fpdf.TransformEnd()
	t.now.turns = nil // they are not nested
}

func (t *recorder) Text(x, y float64, text string) {
	t.Fpdf.Text(x, y, text)
	t.keep(drawn{text: text, x: x, y: y})
}

func (t *recorder) Line(x1, y1, x2, y2 float64) {
	t.Fpdf.Line(x1, y1, x2, y2)
	t.keep(drawn{path: []step{move(x1, y1), line(x2, y2)}, stroke: true})
}

func (t *recorder) Rect(x, y, w, h float64, how string) {
	t.Fpdf.Rect(x, y, w, h, how)
	t.draw([]step{move(x, y), line(x+w, y), line(x+w, y+h), line(x, y+h), {kind: 'z'}}, how)
}

func (t *recorder) Polygon(points []fpdf.PointType, how string) {
	t.Fpdf.Polygon(points, how)
	var path []step
	for i, p := range points {
		if i == 0 {
			path = append(path, move(p.X, p.Y))
		} else {
			path = append(path, line(p.X, p.Y))
		}
	}
	t.draw(append(path, step{kind: 'z'}), how)
}

// Circle is four cubics, which miss it by less than 3e-4 of its radius.
func (t *recorder) Circle(x, y, r float64, how string) {
	t.Fpdf.Circle(x, y, r, how)
	const k = 0.5522847498
	t.draw([]step{
		move(x+r, y),
		cubic(x+r, y+k*r, x+k*r, y+r, x, y+r),
		cubic(x-k*r, y+r, x-r, y+k*r, x-r, y),
		cubic(x-r, y-k*r, x-k*r, y-r, x, y-r),
		cubic(x+k*r, y-r, x+r, y-k*r, x+r, y),
		{kind: 'z'},
	}, how)
}

func (t *recorder) MoveTo(x, y float64) {
	t.Fpdf.MoveTo(x, y)
	t.path = append(t.path, move(x, y))
}

func (t *recorder) LineTo(x, y float64) {
	t.Fpdf.LineTo(x, y)
	t.path = append(t.path, line(x, y))
}

func (t *recorder) CurveBezierCubicTo(x1, y1, x2, y2, x, y float64) {
	t.Fpdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
	t.path = append(t.path, cubic(x1, y1, x2, y2, x, y))
}

func (t *recorder) ClosePath() {
	t.Fpdf.ClosePath()
	t.path = append(t.path, step{kind: 'z'})
}

func (t *recorder) DrawPath(how string) {
	t.Fpdf.DrawPath(how)
	t.draw(t.path, how)
	t.path = nil
}

func (t *recorder) draw(path []step, how string) {
	t.keep(drawn{path: path, stroke: how != "F", fill: how == "F" || how == "FD"})
}

// Picture puts a picture, whose file is of a kind, into a rectangle.
func (t *recorder) Picture(name, kind string, img image.Image, data *bytes.Buffer, x, y, w, h float64) {
	opts := fpdf.ImageOptions{ImageType: kind}
	t.RegisterImageOptionsReader(name, opts, data)
	t.ImageOptions(name, x, y, w, h, false, opts, 0, "")
	t.keep(drawn{picture: img, x: x, y: y, w: w, h: h})
}

func move(x, y float64) step { return step{'m', [6]float64{x, y}} }
func line(x, y float64) step { return step{'l', [6]float64{x, y}} }
func cubic(x1, y1, x2, y2, x, y float64) step {
	return step{'c', [6]float64{x1, y1, x2, y2, x, y}}
}
