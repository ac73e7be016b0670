package report

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/plots"
)

// canvas is a vg.Canvas on a part of a sheet: lines stay lines and words stay
// words, in the sheet's own embedded face.
type canvas struct {
	sheet  *sheet
	x, y   float64 // upper left corner on the page
	w, h   float64
	state  pen
	stack  []pen
	images int
}

// pen is what Push keeps.
type pen struct {
	// Affine map from the drawing to the canvas: X = a x + c y + e,
	// Y = b x + d y + f.
	a, b, c, d, e, f float64
	width            vg.Length
	dash             []vg.Length
	offset           vg.Length
	ink              color.Color
}

var _ vg.CanvasSizer = (*canvas)(nil)

// drawChart draws a chart with its upper left corner at a point.
func (s *sheet) drawChart(chart plots.Chart, x, y, w, h float64) {
	c := &canvas{sheet: s, x: x, y: y, w: w, h: h, state: pen{a: 1, d: 1, ink: color.Black}}
	vg.Initialize(c)
	chart.Draw(draw.New(c))
	s.pdf.SetLineCapStyle("butt")
	s.pdf.SetAlpha(1, "Normal")
}

// Size is the room for the drawing.
func (c *canvas) Size() (w, h vg.Length) { return vg.Length(c.w), vg.Length(c.h) }

// SetLineWidth sets the width of lines.
func (c *canvas) SetLineWidth(w vg.Length) { c.state.width = w }

// SetLineDash sets the dashes of lines.
func (c *canvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	c.state.dash, c.state.offset = append([]vg.Length(nil), pattern...), offset
}

// SetColor sets the color of lines, areas and words.
func (c *canvas) SetColor(ink color.Color) {
	if ink == nil {
		ink = color.Black
	}
	c.state.ink = ink
}

// Rotate turns what is drawn next, counter-clockwise.
func (c *canvas) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	c.join(cos, sin, -sin, cos, 0, 0)
}

// Translate moves what is drawn next.
func (c *canvas) Translate(by vg.Point) { c.join(1, 0, 0, 1, float64(by.X), float64(by.Y)) }

// Scale stretches what is drawn next.
func (c *canvas) Scale(x, y float64) { c.join(x, 0, 0, y, 0, 0) }

// join puts a map before the present one.
func (c *canvas) join(a, b, cc, d, e, f float64) {
	s := c.state
	c.state.a, c.state.b = s.a*a+s.c*b, s.b*a+s.d*b
	c.state.c, c.state.d = s.a*cc+s.c*d, s.b*cc+s.d*d
	c.state.e, c.state.f = s.a*e+s.c*f+s.e, s.b*e+s.d*f+s.f
}

// Push keeps the state and Pop brings it back.
func (c *canvas) Push() { c.stack = append(c.stack, c.state) }

// Pop brings the kept state back.
func (c *canvas) Pop() {
	n := len(c.stack) - 1
	c.state, c.stack = c.stack[n], c.stack[:n]
}

// page gives the place of a point on the page.
func (c *canvas) page(p vg.Point) (x, y float64) {
	s := c.state
	u, v := float64(p.X), float64(p.Y)
	return c.x + s.a*u + s.c*v + s.e, c.y + c.h - (s.b*u + s.d*v + s.f)
}

// growth is the mean factor by which the present map stretches lengths.
func (c *canvas) growth() float64 {
	return math.Sqrt(math.Abs(c.state.a*c.state.d - c.state.b*c.state.c))
}

// Stroke draws a path.
func (c *canvas) Stroke(p vg.Path) {
	if c.state.width <= 0 {
		return
	}
	ink, k := c.ink(), c.growth()
	dash := make([]float64, len(c.state.dash))
	for i, d := range c.state.dash {
		dash[i] = float64(d) * k
	}
	pdf := c.sheet.pdf
	pdf.SetDrawColor(ink.r, ink.g, ink.b)
	pdf.SetLineWidth(float64(c.state.width) * k)
	pdf.SetDashPattern(dash, float64(c.state.offset)*k)
	c.path(p)
	pdf.DrawPath("D")
}

