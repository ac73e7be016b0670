package report

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"

	"returnbench/sizing/units"
)

// sheet is a PDF being written. Text is positioned by its baseline.
type sheet struct {
	pdf     *recorder
	w, h    float64
	glyphs  *sfnt.Font
	buffer  sfnt.Buffer
	missing map[rune]bool
	widths  map[measured]float64
	locale  units.Locale // of the reader
	turned  bool         // right-to-left letters were met
}

const (
	family  = "liberation"
	unknown = '□' // stands for a letter that the face does not hold
	// nbsp keeps a number and its unit on one line; it is written as a space.
	nbsp = '\u00a0'
)

func newSheet(paper Paper) *sheet {
	s := &sheet{missing: map[rune]bool{}, widths: map[measured]float64{}}
	s.w, s.h = paper.size()
	s.pdf = newRecorder(fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: s.w, Ht: s.h}}))
	s.pdf.SetMargins(0, 0, 0)
	s.pdf.SetAutoPageBreak(false, 0)
	s.pdf.SetCatalogSort(true)
	s.pdf.AddUTF8FontFromBytes(family, "", slices.Clone(liberationsansregular.TTF))
	s.pdf.AddUTF8FontFromBytes(family, "B", slices.Clone(liberationsansbold.TTF))
	glyphs, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		panic("report: " + err.Error()) // the face is part of the program
	}
	s.glyphs = glyphs
	return s
}

// shade is a gray or color, 0 to 255 each.
type shade struct{ r, g, b int }

var (
	black = shade{0, 0, 0}
	soft  = shade{75, 75, 75} // 8:1 on white
	rule  = shade{150, 150, 150}
	pale  = shade{238, 240, 242}
	blue  = shade{13, 83, 239}
)

// style is how a text looks.
type style struct {
	size float64
	bold bool
	ink  shade
}

// leading is the height of a line.
func (t style) leading() float64 { return 1.25 * t.size }

// ascent is from the top of a line to its baseline.
func (t style) ascent() float64 { return 0.97 * t.size }

func (s *sheet) dress(t style) {
	weight := ""
	if t.bold {
		weight = "B"
	}
	s.pdf.SetFont(family, weight, t.size)
	s.pdf.SetTextColor(t.ink.r, t.ink.g, t.ink.b)
}

// put writes a text with the left end of its baseline at a point.
func (s *sheet) put(t style, x, y float64, text string) {
	text = strings.TrimRight(spaced(s.clean(text)), " ")
	if text == "" {
		return
	}
	s.dress(t)
	s.pdf.Text(x, y, text)
}

// spaced writes the blanks that hold words together as blanks.
func spaced(text string) string { return strings.ReplaceAll(text, string(nbsp), " ") }

// centred and flushRight write a text about and up to a point.
func (s *sheet) centred(t style, x, y float64, text string) {
	s.put(t, x-s.width(t, text)/2, y, text)
}

func (s *sheet) flushRight(t style, x, y float64, text string) {
	s.put(t, x-s.width(t, text), y, text)
}

func (s *sheet) width(t style, text string) float64 {
	key := measured{text, t.size, t.bold}
	w, known := s.widths[key]
	if !known {
		s.dress(t)
		w = s.pdf.GetStringWidth(s.clean(text))
		s.widths[key] = w
	}
	return w
}

// measured is a text whose width is known: words are measured again and again.
type measured struct {
	text string
	size float64
	bold bool
}

// clean prepares a text for writing: control characters as spaces, □ for
// letters that the face lacks, right-to-left runs in the order of the page.
func (s *sheet) clean(text string) string {
	rightToLeft := false
	out := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		if !s.holds(r) {
			s.missing[r] = true
			return unknown
		}
		p, _ := bidi.LookupRune(r)
		rightToLeft = rightToLeft || p.Class() == bidi.R || p.Class() == bidi.AL
		return r
	}, text)
	if rightToLeft {
		s.turned = true
		return pageOrder(out)
	}
	return out
}

func (s *sheet) holds(r rune) bool {
	// The library's faces end at 0xFFFF.
	if r > 0xFFFF {
		return false
	}
	g, err := s.glyphs.GlyphIndex(&s.buffer, r)
	return err == nil && g != 0
}

// pageOrder puts the runs of a line in their order on paper.
func pageOrder(line string) string {
	var p bidi.Paragraph
	if _, err := p.SetString(line); err != nil {
		return line
	}
	order, err := p.Order()
	if err != nil {
		return line
	}
	var out strings.Builder
	for i := range order.NumRuns() {
		run := order.Run(i)
		if run.Direction() == bidi.RightToLeft {
			out.WriteString(bidi.ReverseString(run.String()))
		} else {
			out.WriteString(run.String())
		}
	}
	return out.String()
}

