// Package compare is the place for the options: what could be changed, and all
// that follows from each beside the house as it is.
package compare

import (
	"slices"

	"fmt"

	"fyne.io/fyne/v2"

	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	form.Model
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	RangeWords() string           // how far they are
}

// Screen is the place; it edits one option at a time.
type Screen struct {
	*form.Form
	model    Model
	list     form.List[sizing.Option]
	branches form.List[sizing.Return]
	table    *comparison
	follow   func(option string)
}

// New makes the screen. view is how the person looks at the comparison; it
// outlives the screen. follow is told the option under edit.
func New(m Model, view *sizing.View, follow func(option string)) *Screen {
	s := &Screen{model: m, follow: follow}
	s.table = newComparison(m, view)
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
	s.Refresh()
	return s
}

// Head is the comparison, above the picture.
func (s *Screen) Head() fyne.CanvasObject { return s.table.object }

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
	b.Named(path+".filter", "Filter in every place", form.Of(at, func(o *sizing.Option) *string { return &o.Filter }), "as today", form.FilterNames(s.model))
	b.Named(path+".tap", "Tap in cooling", form.Of(at, func(o *sizing.Option) *string { return &o.Tap }), "as today", s.taps)
	b.Number(path+".speed_ratio", "Wheel speed over the table's", form.Of(at, func(o *sizing.Option) *float64 { return &o.SpeedRatio }), "1, as the table")
	form.Quantity(b, path+".price", "Price, installed", form.Of(at, func(o *sizing.Option) *units.Money { return &o.Price }))
	b.Heading("Filter place; left open: as today")
	form.Slot(b, path+".slot", form.Of(at, func(o *sizing.Option) *sizing.Slot { return &o.Slot }), "the option's filter")
	s.returns(b, path)
}

func (s *Screen) returns(b *form.Builder, path string) {
	b.Heading("Returns")
	if s.branches.Now(s.model.Peek()) == nil {
		b.Note("As today.")
		b.Buttons(form.Button{Label: "Change the returns here", Action: func() {
			list := s.branches.Of
			s.model.Apply("Change the returns of "+s.Option(), func(j *sizing.Job) {
				branches := j.Clone().Returns
				if len(branches) == 0 {
					branches = []sizing.Return{{Name: "return 1"}}
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
	if s.list.Select(path, "options[%d]") {
		s.branches.Select(path, fmt.Sprintf("options[%d].returns[%%d]", s.list.At()))
		s.Refresh()
	}
	s.Form.Show(path)
}

// RefreshRanges tells how far the ranges are.
func (s *Screen) RefreshRanges() { s.table.tellRanges() }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	s.Form.Refresh()
	s.table.refresh()
	s.follow(s.Option())
}
