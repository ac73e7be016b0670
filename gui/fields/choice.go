package fields

import (
	"image/color"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// ChoiceItem is one value of a Choice and how it is called, already written: it may
// be a name that a person gave.
type ChoiceItem struct{ Value, Label string }

// ChoiceOptions describe a Choice field.
type ChoiceOptions struct {
	Label string
	Tip   string // on a term that the label names; empty: it names none
	Items []ChoiceItem
	Get   func() string // empty is left open
	Set   func(string)
	Hint  string
	// Open is what "left open" is called in the list; empty: it cannot be
	// chosen.
	Open string
}

// Choice is a field for one of a few named values.
type Choice struct {
	row
	opts      ChoiceOptions
	list      *choiceList
	items     []ChoiceItem
	engineBad string
	silent    bool
}

// NewChoice makes the field.
func NewChoice(opts ChoiceOptions) *Choice {
	c := &Choice{opts: opts}
	c.list = newChoiceList(c.chosen)
	c.wide, c.full = true, true
	c.hint = opts.Hint
	c.build(opts.Label, opts.Tip, "", c.list)
	c.SetItems(opts.Items)
	return c
}

// SetItems replaces what can be chosen.
func (c *Choice) SetItems(items []ChoiceItem) {
	c.items = items
	if c.opts.Open != "" {
		c.items = append([]ChoiceItem{{"", c.opts.Open}}, items...)
	}
	labels := make([]string, len(c.items))
	for i, it := range c.items {
		labels[i] = it.Label
	}
	c.list.Options, c.list.items = labels, c.items
	c.list.Refresh()
	c.Refresh()
}

func (c *Choice) chosen(label string) {
	if c.silent {
		return
	}
	for _, it := range c.items {
		if it.Label == label {
			c.opts.Set(it.Value)
			break
		}
	}
	c.showState()
}

// List is the drop-down, for tests.
func (c *Choice) List() *widget.Select { return &c.list.Select }

// Focusable is the part that takes the keyboard.
func (c *Choice) Focusable() fyne.Focusable { return c.list }

// Refresh reads the value again.
func (c *Choice) Refresh() {
	value, label := c.opts.Get(), ""
	for _, it := range c.items {
		if it.Value == value {
			label = it.Label
			break
		}
	}
	if label == "" {
		label = value // a value of the job that the list does not know
	}
	if c.list.Selected != label {
		c.list.Selected = label
		c.list.Refresh()
	}
	c.showState()
}

// SetFault shows a fault that the engine found.
func (c *Choice) SetFault(text string) {
	c.engineBad = text
	c.showState()
}

// SetAssumed shows the value that is assumed while the field is left open.
func (c *Choice) SetAssumed(text string) {
	c.assumed = text
	c.showState()
}

func (c *Choice) showState() {
	note := ""
	if c.opts.Get() == "" && c.assumed != "" {
		note = lang.T(assumedWord)
	}
	place := c.placeholder()
	if place == "" {
		place = lang.T("choose")
	}
	if c.list.PlaceHolder != place {
		c.list.PlaceHolder = place
		c.list.Refresh()
	}
	c.list.setFaulty(c.engineBad != "")
	c.showNote(note, c.engineBad)
}

// choiceList is the toolkit's drop-down with an edge like an entry's, opened
// by the enter key too.
type choiceList struct {
	widget.Select
	widgets.FocusReporter
	edge    *canvas.Rectangle
	focused bool
	faulty  bool
	items   []ChoiceItem // of the options
}

var _ fyne.Focusable = (*choiceList)(nil)

func newChoiceList(changed func(string)) *choiceList {
	l := &choiceList{edge: canvas.NewRectangle(color.Transparent)}
	l.OnChanged = changed
	l.PlaceHolder = lang.T("choose")
	l.ExtendBaseWidget(l)
	return l
}

func (l *choiceList) setFaulty(faulty bool) {
	if l.faulty != faulty {
		l.faulty = faulty
		l.Refresh()
	}
}

// FocusGained shows the focus on the edge.
func (l *choiceList) FocusGained() {
	l.focused = true
	l.Select.FocusGained()
	l.ReportFocus()
}

// FocusLost puts the edge back.
func (l *choiceList) FocusLost() {
	l.focused = false
	l.Select.FocusLost()
}

// TypedKey opens the list on enter as on space.
func (l *choiceList) TypedKey(k *fyne.KeyEvent) {
	if widgets.HelpKey(l, k) {
		return
	}
	if k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		k = &fyne.KeyEvent{Name: fyne.KeySpace}
	}
	if len(l.Options) == 0 {
		return
	}
	l.Select.TypedKey(k)
}

// TypedRune goes to the next choice that begins with a letter, or whose value does: a
// label may have something else before a name.
func (l *choiceList) TypedRune(r rune) {
	n, now := len(l.Options), l.SelectedIndex()
	for i := range n {
		at := (now + 1 + i) % n
		value := ""
		if at < len(l.items) {
			value = l.items[at].Value
		}
		if begins(l.Options[at], r) || strings.HasSuffix(l.Options[at], value) && begins(value, r) {
			l.SetSelectedIndex(at)
			return
		}
	}
}

// begins reports whether a text begins with a letter, large or small.
func begins(text string, letter rune) bool {
	first, _ := utf8.DecodeRuneInString(text)
	return unicode.ToLower(first) == unicode.ToLower(letter)
}

// CreateRenderer lays the edge over the toolkit's own drawing.
func (l *choiceList) CreateRenderer() fyne.WidgetRenderer {
	l.ExtendBaseWidget(l)
	r := &choiceRenderer{WidgetRenderer: l.Select.CreateRenderer(), l: l}
	r.paint()
	return r
}

type choiceRenderer struct {
	fyne.WidgetRenderer
	l *choiceList
}

func (r *choiceRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.l.edge.Resize(size)
}

func (r *choiceRenderer) Objects() []fyne.CanvasObject {
	return append(r.WidgetRenderer.Objects(), r.l.edge)
}

func (r *choiceRenderer) Refresh() {
	r.paint()
	r.WidgetRenderer.Refresh()
}

func (r *choiceRenderer) paint() {
	th := r.l.Theme()
	name := theme.ColorNameInputBorder
	switch {
	case r.l.faulty:
		name = theme.ColorNameError
	case r.l.focused:
		name = theme.ColorNamePrimary
	}
	e := r.l.edge
	e.StrokeColor = th.Color(name, fyne.CurrentApp().Settings().ThemeVariant())
	e.StrokeWidth = th.Size(theme.SizeNameInputBorder)
	e.CornerRadius = th.Size(theme.SizeNameInputRadius)
	e.Refresh()
}
