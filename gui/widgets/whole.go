package widgets

import (
	"fmt"
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// WholeOptions describe a Whole field.
type WholeOptions struct {
	Label    string
	Get      func() int // zero is left open
	Set      func(int)
	Min, Max int    // Max left at zero: no upper end
	Start    int    // from where a step begins while the value is open
	Unit     string // "pleats"
	Hint     string

	AllowZero bool // zero is a value
}

// Whole is a field for a whole number, with a step down and a step up; the
// arrow keys step too.
type Whole struct {
	typed
	opts     WholeOptions
	down, up *stepButton
}

// NewWhole makes the field.
func NewWhole(opts WholeOptions) *Whole {
	w := &Whole{opts: opts}
	w.entry = newEntry()
	w.hint = opts.Hint
	w.state = func() string { return strconv.Itoa(opts.Get()) }
	w.show = func() string {
		if v := opts.Get(); v != 0 || opts.AllowZero {
			return strconv.Itoa(v)
		}
		return ""
	}
	w.take = w.typedText
	w.unitNow = func() string { return opts.Unit }
	w.down = newStepButton("–", func() { w.step(-1) })
	w.up = newStepButton("+", func() { w.step(1) })
	w.entry.onStep = w.step
	steps := container.New(layout.NewCustomPaddedHBoxLayout(1), w.down, w.up)
	w.start(opts.Label, container.NewBorder(nil, nil, nil, steps, w.entry))
	return w
}

func (w *Whole) typedText(text string) (state, fault string) {
	v, fault := w.parse(text)
	if fault != "" {
		return "", fault
	}
	w.opts.Set(v)
	return strconv.Itoa(v), ""
}

func (w *Whole) parse(text string) (v int, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, ""
	}
	v, err := strconv.Atoi(t)
	if err != nil {
		return 0, "no whole number; " + w.wanted()
	}
	open := v == 0 && !w.opts.AllowZero
	if open || v < w.opts.Min || (w.opts.Max != 0 && v > w.opts.Max) {
		return 0, t + " is out of range; " + w.wanted()
	}
	return v, ""
}

func (w *Whole) wanted() string {
	least := w.opts.Min
	if least == 0 && !w.opts.AllowZero {
		least = 1
	}
	if w.opts.Max == 0 {
		return fmt.Sprintf("want a whole number of %d or more", least)
	}
	return fmt.Sprintf("want a whole number from %d to %d", least, w.opts.Max)
}

// step moves the value by one, from where a step begins if it is open.
func (w *Whole) step(by int) {
	v, fault := w.parse(w.entry.Text)
	least := w.opts.Min
	if least == 0 && !w.opts.AllowZero {
		least = 1
	}
	switch {
	case fault != "":
		v = w.opts.Get()
	case strings.TrimSpace(w.entry.Text) == "":
		v = max(least, w.opts.Start)
	default:
		v += by
	}
	v = max(v, least)
	if w.opts.Max != 0 {
		v = min(v, w.opts.Max)
	}
	w.entry.SetText(strconv.Itoa(v))
	if w.focused {
		w.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// stepButton is a small button that leaves the keyboard where it is.
type stepButton struct {
	widget.BaseWidget
	sign    string
	onTap   func()
	hovered bool
}

func newStepButton(sign string, onTap func()) *stepButton {
	b := &stepButton{sign: sign, onTap: onTap}
	b.ExtendBaseWidget(b)
	return b
}

// Tapped makes one step.
func (b *stepButton) Tapped(*fyne.PointEvent) { b.onTap() }

// MouseIn lights the button.
func (b *stepButton) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.Refresh() }

// MouseMoved is part of being hovered.
func (b *stepButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts the light out.
func (b *stepButton) MouseOut() { b.hovered = false; b.Refresh() }

// CreateRenderer draws the button.
func (b *stepButton) CreateRenderer() fyne.WidgetRenderer {
	r := &stepRenderer{b: b, ground: canvas.NewRectangle(color.Transparent), veil: canvas.NewRectangle(color.Transparent), text: canvas.NewText(b.sign, color.Black)}
	r.text.Alignment = fyne.TextAlignCenter
	r.paint()
	return r
}

type stepRenderer struct {
	b            *stepButton
	ground, veil *canvas.Rectangle
	text         *canvas.Text
}

func (r *stepRenderer) Destroy() {}

func (r *stepRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.veil, r.text}
}

func (r *stepRenderer) MinSize() fyne.Size {
	side := 20 * grow(r.b.Theme())
	return fyne.NewSize(side, side)
}

func (r *stepRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.veil.Resize(size)
	h := r.text.MinSize().Height
	r.text.Resize(fyne.NewSize(size.Width, h))
	r.text.Move(fyne.NewPos(0, (size.Height-h)/2))
}

func (r *stepRenderer) Refresh() {
	r.paint()
	r.Layout(r.b.Size())
	canvas.Refresh(r.b)
}

func (r *stepRenderer) paint() {
	th := r.b.Theme()
	v := fyne.CurrentApp().Settings().ThemeVariant()
	r.ground.FillColor = th.Color(theme.ColorNameButton, v)
	r.ground.CornerRadius = th.Size(theme.SizeNameInputRadius)
	r.veil.FillColor = th.Color(theme.ColorNameHover, v)
	r.veil.CornerRadius = r.ground.CornerRadius
	r.veil.Hidden = !r.b.hovered
	r.text.Color = th.Color(theme.ColorNameForeground, v)
	r.text.TextSize = th.Size(theme.SizeNameText)
}
