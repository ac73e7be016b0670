package airpath

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
)

// sketch gathers the objects of a drawing.
type sketch struct {
	th      fyne.Theme
	scale   float32 // of the text, over the theme's; 0: 1
	objects []fyne.CanvasObject
}

// box is a rectangle of a drawing.
type box struct{ x, y, w, h float32 }

func (b box) right() float32  { return b.x + b.w }
func (b box) bottom() float32 { return b.y + b.h }
func (b box) midX() float32   { return b.x + b.w/2 }
func (b box) midY() float32   { return b.y + b.h/2 }

func (k *sketch) colour(name fyne.ThemeColorName) color.Color { return look.Of(k.th, name) }

func (k *sketch) rect(b box, fill, stroke fyne.ThemeColorName, width float32) {
	r := canvas.NewRectangle(color.Transparent)
	if fill != "" {
		r.FillColor = k.colour(fill)
	}
	if stroke != "" {
		r.StrokeColor, r.StrokeWidth = k.colour(stroke), width
	}
	r.Move(fyne.NewPos(b.x, b.y))
	r.Resize(fyne.NewSize(b.w, b.h))
	k.objects = append(k.objects, r)
}

func (k *sketch) line(x1, y1, x2, y2 float32, name fyne.ThemeColorName, width float32) {
	l := canvas.NewLine(k.colour(name))
	l.StrokeWidth = width
	l.Position1, l.Position2 = fyne.NewPos(x1, y1), fyne.NewPos(x2, y2)
	k.objects = append(k.objects, l)
}

func (k *sketch) circle(x, y, radius float32, fill, stroke fyne.ThemeColorName, width float32) {
	c := canvas.NewCircle(color.Transparent)
	if fill != "" {
		c.FillColor = k.colour(fill)
	}
	c.StrokeColor, c.StrokeWidth = k.colour(stroke), width
	c.Move(fyne.NewPos(x-radius, y-radius))
	c.Resize(fyne.NewSquareSize(2 * radius))
	k.objects = append(k.objects, c)
}

// arrow is a small head that points the way the air goes.
func (k *sketch) arrow(x, y, size float32, name fyne.ThemeColorName) {
	k.line(x-size, y-size*0.7, x, y, name, 1.5)
	k.line(x-size, y+size*0.7, x, y, name, 1.5)
}

// lettering is how a text of a drawing is set.
type lettering struct {
	colour fyne.ThemeColorName
	bold   bool
	slant  bool
	align  fyne.TextAlign
}

func (k *sketch) textSize() float32 { return k.scaled(k.th.Size(theme.SizeNameCaptionText)) }

// scaled is a length, or a size of text, at the scale of the drawing.
func (k *sketch) scaled(v float32) float32 {
	if k.scale > 0 {
		v *= k.scale
	}
	return v
}

// lineHeight is the height of one line of a drawing's text.
func (k *sketch) lineHeight() float32 {
	return fyne.MeasureText("Mg", k.textSize(), fyne.TextStyle{Bold: true}).Height
}

func (k *sketch) width(text string, l lettering) float32 {
	return fyne.MeasureText(text, k.textSize(), fyne.TextStyle{Bold: l.bold, Italic: l.slant}).Width
}

// text writes one line inside a width; x and y are its upper left corner.
func (k *sketch) text(text string, x, y, w float32, l lettering) {
	if text == "" {
		return
	}
	if l.colour == "" {
		l.colour = theme.ColorNameForeground
	}
	t := canvas.NewText(text, k.colour(l.colour))
	t.TextSize = k.textSize()
	t.TextStyle = fyne.TextStyle{Bold: l.bold, Italic: l.slant}
	t.Alignment = l.align
	t.Move(fyne.NewPos(x, y))
	t.Resize(fyne.NewSize(w, t.MinSize().Height))
	k.objects = append(k.objects, t)
}

// fit shortens a name to a width and marks the cut. Numbers are never given to
// it.
func (k *sketch) fit(name string, w float32, l lettering) string {
	if k.width(name, l) <= w {
		return name
	}
	runes := []rune(name)
	for n := len(runes) - 1; n > 0; n-- {
		if short := string(runes[:n]) + "…"; k.width(short, l) <= w {
			return short
		}
	}
	return ""
}

func (k *sketch) severityIcon(s sizing.Severity, x, y, side float32) {
	m := widgets.NewSeverityIcon(s)
	m.Move(fyne.NewPos(x, y))
	m.Resize(fyne.NewSquareSize(side))
	k.objects = append(k.objects, m)
}
