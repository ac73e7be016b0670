package plots

import (
	"fmt"
	"image/color"
	"strings"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// UseFace makes every later chart write in the given TrueType face, so that
// charts and window share one. Call it once, before the first chart. Without
// it charts use the sans serif that the plot library carries.
func UseFace(regular, bold []byte) error {
	name, face, err := readFace("regular", regular)
	if err != nil {
		return err
	}
	_, heavy, err := readFace("bold", bold)
	if err != nil {
		return err
	}
	f := font.Font{Typeface: font.Typeface(name)}
	b := f
	b.Weight = xfont.WeightBold
	font.DefaultCache.Add(font.Collection{{Font: f, Face: face}, {Font: b, Face: heavy}})
	plot.DefaultFont = f
	plotter.DefaultFont = f
	return nil
}

func readFace(which string, data []byte) (string, *opentype.Font, error) {
	face, err := opentype.Parse(data)
	if err != nil {
		return "", nil, fmt.Errorf("%s face: given %d bytes; want a TrueType font: %w", which, len(data), err)
	}
	name, err := face.Name(nil, sfnt.NameIDFamily)
	if err != nil {
		return "", nil, fmt.Errorf("%s face: it names no family: %w", which, err)
	}
	return name, face, nil
}

func textStyle(c color.Color, size vg.Length, bold bool) text.Style {
	f := plot.DefaultFont
	if f.Typeface == "Liberation" {
		f.Variant = "Sans"
	}
	if bold {
		f.Weight = xfont.WeightBold
	}
	f.Size = size
	return text.Style{Color: c, Font: f, XAlign: draw.XLeft, YAlign: draw.YBottom, Handler: plot.DefaultTextHandler}
}

// textBox is the room a line of text takes.
func textBox(s text.Style, line string) vg.Point {
	e := s.FontExtents()
	return vg.Point{X: s.Width(line), Y: e.Ascent + e.Descent}
}

// write puts a line of text with its box's lower left corner at a point.
func write(c draw.Canvas, s text.Style, at vg.Point, line string) {
	if line == "" {
		return
	}
	face := s.Handler.Cache().Lookup(s.Font, s.Font.Size)
	c.SetColor(s.Color)
	c.FillString(face, vg.Point{X: at.X, Y: at.Y + s.FontExtents().Descent}, line)
}

// shorten cuts a line to at most n characters and marks the cut.
func shorten(line string, n int) string {
	r := []rune(line)
	if len(r) <= n {
		return line
	}
	return strings.TrimRight(string(r[:max(n-1, 0)]), " ") + "…"
}

// short is an option's name on one line of at most n characters.
func short(name string, n int) string {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		name = "unnamed"
	}
	return shorten(name, n)
}

// fitWidth cuts a line until it fits, to nothing where three characters do not.
func fitWidth(s text.Style, line string, width vg.Length) string {
	for n := len([]rune(line)); n >= 3; n-- {
		if t := shorten(line, n); s.Width(t) <= width {
			return t
		}
	}
	return ""
}