// Fill paints a path.
func (c *canvas) Fill(p vg.Path) {
	ink := c.ink()
	c.sheet.pdf.SetFillColor(ink.r, ink.g, ink.b)
	c.path(p)
	c.sheet.pdf.DrawPath("F")
}

// ink gives the color and sets how much shows through.
func (c *canvas) ink() shade {
	n := color.NRGBAModel.Convert(c.state.ink).(color.NRGBA)
	if alpha := float64(n.A) / 255; alpha != c.sheet.alpha() {
		c.sheet.pdf.SetAlpha(alpha, "Normal")
	}
	return shade{int(n.R), int(n.G), int(n.B)}
}

func (s *sheet) alpha() float64 {
	a, _ := s.pdf.GetAlpha()
	return a
}

func (c *canvas) path(p vg.Path) {
	pdf := c.sheet.pdf
	for i, part := range p {
		x, y := c.page(part.Pos)
		switch part.Type {
		case vg.MoveComp:
			pdf.MoveTo(x, y)
		case vg.LineComp:
			pdf.LineTo(x, y)
		case vg.ArcComp:
			c.arc(part, i == 0)
		case vg.CurveComp:
			c.curve(part)
		case vg.CloseComp:
			pdf.ClosePath()
		}
	}
}

// curve draws a cubic curve; one with a single control point is a parabola, of
// which the cubic's control points lie two thirds of the way to it.
func (c *canvas) curve(p vg.PathComp) {
	pdf := c.sheet.pdf
	x, y := c.page(p.Pos)
	x1, y1 := c.page(p.Control[0])
	if len(p.Control) > 1 {
		x2, y2 := c.page(p.Control[1])
		pdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
		return
	}
	x0, y0 := pdf.GetXY()
	pdf.CurveBezierCubicTo(x0+2*(x1-x0)/3, y0+2*(y1-y0)/3, x+2*(x1-x)/3, y+2*(y1-y)/3, x, y)
}

// arc draws an arc as cubic curves of at most an eighth of a turn, which miss
// the circle by less than 1e-5 of its radius.
func (c *canvas) arc(p vg.PathComp, first bool) {
	n := max(int(math.Ceil(math.Abs(p.Angle)/(math.Pi/4))), 1)
	step := p.Angle / float64(n)
	reach := 4.0 / 3 * math.Tan(step/4)
	at := func(angle, along float64) (float64, float64) {
		sin, cos := math.Sincos(angle)
		return c.page(vg.Point{
			X: p.Pos.X + p.Radius*vg.Length(cos-along*sin),
			Y: p.Pos.Y + p.Radius*vg.Length(sin+along*cos),
		})
	}
	if x, y := at(p.Start, 0); first {
		c.sheet.pdf.MoveTo(x, y)
	} else {
		c.sheet.pdf.LineTo(x, y)
	}
	for i := range n {
		from := p.Start + float64(i)*step
		x1, y1 := at(from, reach)
		x2, y2 := at(from+step, -reach)
		x3, y3 := at(from+step, 0)
		c.sheet.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x3, y3)
	}
}

// FillString writes a text with its baseline's left end at a point.
func (c *canvas) FillString(face font.Face, at vg.Point, text string) {
	t := style{size: float64(face.Font.Size) * c.growth(), bold: face.Font.Weight == xfont.WeightBold, ink: c.ink()}
	if t.size <= 0 {
		return
	}
	x, y := c.page(at)
	turn := math.Atan2(c.state.b, c.state.a)
	if math.Abs(turn) < 1e-9 {
		c.sheet.put(t, x, y, text)
		return
	}
	c.sheet.pdf.TransformBegin()
	c.sheet.pdf.TransformRotate(turn*180/math.Pi, x, y)
	c.sheet.put(t, x, y, text)
	c.sheet.pdf.TransformEnd()
}

// DrawImage puts a picture into a level rectangle.
func (c *canvas) DrawImage(rect vg.Rectangle, img image.Image) {
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		c.sheet.pdf.SetError(err)
		return
	}
	c.images++
	x0, y1 := c.page(rect.Min)
	x1, y0 := c.page(rect.Max)
	c.sheet.pdf.Picture(fmt.Sprintf("picture %p %d", c, c.images), "png", img, &data, x0, y0, x1-x0, y1-y0)
}
