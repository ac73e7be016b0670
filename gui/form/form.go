package form

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/fields"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what a form needs of the session.
type Model interface {
	Peek() *sizing.Job
	Type(path, name string, change func(*sizing.Job))
	Apply(name string, change func(*sizing.Job))
	Study() *sizing.Study
	ShownFaults() sizing.FieldErrors // faults of fields that were left
	Units() units.Locale
	Blank() bool // nothing has been entered yet
	EndTyping()
	EndStep()
	CannotRead(session.Unread)
	CanRead(path string)
	UnreadAt(path string) session.Unread
}

// Form is a scrolled column of fields. Where the shape of what it shows
// changes (a branch more, another kind of duct), it is built again.
type Form struct {
	model  Model
	shape  func() string
	build  func(*Builder)
	scroll *container.Scroll
	object fyne.CanvasObject
	under  fyne.CanvasObject // after the fields, in the same column; nil: nothing

	builtShape  string
	fields      []*boundField
	lists       []func()            // bring lists of names up to date
	items       map[string]ListItem // things of lists, by path
	firstFields map[any]int         // by list: the field with which the thing in view begins
	mark        paste.Mark          // decimal mark of pasted tables
	advanced    []*advanced
	opened      map[string]bool // advanced groups, by key
	typing      string          // path of the field whose change is on its way
	least       fyne.Size

	building bool
	focused  fields.Field // that had the keyboard last
	enter    func(place string)
	library  Library // nil: none
	added    addedFilter
}

// boundField is a field and the paths of the Job that it edits.
type boundField struct {
	paths []string
	kind  *units.Kind // of a quantity, to show an assumed value in the units in use
	in    [2]string   // its units, where they are not the usual ones
	field fields.Field
	// heading is the one that the field stands under.
	heading string
	// called is the field without what its label says of its place: a row's number, or
	// that another field may stand for it; empty: as its label.
	called message.ID
	// covered is the path of an assumption that speaks for this field too.
	covered string
	// engine takes the engine's faults where they have places inside the field.
	engine func(sizing.FieldErrors)
}

// New makes a form. shape names all that decides which fields there are; it is
// read at each Refresh.
func New(model Model, shape func() string, build func(*Builder)) *Form {
	f := &Form{model: model, shape: shape, build: build, opened: map[string]bool{}, mark: paste.UsualMark(model.Units())}
	f.scroll = container.NewVScroll(container.NewVBox())
	f.object = container.NewStack(f.scroll, widgets.NewWheelCatcher(f.wheel))
	f.rebuild()
	f.showStudy()
	return f
}

// OnNavigate sets how the form's buttons open another place.
func (f *Form) OnNavigate(enter func(place string)) { f.enter = enter }

// SetUnder puts something after the fields, in the same column; nil takes it away.
func (f *Form) SetUnder(o fyne.CanvasObject) {
	if f.under != o {
		f.under = o
		f.rebuild()
		f.notifyFocus()
	}
}

// Object is the scrolled column.
func (f *Form) Object() fyne.CanvasObject { return f.object }

// Refresh reads the Job and the Study again.
func (f *Form) Refresh() {
	if f.shape() != f.builtShape {
		f.rebuild()
		f.showStudy()
		if canvas := f.canvas(); canvas != nil && canvas.Focused() != nil {
			f.scrollTo(canvas.Focused())
		}
		return
	}
	seen, before := f.visibleFocus(), f.least
	f.showStudy()
	if seen != nil && f.least != before {
		f.scrollTo(seen)
	}
}

func (f *Form) showStudy() {
	for _, list := range f.lists {
		list()
	}
	study, faults := f.model.Study(), f.model.ShownFaults()
	if f.model.Blank() {
		faults = nil
	}
	for _, b := range f.fields {
		b.field.SetAssumed(b.assumed(study, f.model.Units()))
		if b.engine != nil {
			b.engine(faults)
		} else {
			b.field.SetFault(b.fault(faults, f.model.Units()))
		}
		if b.paths[0] != f.typing {
			f.showUnread(b)
			b.field.Refresh()
		}
	}
	for _, g := range f.advanced {
		g.refresh()
	}
	f.layOutAgain()
}

