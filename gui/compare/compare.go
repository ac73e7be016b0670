// Package compare is the place for the options: what could be changed, and all
// that follows from each beside the house as it is.
package compare

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"returnbench/gui/form"
	"returnbench/gui/sheet"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place; it edits one option at a time.
type Screen struct {
	*form.Form
	model  Model
	at     int
	branch int
	table  *sheet.Sheet
}

// New makes the screen.
func New(m Model) *Screen {
	s := &Screen{model: m, table: sheet.New(11)}
	s.at = len(m.Peek().Options) - 1
	s.Form = form.New(m, s.shape, s.build)
	s.Refresh()
	return s
}

// Head is the comparison, above the picture.
func (s *Screen) Head() fyne.CanvasObject { return s.table.Object() }

func options(j *sizing.Job) *[]sizing.Option { return &j.Options }

func (s *Screen) shape() string {
	list := s.model.Peek().Options
	s.at = max(0, min(s.at, len(list)-1))
	shape := fmt.Sprint(s.at, len(list), s.model.Units())
	if len(list) > 0 {
		r := list[s.at].Returns
		s.branch = max(0, min(s.branch, len(r)-1))
		shape += fmt.Sprint(" ", s.branch, len(r))
		if len(r) > 0 {
			shape += form.BranchShape(&r[s.branch])
		}
	}
	return shape
}

func (s *Screen) names() []string {
	list := s.model.Peek().Options
	out := make([]string, len(list))
	for i, o := range list {
		out[i] = o.Name
	}
	return out
}

func branchNames(list *[]sizing.Return) []string {
	if list == nil {
		return nil
	}
	out := make([]string, len(*list))
	for i, r := range *list {
		out[i] = r.Name
	}
	return out
}

func (s *Screen) taps() []string {
	var out []string
	for _, t := range s.model.Peek().Equipment.Blower.Taps {
		out = append(out, t.Name)
	}
	return out
}

func (s *Screen) build(b *form.Builder) {
	n := len(s.model.Peek().Options)
	b.Heading("Options to compare with today")
	if n == 0 {
		b.Note("An option is one change, or several together: another filter, another slot or cabinet, other returns, another tap. What it leaves open stays as today.")
	}
	b.Items(form.Items{
		What: "option", Names: s.names, At: s.at,
		Pick: func(i int) { s.at = i; s.Refresh() },
		Add: func() {
			s.at = n
			form.Append(b, "Add option", options, sizing.Option{Name: s.free("option")})
		},
		Copy: func() {
			from := s.at
			s.at = n
			s.model.Apply("Duplicate option", func(j *sizing.Job) {
				c := j.Clone().Options[from]
				c.Name = s.free(c.Name)
				j.Options = append(j.Options, c)
			})
		},
		Remove: s.remove,
	})
	if n > 0 {
		s.fields(b)
	}
}

func (s *Screen) free(name string) string {
	names := s.names()
	if !slices.Contains(names, name) && name != "option" {
		return name
	}
	for i := len(names) + 1; ; i++ {
		if n := fmt.Sprintf("%s %d", name, i); !slices.Contains(names, n) {
			return n
		}
	}
}

func (s *Screen) remove() {
	at := s.at
	s.model.Apply("Remove option", func(j *sizing.Job) {
		rename(j, j.Options[at].Name, "")
		j.Options = slices.Delete(j.Options, at, at+1)
		if len(j.Options) == 0 {
			j.Options = nil
		}
	})
}

// rename follows an option's name to the readings taken with it in place.
func rename(j *sizing.Job, before, after string) {
	for i := range j.Readings {
		if j.Readings[i].Option == before {
			j.Readings[i].Option = after
		}
	}
}

func (s *Screen) fields(b *form.Builder) {
	path := fmt.Sprintf("options[%d]", s.at)
	at := form.At(options, s.at)
	b.Rename(path+".name", "Option name", form.Of(at, func(o *sizing.Option) *string { return &o.Name }), rename)
	b.Named(path+".filter", "Filter in every place", form.Of(at, func(o *sizing.Option) *string { return &o.Filter }), "as today", form.FilterNames(s.model))
	b.Named(path+".tap", "Tap in cooling", form.Of(at, func(o *sizing.Option) *string { return &o.Tap }), "as today", s.taps)
	b.Number(path+".speed_ratio", "Wheel speed over the table's", form.Of(at, func(o *sizing.Option) *float64 { return &o.SpeedRatio }), "1, as the table")
	form.Quantity(b, path+".price", "Price, installed", form.Of(at, func(o *sizing.Option) *units.Money { return &o.Price }))
	b.Heading("Filter place; left open: as today")
	form.Slot(b, path+".slot", form.Of(at, func(o *sizing.Option) *sizing.Slot { return &o.Slot }), "the option's filter")
	s.returns(b, path, at)
}

func (s *Screen) returns(b *form.Builder, path string, at func(*sizing.Job) *sizing.Option) {
	list := form.Of(at, func(o *sizing.Option) *[]sizing.Return { return &o.Returns })
	now := *list(s.model.Peek())
	b.Heading("Returns")
	if len(now) == 0 {
		b.Note("As today.")
		b.Buttons(form.Button{Label: "Change the returns here", Action: func() {
			s.model.Apply("Change the returns of "+s.names()[s.at], func(j *sizing.Job) {
				branches := j.Clone().Returns
				if len(branches) == 0 {
					branches = []sizing.Return{{Name: "return 1"}}
				}
				*list(j) = branches
			})
		}})
		return
	}
	b.Items(form.Items{
		What: "branch", Names: func() []string { return branchNames(list(s.model.Peek())) }, At: s.branch,
		Pick: func(i int) { s.branch = i; s.Refresh() },
		Add: func() {
			s.branch = len(now)
			form.Append(b, "Add branch", list, sizing.Return{Name: fmt.Sprintf("return %d", len(now)+1)})
		},
		Copy: func() {
			from := s.branch
			s.branch = len(now)
			s.model.Apply("Duplicate branch", func(j *sizing.Job) {
				l := list(j)
				c := (*list(clone(j)))[from]
				c.Name += " copy"
				*l = append(*l, c)
			})
		},
		Remove: func() { form.Remove(b, "Remove branch", list, s.branch) },
	})
	form.Branch(b, fmt.Sprintf("%s.returns[%d]", path, s.branch), form.At(list, s.branch))
}

func clone(j *sizing.Job) *sizing.Job {
	c := j.Clone()
	return &c
}

// Show leads to a field, after its option and branch have been put in view.
func (s *Screen) Show(path string) {
	var i, k int
	n, _ := fmt.Sscanf(path, "options[%d].returns[%d]", &i, &k)
	if n >= 1 {
		s.at = i
	}
	if n == 2 {
		s.branch = k
	}
	s.Refresh()
	s.Form.Show(path)
}

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	s.Form.Refresh()
	study := s.model.Study()
	s.table.Object().Hidden = study == nil
	if study == nil {
		s.table.Set(nil, nil)
		return
	}
	s.table.Set(comparison(study, s.model.Units()))
}
