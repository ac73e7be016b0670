package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// marker is a glyph whose shape shows the option and whose filling shows the
// state: full for a clean filter, hollow for a loaded one.
type marker struct {
	corners int     // 0: round
	star    bool    // with a notch between two corners
	turn    float64 // of the first corner from upright, in radians
	hollow  bool
	pierced bool        // with a hole, or a dot where it is hollow
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
	{corners: 4, star: true},
	{corners: 3, turn: math.Pi / 2},  // triangle to the right
	{corners: 3, turn: -math.Pi / 2}, // triangle to the left
	{corners: 5, star: true},
	{corners: 4, star: true, turn: math.Pi / 4},
	{corners: 3, star: true},
	{corners: 8, star: true},
	{corners: 3, star: true, turn: math.Pi},
}

// shape of an option: no two of the first thirty share one.
func shape(option int) marker {
	m := shapes[option%len(shapes)]
	m.pierced = option/len(shapes)%2 == 1
	return m
}

func (l Look) marker(option int, r rank, hollow bool) draw.GlyphStyle {
	m := shape(option)
	m.hollow, m.paper = hollow, l.Background
	size := markSize * math.Pow(max(l.Stroke, 1), 0.25) // they grow with the letters too
	if !r.strong() {
		size *= 0.85
	}
	return draw.GlyphStyle{Color: l.series(r), Radius: l.points(size), Shape: m}
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
	if m.pierced {
		c.SetColor(outer)
		c.Fill(marker{}.outline(at, s.Radius*0.35))
	}
}

// reach makes the shapes look equally large.
func (m marker) reach(r vg.Length) vg.Length {
	if m.star {
		return r * 1.5
	}
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
	if m.star {
		n *= 2
	}
	for i := range n {
		sin, cos := math.Sincos(m.turn + 2*math.Pi*float64(i)/float64(n))
		reach := r
		if m.star && i%2 == 1 {
			reach *= 0.45
		}
		q := vg.Point{X: at.X + reach*vg.Length(sin), Y: at.Y + reach*vg.Length(cos)}
		if i == 0 {
			p.Move(q)
		} else {
			p.Line(q)
		}
	}
	p.Close()
	return p
}
