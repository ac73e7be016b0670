package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// marker is a glyph whose shape tells the option and whose filling tells the
// state: full for a clean filter, hollow for a loaded one.
type marker struct {
	corners int     // 0: round
	turn    float64 // of the first corner from upright, in radians
	hollow  bool
	paper   color.Color // inside of a hollow marker and edge of a full one
}

// shapes in the order of the options; the first is the house with no filter.
var shapes = []marker{
	{corners: 0},
	{corners: 4, turn: math.Pi / 4}, // square
	{corners: 3},                    // triangle
	{corners: 4},                    // diamond
	{corners: 3, turn: math.Pi},     // triangle on its tip
	{corners: 6},
	{corners: 5, turn: math.Pi},
}

func (l Look) marker(option int, hollow bool) draw.GlyphStyle {
	m := shapes[option%len(shapes)]
	m.hollow, m.paper = hollow, l.Background
	return draw.GlyphStyle{Color: l.series(option), Radius: l.points(markSize), Shape: m}
}

// DrawGlyph draws the marker.
func (m marker) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	outer, inner := s.Color, m.paper
	if !m.hollow {
		outer, inner = m.paper, s.Color
	}
	c.SetColor(outer)
	c.Fill(m.outline(at, m.reach(s.Radius)+1))
	c.SetColor(inner)
	c.Fill(m.outline(at, m.reach(s.Radius)-1))
}

// reach makes the shapes look equally large.
func (m marker) reach(r vg.Length) vg.Length {
	switch m.corners {
	case 3:
		return r * 1.35
	case 4:
		return r * 1.2
	}
	return r
}

func (m marker) outline(at vg.Point, r vg.Length) vg.Path {
	n := m.corners
	if n == 0 {
		n = 24
	}
	if n == 3 && m.hollow {
		r *= 1.1
	}
	var p vg.Path
	for i := range n {
		sin, cos := math.Sincos(m.turn + 2*math.Pi*float64(i)/float64(n))
		q := vg.Point{X: at.X + r*vg.Length(sin), Y: at.Y + r*vg.Length(cos)}
		if i == 0 {
			p.Move(q)
		} else {
			p.Line(q)
		}
	}
	p.Close()
	return p
}
