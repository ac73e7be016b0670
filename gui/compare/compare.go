// Package compare is the place for the options: the changes, and their results
// beside the house as it is.
package compare

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	form.Model
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	RangeWords() string           // the state of the ranges
}

// Screen is the place; it edits one option at a time.
type Screen struct {
	*form.Form
	model    Model
	list     form.List[sizing.Option]
	branches form.List[sizing.Return]
	table    *comparison
	follow   func(option string)

	drawer *drawer
	object *fyne.Container
	names  []string // of the options, as last seen
}

// New makes the screen. view is how the person looks at the comparison; it
// outlives the screen. follow is called with the option being edited.
func New(m Model, view *sizing.View, follow func(option string)) *Screen {
	s := &Screen{model: m, follow: follow}
	s.table = newComparison(m, view)
	s.table.edit, s.table.add = s.Edit, s.addOption
	s.list = form.List[sizing.Option]{
		What: "option", Of: func(j *sizing.Job) *[]sizing.Option { return &j.Options },
		Name: func(o *sizing.Option) *string { return &o.Name },
		New:  func(name string) sizing.Option { return sizing.Option{Name: name} },
		Follow: func(j *sizing.Job, before, after string) {
			rename(j, before, after)
			s.table.rename(before, after)
		},
		Picked: func() { s.Refresh() },
	}
	s.list.Edit(len(m.Peek().Options) - 1)
	s.branches = form.Returns(func(j *sizing.Job) *[]sizing.Return {
		if o := s.list.Now(j); o != nil {
			return &o.Returns
		}
		return nil
	})
	s.Form = form.New(m, s.shape, s.build)
	s.drawer = newDrawer(s.Form.Object(), s.closeDrawer)
	s.object = container.New(beside{s.table.object, s.drawer.object}, s.table.object, s.drawer.object)
	s.names = s.list.Names(m.Peek())
	s.Refresh()
	return s
}

// Object is the table with the drawer beside it.
func (s *Screen) Object() fyne.CanvasObject { return s.object }

// Drawer is the form of the option under edit.
func (s *Screen) Drawer() fyne.CanvasObject { return s.Form.Object() }

// First is the first field of the drawer where it is open, else the table.
func (s *Screen) First() fyne.Focusable {
	if s.drawer.object.Visible() {
		return s.Form.First()
	}
	return s.table.first()
}

// Edit opens the drawer on an option.
func (s *Screen) Edit(name string) {
	if at := slices.Index(s.list.Names(s.model.Peek()), name); at >= 0 {
		s.list.Edit(at)
	}
	s.openDrawer()
	s.Refresh()
	if f := s.Form.First(); f != nil {
		if c := fyne.CurrentApp().Driver().CanvasForObject(s.object); c != nil {
			c.Focus(f)
		}
	}
}

func (s *Screen) openDrawer() {
	if !s.drawer.object.Visible() {
		s.drawer.object.Show()
		s.object.Refresh()
	}
}

func (s *Screen) closeDrawer() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.object); c != nil {
		c.Unfocus() // no hidden entry may keep the keyboard focus
	}
	s.drawer.object.Hide()
	s.object.Refresh()
}

// addOption adds an option and opens the drawer on it.
func (s *Screen) addOption() {
	j := s.model.Peek()
	name := s.list.UniqueName(j, lang.T("option {n}", "n", len(j.Options)+1))
	s.model.Apply(lang.T("Add option"), func(j *sizing.Job) { j.Options = append(j.Options, s.list.New(name)) })
	s.Edit(name)
}

// followAdded edits the option that was just added, here or at another place.
func (s *Screen) followAdded() {
	now := s.list.Names(s.model.Peek())
	fresh := -1
	if len(now) == len(s.names)+1 {
		for i, name := range now {
			if !slices.Contains(s.names, name) {
				fresh = i
			}
		}
	}
	s.names = now
	if fresh >= 0 {
		s.list.Edit(fresh)
		s.openDrawer()
	}
}

