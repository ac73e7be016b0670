package widgets

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

// Lines is a text in a given number of lines: its height never follows from its
// words, so that what stands under it keeps its place. Where the words do not fit,
// shorter ones for the same take their place; where these do not fit either, they
// end in an ellipsis. The pointer over them has the whole text shown.
type Lines struct {
	widget.BaseWidget
	HoverTip
	text  string
	short string // says the same in fewer words; empty: there is none
	shown string // one of both, as last laid out
	most  int
	size  fyne.ThemeSizeName
	color fyne.ThemeColorName
	bold  bool
	cut   bool    // as last laid out
	used  float32 // likewise
}

// NewLines makes an empty text of so many lines.
func NewLines(most int, size fyne.ThemeSizeName, color fyne.ThemeColorName, bold bool) *Lines {
	l := &Lines{most: most, size: size, color: color, bold: bold}
	l.OnAll(l, l.hidden)
	l.ExtendBaseWidget(l)
	return l
}

// Set changes the words and their color.
func (l *Lines) Set(text string, color fyne.ThemeColorName) { l.SetOr(text, "", color) }

// SetOr changes the words, those that stand for them where there is little room, and
// the color.
func (l *Lines) SetOr(text, short string, color fyne.ThemeColorName) {
	if l.text != text || l.short != short || l.color != color {
		l.text, l.short, l.color = text, short, color
		l.Refresh()
	}
}

// SetMost changes the number of lines.
func (l *Lines) SetMost(most int) {
	if l.most != most {
		l.most = most
		l.Refresh()
	}
}

// SetSize changes the size of the letters.
func (l *Lines) SetSize(size fyne.ThemeSizeName) {
	if l.size != size {
		l.size = size
		l.Refresh()
	}
}

// HeightOf is the height of so many lines in letters of a size.
func (l *Lines) HeightOf(lines int, size fyne.ThemeSizeName) float32 {
	return float32(lines) * fyne.MeasureText("M", l.Theme().Size(size), fyne.TextStyle{Bold: l.bold}).Height
}

// Text is the whole of it.
func (l *Lines) Text() string { return l.text }

// Used is the height of the lines that hold words, at the width as last laid out.
func (l *Lines) Used() float32 { return l.used }

// Shown are the words that stand for it, before any is cut.
func (l *Lines) Shown() string { return l.shown }

// Whole says that all of it is shown.
func (l *Lines) Whole() bool { return !l.cut && l.shown == l.text }

// Cut says that the words shown end in an ellipsis.
func (l *Lines) Cut() bool { return l.cut }

// hidden is the whole text where not all of it is shown.
func (l *Lines) hidden() string {
	if l.Whole() {
		return ""
	}
	return l.text
}

// CreateRenderer draws the lines.
func (l *Lines) CreateRenderer() fyne.WidgetRenderer { return &linesRenderer{l: l} }

type linesRenderer struct {
	l       *Lines
	objects []fyne.CanvasObject
	laid    fyne.Size
}

func (r *linesRenderer) Destroy()                     {}
func (r *linesRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *linesRenderer) style() fyne.TextStyle { return fyne.TextStyle{Bold: r.l.bold} }

func (r *linesRenderer) height() float32 { return r.l.HeightOf(1, r.l.size) }

// MinSize is the height of all lines, whatever they hold.
func (r *linesRenderer) MinSize() fyne.Size {
	return fyne.NewSize(80, float32(r.l.most)*r.height())
}

func (r *linesRenderer) Layout(size fyne.Size) {
	if size != r.laid {
		r.laid = size
		r.fill()
	}
}

func (r *linesRenderer) Refresh() {
	r.fill()
	canvas.Refresh(r.l)
}

func (r *linesRenderer) fill() {
	th, height := r.l.Theme(), r.height()
	size := th.Size(r.l.size)
	width := func(s string) float32 { return fyne.MeasureText(s, size, r.style()).Width }
	r.l.shown = r.l.text
	lines, cut := wrap(r.l.text, r.laid.Width, r.l.most, width)
	if cut && r.l.short != "" {
		r.l.shown = r.l.short
		lines, cut = wrap(r.l.short, r.laid.Width, r.l.most, width)
	}
	r.l.cut, r.l.used = cut, float32(len(lines))*height
	r.objects = r.objects[:0]
	for i, line := range lines {
		t := canvas.NewText(line, color.Black)
		t.Color, t.TextSize, t.TextStyle = look.Of(th, r.l.color), size, r.style()
		t.Move(fyne.NewPos(0, float32(i)*height))
		t.Resize(fyne.NewSize(r.laid.Width, height))
		r.objects = append(r.objects, t)
	}
}

const ellipsis = " …"

// wrap breaks a text between words into at most so many lines; cut tells that
// words are missing at the end.
func wrap(text string, room float32, most int, width func(string) float32) (lines []string, cut bool) {
	words := strings.Fields(text)
	for len(words) > 0 && len(lines) < most {
		n := 1
		for n < len(words) && width(strings.Join(words[:n+1], " ")) <= room {
			n++
		}
		if len(lines) == most-1 && n < len(words) {
			for n > 1 && width(strings.Join(words[:n], " ")+ellipsis) > room {
				n--
			}
			return append(lines, strings.Join(words[:n], " ")+ellipsis), true
		}
		lines = append(lines, strings.Join(words[:n], " "))
		words = words[n:]
	}
	return lines, false
}
