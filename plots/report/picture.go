package report

import (
	"image"
	"image/color"
	"math"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"returnbench/sizing/message"
)

// Resolutions of pictures, in dots per inch.
const (
	leastDPI = 20
	mostDPI  = 600
)

// Picture draws a page, counted from 1, as it stands on paper.
func (p *Pages) Picture(page int, dpi float64) (image.Image, error) {
	if page < 1 || page > p.Count {
		return nil, message.Errorf("page: given {page}; want 1 to {last}", "page", page, "last", p.Count)
	}
	if !(dpi >= leastDPI && dpi <= mostDPI) {
		return nil, message.Errorf("dpi: given {dpi}; want {least} to {most}", "dpi", dpi, "least", leastDPI, "most", mostDPI)
	}
	k := dpi / 72
	b, err := newBrush(int(math.Round(p.sheet.w*k)), int(math.Round(p.sheet.h*k)), k)
	if err != nil {
		return nil, err
	}
	for _, m := range p.sheet.pdf.pages[page-1] {
		if err := b.draw(m); err != nil {
			return nil, err
		}
	}
	return b.ctx.Image(), nil
}

// brush draws marks into a picture. Letters are their outlines, so that they
// stand where the PDF has them.
type brush struct {
	ctx    *gg.Context
	faces  [2]*sfnt.Font // plain, bold
	buffer sfnt.Buffer
}

func newBrush(w, h int, k float64) (*brush, error) {
	b := &brush{ctx: gg.NewContext(w, h)}
	for i, data := range [][]byte{liberationsansregular.TTF, liberationsansbold.TTF} {
		var err error
		if b.faces[i], err = sfnt.Parse(data); err != nil {
			return nil, err
		}
	}
	b.ctx.SetColor(color.White)
	b.ctx.Clear()
	b.ctx.Scale(k, k)
	b.ctx.SetLineCapButt()
	b.ctx.SetLineJoinBevel()
	return b, nil
}

func (b *brush) draw(m drawn) error {
	b.ctx.Push()
	defer b.ctx.Pop()
	for _, t := range m.turns {
		b.ctx.RotateAbout(-t.degrees*math.Pi/180, t.x, t.y)
	}
	switch {
	case m.picture != nil:
		size := m.picture.Bounds().Size()
		b.ctx.Translate(m.x, m.y)
		b.ctx.Scale(m.w/float64(size.X), m.h/float64(size.Y))
		b.ctx.DrawImage(m.picture, 0, 0)
		return nil
	case m.text != "":
		return b.letters(m)
	}
	b.outline(m.path)
	if m.fill {
		b.ctx.SetColor(m.area.over(m.alpha))
		b.ctx.FillPreserve()
	}
	if m.stroke {
		b.stroke(m)
	}
	b.ctx.ClearPath()
	return nil
}

func (s shade) over(alpha float64) color.Color {
	return color.NRGBA{uint8(s.r), uint8(s.g), uint8(s.b), uint8(math.Round(255 * alpha))}
}

// stroke takes widths and dashes in dots: the context does not scale them.
func (b *brush) stroke(m drawn) {
	k := b.scale()
	dash := make([]float64, len(m.dash))
	for i, d := range m.dash {
		dash[i] = d * k
	}
	b.ctx.SetDash(dash...)
	b.ctx.SetDashOffset(m.offset * k)
	b.ctx.SetLineWidth(max(m.width*k, 0.6)) // a hair stays to be seen
	b.ctx.SetColor(m.line.over(m.alpha))
	b.ctx.StrokePreserve()
}

// scale is dots per point.
func (b *brush) scale() float64 {
	x0, y0 := b.ctx.TransformPoint(0, 0)
	x1, y1 := b.ctx.TransformPoint(1, 0)
	return math.Hypot(x1-x0, y1-y0)
}

func (b *brush) outline(path []step) {
	for _, s := range path {
		p := s.points
		switch s.kind {
		case 'm':
			b.ctx.MoveTo(p[0], p[1])
		case 'l':
			b.ctx.LineTo(p[0], p[1])
		case 'c':
			b.ctx.CubicTo(p[0], p[1], p[2], p[3], p[4], p[5])
		case 'z':
			b.ctx.ClosePath()
		}
	}
}

// letters fills the outlines of a text, one letter after the other as the PDF
// sets them: by their widths in thousandths of the size, without kerning.
func (b *brush) letters(m drawn) error {
	face := b.faces[0]
	if m.bold {
		face = b.faces[1]
	}
	em := fixed.I(int(face.UnitsPerEm()))
	unit := m.size / float64(face.UnitsPerEm())
	x := m.x
	for _, r := range m.text {
		glyph, err := face.GlyphIndex(&b.buffer, r)
		if err != nil {
			return err
		}
		segments, err := face.LoadGlyph(&b.buffer, glyph, em, nil)
		if err != nil {
			return err
		}
		b.glyph(segments, x, m.y, unit)
		wide, err := face.GlyphAdvance(&b.buffer, glyph, em, font.HintingNone)
		if err != nil {
			return err
		}
		x += math.Round(float64(wide)/64/float64(face.UnitsPerEm())*1000) / 1000 * m.size
	}
	b.ctx.SetColor(m.ink.text.over(m.alpha))
	b.ctx.Fill()
	return nil
}

// glyph adds the outline of a letter to the path, its baseline's left end at a
// point.
func (b *brush) glyph(segments sfnt.Segments, x, y, unit float64) {
	at := func(p fixed.Point26_6) (float64, float64) {
		return x + float64(p.X)/64*unit, y + float64(p.Y)/64*unit
	}
	for i, s := range segments {
		x1, y1 := at(s.Args[0])
		x2, y2 := at(s.Args[1])
		x3, y3 := at(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				b.ctx.ClosePath()
			}
			b.ctx.MoveTo(x1, y1)
		case sfnt.SegmentOpLineTo:
			b.ctx.LineTo(x1, y1)
		case sfnt.SegmentOpQuadTo:
			b.ctx.QuadraticTo(x1, y1, x2, y2)
		case sfnt.SegmentOpCubeTo:
			b.ctx.CubicTo(x1, y1, x2, y2, x3, y3)
		}
	}
	if len(segments) > 0 {
		b.ctx.ClosePath()
	}
}