// Option names the option under edit, empty where there is none.
func (s *Screen) Option() string {
	if o := s.list.Now(s.model.Peek()); o != nil {
		return o.Name
	}
	return ""
}

func (s *Screen) shape() string {
	j := s.model.Peek()
	return s.list.Shape(j) + s.branches.Shape(j) + fmt.Sprint(s.model.Units()) + form.ReturnShape(s.branches.Now(j))
}

func (s *Screen) taps() []string {
	var out []string
	for _, t := range s.model.Peek().Equipment.Blower.Taps {
		out = append(out, t.Name)
	}
	return out
}

func (s *Screen) build(b *form.Builder) {
	b.Heading("Options to compare with today")
	if len(s.model.Peek().Options) == 0 {
		b.Note("An option is one change, or several together: another filter, another slot or cabinet, other returns, another tap. What it leaves open stays as today.")
	}
	if form.Items(b, &s.list) {
		s.fields(b)
	}
}

// rename follows an option's name to the readings taken with it in place and to
// the lines of the quote.
func rename(j *sizing.Job, before, after string) {
	if after == "" {
		j.Quote.Lines = slices.DeleteFunc(slices.Clone(j.Quote.Lines), func(l quote.Line) bool { return l.Option == before })
	}
	for i := range j.Quote.Lines {
		if j.Quote.Lines[i].Option == before {
			j.Quote.Lines[i].Option = after
		}
	}
	for i := range j.Readings {
		if j.Readings[i].Option == before {
			j.Readings[i].Option = after
		}
	}
}

func (s *Screen) fields(b *form.Builder) {
	path := fmt.Sprintf("options[%d]", s.list.At())
	at := s.list.Field()
	form.NameField(b, &s.list, path+".name", "Option name")
	form.FilterChoice(b, path+".filter", "Filter for this option", form.Of(at, func(o *sizing.Option) *string { return &o.Filter }), "as today")
	b.Buttons(b.TakeFilter(form.Of(at, func(o *sizing.Option) *string { return &o.Filter })))
	b.Named(path+".tap", "Tap in cooling", form.Of(at, func(o *sizing.Option) *string { return &o.Tap }), "as today", s.taps)
	form.Quantity(b, path+".price", "Price, installed", form.Of(at, func(o *sizing.Option) *units.Money { return &o.Price }))
	b.Advanced(path+".speed_ratio", func() {
		b.Number(path+".speed_ratio", "Blower speed factor", form.Of(at, func(o *sizing.Option) *float64 { return &o.SpeedRatio }), "1: as the table")
	})
	b.Heading("Filter location (blank: same as today)")
	form.Slot(b, path+".slot", form.Of(at, func(o *sizing.Option) *sizing.Slot { return &o.Slot }), "the option's filter")
	s.returns(b, path)
}

func (s *Screen) returns(b *form.Builder, path string) {
	b.Heading("Returns")
	if s.branches.Now(s.model.Peek()) == nil {
		b.Note("As today.")
		b.Buttons(form.Button{Label: "Change the returns here", Action: func() {
			list := s.branches.Of
			s.model.Apply(lang.T("Change the returns of {option}", "option", s.Option()), func(j *sizing.Job) {
				branches := j.Clone().Returns
				if len(branches) == 0 {
					branches = []sizing.Return{{}}
				}
				*list(j) = branches
			})
		}})
		return
	}
	form.Items(b, &s.branches)
	form.Return(b, fmt.Sprintf("%s.returns[%d]", path, s.branches.At()), s.branches.Field())
}

// Show leads to a field, after its option and branch have been put in view.
func (s *Screen) Show(path string) {
	s.openDrawer()
	if s.list.Select(path, "options[%d]") {
		s.branches.Select(path, fmt.Sprintf("options[%d].returns[%%d]", s.list.At()))
		s.Refresh()
	}
	s.Form.Show(path)
}

// RefreshRanges shows the state of the ranges.
func (s *Screen) RefreshRanges() { s.table.showRanges() }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	s.followAdded()
	s.Form.Refresh()
	s.table.refresh()
	s.follow(s.Option())
}
