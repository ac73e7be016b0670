package fields

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// IntegerOptions describe a Whole field.
type IntegerOptions struct {
	Label    string
	Tip      string     // on a term that the label names; empty: it names none
	Get      func() int // zero is left open
	Set      func(int)
	Min, Max int    // Max left at zero: no upper end
	Start    int    // from where a step begins while the value is open
	Unit     string // "pleats"
	Hint     string

	AllowZero bool // zero is a value
}

// Integer is a field for a whole number, with a step down and a step up; the
// arrow keys step too.
type Integer struct {
	typedText
	opts     IntegerOptions
	down, up *widgets.SmallButton
}

// NewInteger makes the field.
func NewInteger(opts IntegerOptions) *Integer {
	w := &Integer{opts: opts}
	w.entry = NewEntry()
	w.hint = opts.Hint
	w.state = func() string { return strconv.Itoa(opts.Get()) }
	w.show = func() string {
		if v := opts.Get(); v != 0 || opts.AllowZero {
			return strconv.Itoa(v)
		}
		return ""
	}
	w.take = w.readText
	w.unitNow = func() string { return opts.Unit }
	w.down = widgets.NewSmallButton("–", func() { w.step(-1) })
	w.up = widgets.NewSmallButton("+", func() { w.step(1) })
	w.entry.OnStep = w.step
	steps := container.New(layout.NewCustomPaddedHBoxLayout(1), w.down, w.up)
	w.start(opts.Label, opts.Tip, container.NewBorder(nil, nil, nil, steps, w.entry))
	return w
}

func (w *Integer) readText(text string) (state, fault string) {
	v, fault := w.parse(text)
	if fault != "" {
		return "", fault
	}
	w.opts.Set(v)
	return strconv.Itoa(v), ""
}

func (w *Integer) parse(text string) (v int, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, ""
	}
	v, err := strconv.Atoi(t)
	least, most := w.least(), w.opts.Max
	if err != nil {
		if most == 0 {
			return 0, lang.T("no whole number; want a whole number of {least} or more", "least", least)
		}
		return 0, lang.T("no whole number; want a whole number from {least} to {most}", "least", least, "most", most)
	}
	open := v == 0 && !w.opts.AllowZero
	if open || v < w.opts.Min || (most != 0 && v > most) {
		if most == 0 {
			return 0, lang.T("{number} is out of range; want a whole number of {least} or more", "number", t, "least", least)
		}
		return 0, lang.T("{number} is out of range; want a whole number from {least} to {most}", "number", t, "least", least, "most", most)
	}
	return v, ""
}

// least is the least number that may be typed.
func (w *Integer) least() int {
	if w.opts.Min == 0 && !w.opts.AllowZero {
		return 1
	}
	return w.opts.Min
}

// step moves the value by one, from where a step begins if it is open.
func (w *Integer) step(by int) {
	v, fault := w.parse(w.entry.Text)
	least := w.least()
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
