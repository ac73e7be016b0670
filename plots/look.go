package plots

import (
	"image/color"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/sizing/units"
)

// Look is the appearance of a chart: colors, text size, line widths, units.
// Fields left open are those of Light.
type Look struct {
	Units units.Locale

	Background color.Color
	Ink        color.Color   // words and axes
	Faint      color.Color   // lines of second rank and their words
	Grid       color.Color   //
	Limit      color.Color   // limits and targets
	Series     []color.Color // today, the option chosen, the one pointed at
	Rest       color.Color   // all other options
	Depths     []color.Color // of pleats: the one with the least drop
	Fills      []color.Color // parts of the air's path
	Money      []color.Color // parts of a cost

	// Scale is the size of text and marks; 1 is 12 points.
	Scale float64
	// Stroke is the width of lines and marks; 1 is for a desk, 2 for a room, less
	// for paper.
	Stroke float64
	// Least is the smallest type that a chart may choose for want of room, in
	// points; zero: as its size allows.
	Least float64
	// Monochrome leaves color out: dash, marker and words tell the lines apart.
	Monochrome bool

	// Chosen when the chart is laid out.
	share    float64 // of Scale in its type
	inLegend bool    // curves are named in a legend
}

// The series colors were found by a search for the largest minimum difference
// (CIE 1976 L*a*b*) under normal, protan and deutan sight at a contrast of 4.5
// to the background; the tests hold them to it.

// Light is dark on white.
func Light(sys units.Locale) Look {
	return Look{
		Units: sys, Scale: 1,
		Background: rgb(0xFFFFFF), Ink: rgb(0x1B1E23), Faint: rgb(0x5A5F66), Grid: rgb(0xDDE0E4), Limit: rgb(0x3A3F46),
		Series: []color.Color{rgb(0xB45313), rgb(0x0D53EF), rgb(0x8C61BD)},
		Rest:   rgb(0x7D828A),
		Depths: []color.Color{rgb(0x00716B)},
		Fills:  []color.Color{rgb(0x45586E), rgb(0xCFA21A), rgb(0xB9C8D6), rgb(0xE1E9F0), rgb(0x5D6C7B), rgb(0xF4E7A8)},
		Money:  []color.Color{rgb(0x1F5C3A), rgb(0x67AE82), rgb(0xB4DBC1), rgb(0xE3F2E7)},
	}
}

// Dark is light on near black.
func Dark(sys units.Locale) Look {
	return Look{
		Units: sys, Scale: 1,
		Background: rgb(0x17181C), Ink: rgb(0xECEEF1), Faint: rgb(0xA9AFB8), Grid: rgb(0x34373E), Limit: rgb(0xC9CED6),
		Series: []color.Color{rgb(0xF7911F), rgb(0x836CFB), rgb(0x54FC76)},
		Rest:   rgb(0x858B94),
		Depths: []color.Color{rgb(0x4FD1C5)},
		Fills:  []color.Color{rgb(0x4A6078), rgb(0xEDCB45), rgb(0x8298AE), rgb(0xC8D4E0), rgb(0x546372), rgb(0xF7EBB5)},
		Money:  []color.Color{rgb(0x2A7049), rgb(0x8CCBA3), rgb(0x4E9A70), rgb(0xC4E6D0)},
	}
}

// Print is for paper: black words, a pale grid, colors that keep their order
// in gray.
func Print(sys units.Locale) Look {
	l := Light(sys)
	l.Ink, l.Faint, l.Limit, l.Grid = rgb(0x000000), rgb(0x4A4A4A), rgb(0x222222), rgb(0xE2E2E2)
	return l
}

// Page is for a chart on a page of text: a little smaller than its words, lines as
// thin as print takes, distinguished without color.
func Page(sys units.Locale) Look {
	l := Print(sys)
	l.Scale, l.Stroke, l.Least, l.Monochrome = 0.72, 0.6, leastOnPage, true
	return l
}

// leastOnPage is the smallest type on paper, in points.
const leastOnPage = 7

func rgb(hex uint32) color.Color {
	return color.RGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xFF}
}

const (
	textSize   = 12
	fanWidth   = 2.6
	todayWidth = 3.4
	lineWidth  = 2.0
	thinWidth  = 1.5 // two pixels on a screen of 96 dots per inch
	otherWidth = 1.0
	markSize   = 5.0
)

func (l Look) complete() Look {
	d := Light(l.Units)
	for _, f := range []struct {
		to   *color.Color
		from color.Color
	}{{&l.Background, d.Background}, {&l.Ink, d.Ink}, {&l.Faint, d.Faint}, {&l.Grid, d.Grid}, {&l.Limit, d.Limit}, {&l.Rest, d.Rest}} {
		if *f.to == nil {
			*f.to = f.from
		}
	}
	if len(l.Series) == 0 {
		l.Series = d.Series
	}
	if len(l.Fills) == 0 {
		l.Fills = d.Fills
	}
	if len(l.Money) == 0 {
		l.Money = d.Money
	}
	if len(l.Depths) == 0 {
		l.Depths = d.Depths
	}
	if !(l.Stroke > 0) {
		l.Stroke = 1
	}
	l.Stroke = max(l.Stroke, 0.4)
	if !(l.Scale > 0) {
		l.Scale = 1
	}
	l.Scale = min(max(l.Scale, 0.5), 3)
	if !(l.share > 0) {
		l.share = 1
	}
	if l.Monochrome {
		l = l.grey()
	}
	return l
}

func (l Look) grey() Look {
	for _, c := range []*color.Color{&l.Background, &l.Ink, &l.Faint, &l.Grid, &l.Limit, &l.Rest} {
		*c = color.GrayModel.Convert(*c)
	}
	l.Series, l.Depths = []color.Color{l.Ink, l.Ink, l.Faint}, []color.Color{l.Ink}
	l.Fills = nil
	for _, y := range []uint8{0x50, 0x90, 0xBC, 0xE4, 0x18, 0xA6} {
		l.Fills = append(l.Fills, color.Gray{Y: y})
	}
	l.Money = l.Fills
	return l
}

// points gives a length of the design scaled with the text.
func (l Look) points(v float64) vg.Length { return vg.Points(v * l.Scale * l.share) }

// em is the height of a line of text.
func (l Look) em() vg.Length { return textBox(l.words(l.Ink, false), "X").Y }

func (l Look) money(i int) color.Color { return l.Money[i%len(l.Money)] }

func (l Look) fill(i int) color.Color { return l.Fills[i%len(l.Fills)] }

func (l Look) line(c color.Color, width float64, dash []float64) draw.LineStyle {
	s := draw.LineStyle{Color: c, Width: vg.Points(width * l.Stroke)}
	for _, d := range dash {
		s.Dashes = append(s.Dashes, vg.Points(d))
	}
	return s
}

var (
	dashLoaded = []float64{8, 4}
	dashNone   = []float64{2, 3}
	dashLimit  = []float64{12, 3, 2, 3}
)

func (l Look) words(c color.Color, bold bool) text.Style {
	return textStyle(c, l.points(textSize), bold)
}

// on picks the ink with the higher contrast on a fill.
func (l Look) on(fill color.Color) color.Color {
	if contrast(fill, l.Ink) >= contrast(fill, l.Background) {
		return l.Ink
	}
	return l.Background
}

// contrast is the ratio of WCAG 2.2, from 1 to 21.
func contrast(a, b color.Color) float64 {
	x, y := luminance(a), luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}