// showUnread shows the session's text of a field that cannot be read, which may
// have been typed in another form of the same field, or undone.
func (f *Form) showUnread(b *boundField) {
	field, ok := b.field.(fields.UnreadableText)
	if !ok {
		return
	}
	switch u := f.model.UnreadAt(b.paths[0]); {
	case u.Path != "" && field.Unread() == "":
		field.Retype(u.Text, u.Fault)
	case u.Path == "" && field.Unread() != "":
		field.Reset()
	}
}

// noteUnread reports a field's text that cannot be read to the session. The step
// of typing ends where the field is left.
func (f *Form) noteUnread(b *boundField, label string) {
	field, ok := b.field.(fields.UnreadableText)
	if !ok {
		return
	}
	path := b.paths[0]
	field.OnUnread(func(text, fault string, typing bool) {
		if f.building {
			return // the field keeps the keyboard, though it is another one
		}
		before := f.typing
		f.typing = path
		if fault == "" {
			f.model.CanRead(path)
		} else {
			f.model.CannotRead(session.Unread{Path: path, Name: label, Text: text, Fault: fault, Typing: typing})
		}
		f.typing = before
		if !typing {
			f.model.EndTyping()
		}
	})
}

// layOutAgain lays the column out again where a text under a field appeared or
// disappeared. The height of wrapped text follows from its width, and that from the
// scroll bar, which comes and goes with the height: three passes at the most.
func (f *Form) layOutAgain() {
	for range 3 {
		now := f.scroll.Content.MinSize()
		if now == f.least {
			return
		}
		f.least = now
		f.scroll.Refresh()
		f.scroll.Content.Refresh()
	}
}

// typed makes the change of a field. The field is not read back meanwhile: its
// text stays as the person types it.
func (f *Form) typed(path, name string, change func(*sizing.Job)) {
	f.typing = path
	f.model.Type(path, name, change)
	f.typing = ""
}

// rebuild makes the fields again. What has the keyboard keeps it where it is
// still there; a form must not change under a focused entry, and a button that
// is gone must not be pressed again.
func (f *Form) rebuild() {
	f.building = true
	defer func() { f.building = false }()
	canvas, path, held := f.release()
	b := &Builder{form: f, box: container.NewVBox()}
	f.fields, f.lists, f.items, f.firstFields, f.advanced = nil, nil, map[string]ListItem{}, map[any]int{}, nil
	f.builtShape = f.shape()
	f.build(b)
	if f.under != nil {
		b.addObject(f.under)
	}
	f.scroll.Content = widgets.DragContent(f.scroll, container.New(layout.NewCustomPaddedLayout(look.Margin/2, look.Margin, look.Margin, fyne.Max(look.Margin, theme.ScrollBarSize()+4)), b.box)) // the bar of the scroll lies over the right edge
	f.scroll.Refresh()
	f.notifyFocus()
	if canvas == nil {
		return
	}
	if field := f.Field(path); field != nil {
		canvas.Focus(field.Focusable())
	} else if again := held.in(f.scroll.Content); again != nil {
		canvas.Focus(again)
	}
}

// release takes the keyboard focus from the form and returns which field, or
// which other part, had it.
func (f *Form) release() (canvas fyne.Canvas, path string, held part) {
	if fyne.CurrentApp() == nil {
		return nil, "", part{}
	}
	canvas = f.canvas()
	if canvas == nil || canvas.Focused() == nil {
		return nil, "", part{}
	}
	for _, b := range f.fields {
		if b.field.Focusable() == canvas.Focused() {
			canvas.Unfocus()
			return canvas, b.paths[0], part{}
		}
	}
	seen := map[string]int{}
	for _, o := range focusables(f.scroll.Content) {
		if o == canvas.Focused() {
			canvas.Unfocus()
			return canvas, "", part{nameOf(o), seen[nameOf(o)]}
		}
		seen[nameOf(o)]++
	}
	return nil, "", part{}
}

