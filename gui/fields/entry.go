package fields

import (
	"image/color"
	"reflect"
	"returnbench/gui/widgets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Entry is a single-line text entry that selects its text when it is tabbed
// into, reports when it gains and loses the focus, and shows an edge for a
// fault.
type Entry struct {
	widget.Entry
	widgets.FocusReporter
	Press   widgets.LongPress
	inner   fyne.Scrollable // the toolkit's, round the text
	OnFocus func(gained bool)
	OnStep  func(by int)            // arrow up and down, where set
	OnPaste func(text string) bool  // true: the paste was taken
	OnKey   func(fyne.KeyName) bool // true: the key was taken
	edge    *canvas.Rectangle       // shown while there is a fault
	faulty  bool
	grows   bool // multi-line
	next    int  // where the cursor belongs after a space; zero: where it is
	behind  string
}

var (
	_ desktop.Mouseable     = (*Entry)(nil)
	_ fyne.Shortcutable     = (*Entry)(nil)
	_ fyne.Tabbable         = (*Entry)(nil)
	_ widgets.FocusNotifier = (*Entry)(nil)
)

func NewEntry() *Entry {
	e := &Entry{}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	return e
}

func newLongEntry(rows int) *Entry {
	e := &Entry{grows: true}
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapWord
	e.SetMinRowsVisible(rows)
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab keeps the tab key for moving on, in long texts too.
func (e *Entry) AcceptsTab() bool { return false }

// FocusGained selects the text so that typing replaces it.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	if !e.grows {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	if e.OnFocus != nil {
		e.OnFocus(true)
	}
	e.ReportFocus()
}

// FocusLost tells the field to tidy what was typed.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.OnFocus != nil {
		e.OnFocus(false)
	}
}

// TypedRune ignores a space as the first character: it comes from the space bar
// that pressed the button that opened this field.
func (e *Entry) TypedRune(r rune) {
	if r == ' ' && e.Text == "" {
		return
	}
	if e.next > 0 && e.Text == e.behind && e.SelectedText() == "" && e.CursorTextOffset() != e.next {
		e.putCursor(e.next)
	}
	e.next = 0
	if e.grows && r == ' ' && e.SelectedText() == "" {
		e.next = e.CursorTextOffset() + 1
	}
	e.Entry.TypedRune(r)
	e.behind = e.Text
}

// MouseDown puts the cursor elsewhere.
func (e *Entry) MouseDown(m *desktop.MouseEvent) {
	e.next = 0
	e.Entry.MouseDown(m)
	e.Press.OnEntry(e, m)
}

// MouseUp ends a press.
func (e *Entry) MouseUp(m *desktop.MouseEvent) {
	e.Press.Up()
	e.Entry.MouseUp(m)
}

// putCursor puts the cursor at a place in the text. The toolkit loses it behind a
// space that a full line has no room for, and what is typed next lands before it.
func (e *Entry) putCursor(at int) {
	row, begin := 0, 0
	for next := 1; ; next++ {
		e.CursorRow, e.CursorColumn = next, 0
		from := e.CursorTextOffset()
		if from == 0 || from > at { // there is no such line, or it is past the place
			break
		}
		row, begin = next, from
	}
	e.CursorRow, e.CursorColumn = row, at-begin
}

// TypedKey gives the arrows to a stepper, where there is one.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	e.next = 0
	if widgets.HelpKey(e, k) {
		return
	}
	if e.OnKey != nil && e.OnKey(k.Name) {
		return
	}
	if e.OnStep != nil {
		switch k.Name {
		case fyne.KeyUp:
			e.OnStep(1)
			return
		case fyne.KeyDown:
			e.OnStep(-1)
			return
		}
	}
	e.Entry.TypedKey(k)
}

// TypedShortcut lets a grid take a paste of many cells.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if p, ok := s.(*fyne.ShortcutPaste); ok && e.OnPaste != nil && p.Clipboard != nil {
		if e.OnPaste(p.Clipboard.Content()) {
			return
		}
	}
	e.Entry.TypedShortcut(s)
}

// Faulty reports whether the entry shows an edge for a fault.
func (e *Entry) Faulty() bool { return e.faulty }

// SetFaulty shows the edge for a fault, or takes it away.
func (e *Entry) SetFaulty(faulty bool) {
	if e.faulty == faulty {
		return
	}
	e.faulty = faulty
	e.Refresh()
}

// CreateRenderer lays the fault's edge over the toolkit's own drawing.
func (e *Entry) CreateRenderer() fyne.WidgetRenderer {
	e.ExtendBaseWidget(e)
	e.edge = canvas.NewRectangle(color.Transparent)
	r := &entryRenderer{WidgetRenderer: e.Entry.CreateRenderer(), e: e}
	for _, o := range r.WidgetRenderer.Objects() {
		if s, ok := o.(fyne.Scrollable); ok {
			e.inner = s
		}
	}
	r.paint()
	return r
}

type entryRenderer struct {
	fyne.WidgetRenderer
	e *Entry
}

func (r *entryRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.e.edge.Resize(size)
}

func (r *entryRenderer) Objects() []fyne.CanvasObject {
	return append(r.WidgetRenderer.Objects(), r.e.edge)
}

func (r *entryRenderer) Refresh() {
	r.paint()
	r.WidgetRenderer.Refresh()
}

func (r *entryRenderer) paint() {
	th := r.e.Theme()
	edge := r.e.edge
	edge.CornerRadius = th.Size(theme.SizeNameInputRadius)
	edge.StrokeColor = th.Color(theme.ColorNameError, fyne.CurrentApp().Settings().ThemeVariant())
	edge.StrokeWidth = 2
	edge.Hidden = !r.e.faulty
	edge.Refresh()
}

// ScrollText gives the wheel to a long text and reports whether the text moved: one that
// is all in sight, or at its end, leaves the wheel to what is around it.
func (e *Entry) ScrollText(ev *fyne.ScrollEvent) bool {
	if !e.grows || e.inner == nil {
		return false
	}
	before := offsetOf(e.inner)
	e.inner.Scrolled(ev)
	return offsetOf(e.inner) != before
}

// offsetOf reads how far the toolkit's inner scroll of an entry has moved. Its
// type has no name outside the toolkit.
func offsetOf(s fyne.Scrollable) any {
	v := reflect.Indirect(reflect.ValueOf(s)).FieldByName("Offset")
	if !v.IsValid() {
		return nil
	}
	return v.Interface()
}
