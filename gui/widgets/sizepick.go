package widgets

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing/units"
)

// SizePickOptions describe a SizePick field.
type SizePickOptions struct {
	Label string
	Sizes []string // nominal sizes to pick from: "16x25x1", "20x20"
	// Get gives width, height and depth; all zero is left open.
	Get func() (w, h, d units.Length)
	Set func(w, h, d units.Length)
	// NoDepth fields take two numbers: the opening of a grille or a duct.
	NoDepth bool
	Hint    string
}

// SizePick is a field for a nominal size, picked from a list or typed:
// "16x25x1" in inches, "400x625x25 mm" in millimetres.
type SizePick struct {
	typed
	opts SizePickOptions
}

// NewSizePick makes the field.
func NewSizePick(opts SizePickOptions) *SizePick {
	s := &SizePick{opts: opts}
	s.entry = newEntry()
	s.wide = true
	s.hint = opts.Hint
	s.state = func() string {
		w, h, d := opts.Get()
		return sizeState(w, h, d)
	}
	s.show = func() string { return SizeText(opts.Get()) }
	s.take = func(text string) (string, string) {
		w, h, d, fault := ReadSize(text, opts.NoDepth)
		if fault != "" {
			return "", fault
		}
		opts.Set(w, h, d)
		return sizeState(w, h, d), ""
	}
	s.entry.ActionItem = newPicker(s.open)
	s.entry.onKey = func(k fyne.KeyName) bool {
		if k != fyne.KeyDown {
			return false
		}
		s.open()
		return true
	}
	s.start(opts.Label, s.entry)
	return s
}

func sizeState(w, h, d units.Length) string {
	return exact(float64(w)) + " " + exact(float64(h)) + " " + exact(float64(d))
}

// SetSizes replaces the sizes to pick from.
func (s *SizePick) SetSizes(sizes []string) { s.opts.Sizes = sizes }

func (s *SizePick) open() {
	c := fyne.CurrentApp().Driver().CanvasForObject(s.entry)
	if c == nil || len(s.opts.Sizes) == 0 {
		return
	}
	items := make([]*fyne.MenuItem, len(s.opts.Sizes))
	for i, size := range s.opts.Sizes {
		items[i] = fyne.NewMenuItem(size, func() { s.pick(size) })
	}
	p := widget.NewPopUpMenu(fyne.NewMenu("", items...), c)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.entry)
	p.ShowAtPosition(at.AddXY(0, s.entry.Size().Height))
	p.Resize(fyne.NewSize(s.entry.Size().Width, p.MinSize().Height))
}

func (s *SizePick) pick(size string) { s.entry.SetText(size) }

// SizeText writes a nominal size: inches where they come out in eighths, else
// millimetres. All zero is the empty text.
func SizeText(w, h, d units.Length) string {
	if w == 0 && h == 0 && d == 0 {
		return ""
	}
	sides := []units.Length{w, h}
	if d != 0 {
		sides = append(sides, d)
	}
	unit, suffix := units.Inch, ""
	for _, v := range sides {
		if eighths := v.In(units.Inch) * 8; math.Abs(eighths-math.Round(eighths)) > 1e-6 {
			unit, suffix = units.Millimetre, " mm"
		}
	}
	texts := make([]string, len(sides))
	for i, v := range sides {
		texts[i] = strconv.FormatFloat(math.Round(v.In(unit)*1000)/1000, 'f', -1, 64)
	}
	return strings.Join(texts, "x") + suffix
}

var sizeUnit = regexp.MustCompile(`(?i)\s*(in\.?|inch|inches|"|″|mm|cm)$`)

// ReadSize reads a nominal size; a bare one is in inches. An empty text leaves
// it open. The fault is in words.
func ReadSize(text string, noDepth bool) (w, h, d units.Length, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, 0, 0, ""
	}
	wanted := "want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm"
	count := 3
	if noDepth {
		wanted, count = "want width x height, as in 20x20 (inches) or 500x500 mm", 2
	}
	unit := "in"
	if m := sizeUnit.FindStringSubmatch(t); m != nil {
		if lower := strings.ToLower(m[1]); lower == "mm" || lower == "cm" {
			unit = lower
		}
		t = strings.TrimSuffix(t, m[0])
	}
	parts := strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune("xX×*", r) })
	if len(parts) != count {
		return 0, 0, 0, fmt.Sprintf("%d numbers; %s", len(parts), wanted)
	}
	var sides [3]units.Length
	for i, p := range parts {
		si, err := sides[i].Kind().Parse(p, unit)
		if err != nil || si <= 0 {
			return 0, 0, 0, fmt.Sprintf("%q is no length above zero; %s", strings.TrimSpace(p), wanted)
		}
		sides[i] = units.Length(si)
	}
	return sides[0], sides[1], sides[2], ""
}

// picker is the small arrow in the entry that opens the list.
type picker struct {
	widget.BaseWidget
	onTap func()
}

func newPicker(onTap func()) *picker {
	p := &picker{onTap: onTap}
	p.ExtendBaseWidget(p)
	return p
}

// Tapped opens the list.
func (p *picker) Tapped(*fyne.PointEvent) { p.onTap() }

// Cursor is the plain one, unlike the entry's around it.
func (p *picker) Cursor() desktop.Cursor { return desktop.DefaultCursor }

// CreateRenderer draws the arrow.
func (p *picker) CreateRenderer() fyne.WidgetRenderer {
	icon := widget.NewIcon(p.Theme().Icon(theme.IconNameArrowDropDown))
	return &pickerRenderer{WidgetRenderer: widget.NewSimpleRenderer(icon), p: p}
}

type pickerRenderer struct {
	fyne.WidgetRenderer
	p *picker
}

func (r *pickerRenderer) MinSize() fyne.Size {
	return fyne.NewSquareSize(r.p.Theme().Size(theme.SizeNameInlineIcon))
}

func (r *pickerRenderer) Refresh() { canvas.Refresh(r.p) }