// canvas is that of the form. Before it is first drawn the driver knows of none,
// though the keyboard may be in it.
func (f *Form) canvas() fyne.Canvas {
	driver := fyne.CurrentApp().Driver()
	if c := driver.CanvasForObject(f.scroll); c != nil {
		return c
	}
	for _, w := range driver.AllWindows() {
		if focused := w.Canvas().Focused(); focused != nil && f.holds(focused) {
			return w.Canvas()
		}
	}
	return nil
}

func (f *Form) holds(focused fyne.Focusable) bool {
	for _, b := range f.fields {
		if b.field.Focusable() == focused {
			return true
		}
	}
	return slices.Contains(focusables(f.scroll.Content), focused)
}

// part is a button or a list of the form: the n-th of a name.
type part struct {
	name string
	n    int
}

// in finds the part among what was built again, nil where it is gone or off.
func (p part) in(content fyne.CanvasObject) fyne.Focusable {
	seen := 0
	for _, o := range focusables(content) {
		if nameOf(o) != p.name {
			continue
		}
		if d, ok := o.(fyne.Disableable); seen == p.n && !(ok && d.Disabled()) {
			return o
		}
		seen++
	}
	return nil
}

func nameOf(o fyne.Focusable) string {
	if b, ok := o.(*widgets.Button); ok {
		return "button " + b.Text
	}
	return fmt.Sprintf("%T", o)
}

// focusables are what of a tree of containers takes the keyboard, in its order.
func focusables(o fyne.CanvasObject) (out []fyne.Focusable) {
	if c, ok := o.(*fyne.Container); ok && c.Visible() {
		for _, one := range c.Objects {
			out = append(out, focusables(one)...)
		}
	}
	if f, ok := o.(fyne.Focusable); ok {
		out = append(out, f)
	}
	return out
}

// Field finds the field that edits a path, nil where the form has none.
func (f *Form) Field(path string) fields.Field {
	for _, b := range f.fields {
		for _, p := range b.paths {
			if p == path {
				return b.field
			}
		}
	}
	return nil
}

// First is the first field, or where there is none the first button.
func (f *Form) First() fyne.Focusable {
	if len(f.fields) > 0 {
		return f.fields[0].field.Focusable()
	}
	for _, o := range focusables(f.scroll.Content) {
		if d, ok := o.(fyne.Disableable); !ok || !d.Disabled() {
			return o
		}
	}
	return nil
}

// Show scrolls to the field that edits a path and gives it the keyboard.
func (f *Form) Show(path string) {
	field := f.Field(path)
	if field == nil {
		return
	}
	f.focus(field)
}

// focus gives a field the keyboard, which brings it into sight.
func (f *Form) focus(field fields.Field) {
	f.unfold(field)
	if fyne.CurrentApp() == nil {
		return
	}
	canvas := f.canvas() // known by what has the keyboard too: the form may not be drawn yet
	if canvas == nil {
		return
	}
	canvas.Focus(field.Focusable())
	f.scrollTo(field.Focusable()) // it may have had the keyboard before
}

// showNext goes on in the field that follows the last button of a list, where the
// thing now in view begins.
func (f *Form) showNext(list any) {
	if i, ok := f.firstFields[list]; ok && i < len(f.fields) {
		f.focus(f.fields[i].field)
	}
}

// Paths are the first paths of the fields, top to bottom.
func (f *Form) Paths() []string {
	out := make([]string, len(f.fields))
	for i, b := range f.fields {
		out[i] = b.paths[0]
	}
	return out
}
