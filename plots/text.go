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

// textBox is the room that lines of text take.
func textBox(s text.Style, lines string) vg.Point {
	e := s.FontExtents()
	box := vg.Point{Y: e.Ascent + e.Descent}
	for rest, more := lines, true; more; {
		var line string
		line, rest, more = strings.Cut(rest, "\n")
		box.X = max(box.X, s.Width(line))
		if more {
			box.Y += e.Ascent + e.Descent
		}
	}
	return box
}

// write puts lines of text with their box's lower left corner at a point.
func write(c draw.Canvas, s text.Style, at vg.Point, lines string) {
	if lines == "" {
		return
	}
	face := s.Handler.Cache().Lookup(s.Font, s.Font.Size)
	e := s.FontExtents()
	c.SetColor(s.Color)
	at.Y += e.Descent + vg.Length(strings.Count(lines, "\n"))*(e.Ascent+e.Descent)
	for line := range strings.SplitSeq(lines, "\n") {
		c.FillString(face, at, line)
		at.Y -= e.Ascent + e.Descent
	}
}

// longestName bounds what a chart writes of a name. Nothing that a person types
// as a name is that long; what is gets an ellipsis.
const longestName = 240

// oneLine is a full name on one line.
func (l Look) oneLine(name string) string {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		return l.say("unnamed")
	}
	if r := []rune(name); len(r) > longestName {
		return strings.TrimRight(string(r[:longestName-1]), " ") + "…"
	}
	return name
}

// wrap breaks a text at words into lines of a width. Only a word that is wider
// by itself is broken at a letter.
func wrap(s text.Style, line string, width vg.Length) []string {
	lines := []string{""}
	for _, word := range strings.Fields(line) {
		last := &lines[len(lines)-1]
		if *last != "" && s.Width(*last+" "+word) <= width {
			*last += " " + word
			continue
		}
		for s.Width(word) > width {
			n := len([]rune(word)) - 1
			for n > 1 && s.Width(string([]rune(word)[:n])) > width {
				n--
			}
			if n < 1 {
				break
			}
			lines = put(lines, string([]rune(word)[:n]))
			word = string([]rune(word)[n:])
		}
		lines = put(lines, word)
	}
	return lines
}

// put adds a line, in place of an empty last one.
func put(lines []string, line string) []string {
	if last := len(lines) - 1; lines[last] == "" {
		lines[last] = line
		return lines
	}
	return append(lines, line)
}

// narrowest is the least width, found to a few points, at which a text takes no
// more than n lines and no word is broken.
func narrowest(s text.Style, line string, n int) vg.Length {
	const step = 3 // points
	var least vg.Length
	for word := range strings.FieldsSeq(line) {
		least = max(least, s.Width(word))
	}
	for width := max(least, s.Width(line)/vg.Length(max(n, 1))); ; width += step {
		if lines := wrap(s, line, width); len(lines) <= max(n, 1) {
			return width
		}
	}
}
