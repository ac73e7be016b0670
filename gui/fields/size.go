package fields

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

// SizeOptions describe a Size field.
type SizeOptions struct {
	Label string
	Tip   string   // on a term that the label names; empty: it names none
	Sizes []string // nominal sizes to pick from: "16x25x1", "20x20"
	// More are further ones, asked for when the list opens; nil: none.
	More func() []string
	// Get gives width, height and depth; all zero is left open.
	Get func() (w, h, d units.Length)
	Set func(w, h, d units.Length)
	// NoDepth fields take two numbers: the opening of a grille or a duct.
	NoDepth bool
	Hint    string
}

// Size is a field for a nominal size, picked from a list or typed:
// "16x25x1" in inches, "400x625x25 mm" in millimeters.
type Size struct {
	typedText
	opts SizeOptions
}

// NewSize makes the field.
func NewSize(opts SizeOptions) *Size {
	s := &Size{opts: opts}
	s.entry = NewEntry()
	s.wide = true
	s.hint = opts.Hint
	s.state = func() string {
		w, h, d := opts.Get()
		return sizeState(w, h, d)
	}
	s.show = func() string {
		w, h, d := opts.Get()
		return parse.SizeText(lang.Locale(), w, h, d)
	}
	s.take = func(text string) (string, string) {
		w, h, d, fault := parse.Size(lang.Locale(), text, opts.NoDepth)
		if fault != "" {
			return "", fault
		}
		opts.Set(w, h, d)
		return sizeState(w, h, d), ""
	}
	s.entry.ActionItem = newPicker(s.open)
	s.entry.OnKey = func(k fyne.KeyName) bool {
		if k != fyne.KeyDown {
			return false
		}
		s.open()
		return true
	}
	s.start(opts.Label, opts.Tip, s.entry)
	return s
}

func sizeState(w, h, d units.Length) string {
	return parse.Exact(float64(w)) + " " + parse.Exact(float64(h)) + " " + parse.Exact(float64(d))
}

// SetSizes replaces the sizes to pick from.
func (s *Size) SetSizes(sizes []string) { s.opts.Sizes = sizes }

func (s *Size) open() {
	c := fyne.CurrentApp().Driver().CanvasForObject(s.entry)
	sizes := s.opts.Sizes
	if s.opts.More != nil {
		sizes = slices.Concat(s.opts.More(), sizes)
	}
	if c == nil || len(sizes) == 0 {
		return
	}
	items := make([]*fyne.MenuItem, len(sizes))
	for i, size := range sizes {
		items[i] = fyne.NewMenuItem(size, func() { s.pick(size) })
	}
	p := widget.NewPopUpMenu(fyne.NewMenu("", items...), c)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.entry)
	p.ShowAtPosition(at.AddXY(0, s.entry.Size().Height))
	p.Resize(fyne.NewSize(s.entry.Size().Width, p.MinSize().Height))
}

func (s *Size) pick(size string) { s.entry.SetText(size) }

// picker is the small arrow in the entry that opens the list.
type picker struct {
	widget.BaseWidget
	onTap func()
}

var (
	_ desktop.Cursorable = (*picker)(nil)
	_ fyne.Tappable      = (*picker)(nil)
)

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
	side := r.p.Theme().Size(theme.SizeNameInlineIcon)
	return fyne.NewSize(fyne.Max(side, r.p.Theme().Size(look.Target)), side)
}

func (r *pickerRenderer) Refresh() { canvas.Refresh(r.p) }
