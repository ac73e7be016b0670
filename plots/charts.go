package plots

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	xfont "golang.org/x/image/font"
	"golang.org/x/text/encoding/charmap"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"

	"returnbench/sizing"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Kind is one of the charts that can be drawn of a Study.
type Kind struct {
	Key   string // "fan-and-system"
	Title message.ID
	make  func(Subject, Look) *frame
}

// Chart is a chart with what can be read off it. It is laid out when it is
// drawn, for the room that it gets: type size, line breaks of names, and a
// legend where that is needed.
type Chart struct {
	Kind
	// Plot is the chart as it is with plenty of room. Its title and the ranges
	// of its axes may be set; everything else is made again for the actual
	// room.
	Plot *plot.Plot
	// Lines can be read by pointer and keyboard; a chart of bars has none.
	Lines  []ReadoutLine
	look   Look
	bars   *bars
	frame  *frame
	x, y   scale // of the whole chart
	make   func(Look) *frame
	memory *memory // of the canvas that draws it again and again; nil: none
}

// Chart draws the chart of a study and gives its lines.
func (k Kind) Chart(s *sizing.Study, look Look) Chart { return k.Of(Of(s), look) }

// Of draws the chart of a subject and gives its lines.
func (k Kind) Of(s Subject, look Look) Chart {
	return newChart(k, look, func(l Look) *frame { return k.make(s, l) })
}

func newChart(k Kind, look Look, make func(Look) *frame) Chart {
	f := make(look)
	f.done()
	return Chart{Kind: k, Plot: f.Plot, Lines: f.lines, look: f.look, bars: f.bars, frame: f, x: scaleOf(f.X), y: scaleOf(f.Y),
		make: func(l Look) *frame { f := make(l); f.done(); return f }}
}

// Numbers are what the chart shows, in its units.
func (c Chart) Numbers() Numbers {
	if c.bars != nil {
		return c.bars.numbers()
	}
	return numbersOfLines(c.Lines, c.look.Units)
}

// Kinds are all charts in the order in which they are explained.
func Kinds() []Kind {
	return []Kind{
		fanAndSystemKind,
		pressureByPartKind,
		filterDropKind,
		PleatCountOf(sizing.TodayName),
		filterLifeKind,
		efficiencyBySizeKind,
		tenYearCostKind,
		wattsKind,
	}
}

// All draws every chart of a Study.
func All(s *sizing.Study, look Look) []Chart { return allOf(Of(s), look) }

func allOf(s Subject, look Look) []Chart {
	var out []Chart
	for _, k := range Kinds() {
		out = append(out, k.Of(s, look))
	}
	return out
}

// The size of a chart's file, 900 x 500 pixels at 96 dots per inch.
const (
	FileWidth  = 675 * vg.Length(1)
	FileHeight = 375 * vg.Length(1)
)

const (
	pngDPI = 192 // twice a usual screen's, so that pictures stay sharp
	ground = 10  // points of paper around a chart in a file
)

// Formats are the file formats that Write knows.
func Formats() []string { return []string{"png", "svg", "pdf"} }

// FormatError: Write does not know the format.
type FormatError struct{ Given string }

func (e *FormatError) Error() string { return e.In(units.IP) }

// In is Error for a reader.
func (e *FormatError) In(l units.Locale) string {
	return message.Text(l, "format: given \"{given}\"; want png, svg or pdf", "given", e.Given)
}

// Write draws a chart of the given size to w as png, svg or pdf. The error is a
// *FormatError where the format is none of them.
func Write(w io.Writer, chart Chart, width, height vg.Length, format string) error {
	if !(width > 2*ground) || !(height > 2*ground) {
		return message.Errorf("size: given {width} x {height} points; want more than {least} each", "width", width.Points(), "height", height.Points(), "least", 2*ground)
	}
	var c vg.CanvasWriterTo
	switch format {
	case "png":
		c = vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(pngDPI))}
	case "svg":
		c = vgsvg.New(width, height)
	case "pdf":
		c = pdfCanvas{vgpdf.New(width, height)}
	default:
		return &FormatError{Given: format}
	}
	paper := draw.New(c)
	if ground := chart.Plot.BackgroundColor; ground != nil {
		paper.SetColor(ground)
		paper.Fill(paper.Rectangle.Path())
	}
	chart.Draw(draw.Crop(paper, ground, -ground, ground, -ground))
	_, err := c.WriteTo(w)
	return err
}

// pdfLetters turns text into the letters of the faces that the library embeds,
// one byte a letter, Windows code page 1252: "±", "µ" and "…" are among them;
// what is not becomes a question mark.
func pdfLetters(text string) string {
	out := make([]byte, 0, len(text))
	for _, r := range text {
		b, ok := charmap.Windows1252.EncodeRune(r)
		if !ok {
			b = '?'
		}
		out = append(out, b)
	}
	return string(out)
}

// pdfCanvas gives a bold face a name of its own: the library files it as
// regular but asks for it as bold, and then does not find it. It also writes
// each byte of a text as one letter.
type pdfCanvas struct{ *vgpdf.Canvas }

// FillString writes a text.
func (c pdfCanvas) FillString(face font.Face, at vg.Point, text string) {
	if face.Font.Weight == xfont.WeightBold {
		face.Font.Weight = xfont.WeightNormal
		face.Font.Variant += "Bold"
	}
	c.Canvas.FillString(face, at, pdfLetters(text))
}

// drawPlot draws a plot where there is room for its data, else nothing. The
// ground is the caller's.
func drawPlot(p *plot.Plot, c draw.Canvas) bool {
	if c.Max.X <= c.Min.X || c.Max.Y <= c.Min.Y {
		return false
	}
	transparent := *p
	transparent.BackgroundColor = nil
	area := transparent.DataCanvas(c)
	const least = 8 // points
	if !(area.Max.X-area.Min.X > least) || !(area.Max.Y-area.Min.Y > least) {
		return false
	}
	transparent.Draw(c)
	return true
}

// Save writes a chart of the usual size to a file, whole or not at all; the
// file's ending decides the format. The error is a *FormatError where the ending
// is none of Formats.
func Save(path string, chart Chart) error {
	var data bytes.Buffer
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	if err := Write(&data, chart, FileWidth, FileHeight, format); err != nil {
		return err
	}
	return atomicfile.Write(path, data.Bytes(), 0o644)
}

// WriteAll writes every chart of a subject, in its look for paper and with a
// title, to dir, which it creates where it is missing. Each file is written whole
// or not at all. It returns the paths of the files, in order.
func WriteAll(dir string, s Subject, format string, sys units.Locale) ([]string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, message.Errorf("charts: {fault}", "fault", err)
	}
	var paths []string
	var faults []error
	for _, n := range allOf(s, Print(sys)) {
		n.Plot.Title.Text = message.Text(sys, n.Title)
		path := filepath.Join(dir, n.Key+"."+format)
		switch err := Save(path, n); {
		case errors.As(err, new(*FormatError)):
			return paths, err
		case err != nil:
			faults = append(faults, message.Errorf("charts: {fault}", "fault", err))
			continue
		}
		paths = append(paths, path)
	}
	return paths, errors.Join(faults...)
}