// warnings name the letters that the face could not show.
func (s *sheet) warnings() []string {
	if len(s.missing) == 0 {
		return nil
	}
	var list []rune
	for r := range s.missing {
		list = append(list, r)
	}
	slices.Sort(list)
	names := make([]string, 0, len(list))
	for _, r := range list[:min(len(list), 12)] {
		names = append(names, fmt.Sprintf("%q (U+%04X)", r, r))
	}
	text, sign := strings.Join(names, ", "), string(unknown)
	if n := len(list) - len(names); n > 0 {
		return []string{s.say("the pages' face does not hold {letters} and {more} more; {sign} stands for each", "letters", text, "more", n, "sign", sign)}
	}
	return []string{s.say("the pages' face does not hold {letters}; {sign} stands for each", "letters", text, "sign", sign)}
}

// wrap breaks a text into lines of a width; words that are too long break
// anywhere. There is at least one line.
func (s *sheet) wrap(t style, text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range words(text) {
		candidate := word
		if line != "" {
			candidate = line + " " + word
		}
		if s.width(t, candidate) <= width {
			line = candidate
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		pieces := s.breakWord(t, word, width)
		lines = append(lines, pieces[:len(pieces)-1]...)
		line = pieces[len(pieces)-1]
	}
	return append(lines, line)
}

func words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r != nbsp && (unicode.IsSpace(r) || unicode.IsControl(r)) })
}

// breakWord breaks a word into pieces of a width, each at least one letter.
func (s *sheet) breakWord(t style, word string, width float64) []string {
	if s.width(t, word) <= width {
		return []string{word}
	}
	var pieces []string
	piece := ""
	for _, r := range word {
		if piece != "" && s.width(t, piece+string(r)) > width {
			pieces = append(pieces, piece)
			piece = ""
		}
		piece += string(r)
	}
	return append(pieces, piece)
}

// fit shrinks a text to a width, down to a least size, and then cuts it.
func (s *sheet) fit(t style, text string, width, least float64) (style, string) {
	for t.size > least && s.width(t, text) > width {
		t.size = max(t.size-0.25, least)
	}
	return t, s.cut(t, text, width)
}

// cut ends a text that is too wide with three dots.
func (s *sheet) cut(t style, text string, width float64) string {
	if s.width(t, text) <= width {
		return text
	}
	letters := []rune(text)
	short := func(n int) string { return strings.TrimRight(string(letters[:n]), " ") + "…" }
	// The longest that fits: the width grows with the letters.
	n := sort.Search(len(letters), func(n int) bool { return s.width(t, short(n)) > width })
	return short(max(n-1, 0))
}

// cutLines is wrap to at most n lines, the last ended with three dots where
// words are left over.
func (s *sheet) cutLines(t style, text string, width float64, n int) []string {
	lines := s.wrap(t, text, width)
	if len(lines) <= n {
		return lines
	}
	rest := strings.Join(lines[n-1:], " ")
	return append(lines[:n-1:n-1], s.cut(t, rest, width))
}

// line draws a straight line.
func (s *sheet) line(ink shade, width float64, dash []float64, x1, y1, x2, y2 float64) {
	s.pen(ink, width, dash)
	s.pdf.Line(x1, y1, x2, y2)
}

// box draws an outline.
func (s *sheet) box(ink shade, width float64, dash []float64, x, y, w, h float64) {
	s.pen(ink, width, dash)
	s.pdf.Rect(x, y, w, h, "D")
}

// fill paints a rectangle.
func (s *sheet) fill(ink shade, x, y, w, h float64) {
	s.pdf.SetFillColor(ink.r, ink.g, ink.b)
	s.pdf.Rect(x, y, w, h, "F")
}

func (s *sheet) pen(ink shade, width float64, dash []float64) {
	s.pdf.SetDrawColor(ink.r, ink.g, ink.b)
	s.pdf.SetLineWidth(width)
	s.pdf.SetDashPattern(dash, 0)
}

// arrow draws a filled head whose tip is at a point, along a direction of
// length one.
func (s *sheet) arrow(ink shade, size, x, y, dx, dy float64) {
	s.pdf.SetFillColor(ink.r, ink.g, ink.b)
	bx, by, side := x-dx*size, y-dy*size, size*0.32
	s.pdf.Polygon([]fpdf.PointType{{X: x, Y: y}, {X: bx - dy*side, Y: by + dx*side}, {X: bx + dy*side, Y: by - dx*side}}, "F")
}
