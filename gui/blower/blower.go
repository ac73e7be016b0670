// Package blower is the place for the blower's table: its taps, and for each
// the airflow at each external static.
package blower

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/blower"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place; it edits one tap at a time.
type Screen struct {
	*form.Form
	model Model
	tap   int
}

// New makes the screen.
func New(m Model) *Screen {
	s := &Screen{model: m}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func table(j *sizing.Job) *blower.Table { return &j.Equipment.Blower }

func taps(j *sizing.Job) *[]blower.Tap { return &j.Equipment.Blower.Taps }

func (s *Screen) shape() string {
	t := table(s.model.Peek())
	s.tap = max(0, min(s.tap, len(t.Taps)-1))
	return fmt.Sprint(s.tap, len(t.Taps))
}

func (s *Screen) names() []string {
	t := table(s.model.Peek())
	out := make([]string, len(t.Taps))
	for i, tap := range t.Taps {
		out[i] = tap.Name
	}
	return out
}

func (s *Screen) build(b *form.Builder) {
	t := table(s.model.Peek())
	b.Heading("Blower")
	form.Choice(b, "equipment.blower.motor", "Motor", form.Of(table, func(t *blower.Table) *blower.Motor { return &t.Motor }), "not known",
		form.Item[blower.Motor]{Value: blower.PSC, Label: "PSC"},
		form.Item[blower.Motor]{Value: blower.ConstantTorque, Label: "constant torque (ECM)"},
		form.Item[blower.Motor]{Value: blower.ConstantAirflow, Label: "constant airflow (ECM)"})
	b.Named("equipment.blower.cooling_tap", "Tap in cooling", form.Of(table, func(t *blower.Table) *string { return &t.CoolingTap }), "strongest", s.names)
	b.Named("equipment.blower.heating_tap", "Tap in heating", form.Of(table, func(t *blower.Table) *string { return &t.HeatingTap }), "as in cooling", s.names)
	includes := form.Of(table, func(t *blower.Table) *[]blower.Included { return &t.Includes })
	form.Among(b, "equipment.blower.includes[0]", "The table includes a wet coil", includes, blower.IncludesWetCoil)
	form.Among(b, "equipment.blower.includes[1]", "The table includes a filter", includes, blower.IncludesFilter)

	b.Heading("Table, by tap, for standard air")
	if len(t.Taps) == 0 {
		b.Note("No table is typed: a generic one of this size and motor stands in. Add a tap and type or paste the maker's rows, in any usual unit.")
	}
	b.Items(form.Items{
		What: "tap", Names: s.names, At: s.tap,
		Pick: func(i int) { s.tap = i; s.Refresh() },
		Add: func() {
			s.tap = len(t.Taps)
			form.Append(b, "Add tap", taps, blower.Tap{Name: s.free(len(t.Taps) + 1)})
		},
		Copy: func() {
			at := s.tap
			s.tap = len(t.Taps)
			s.model.Apply("Duplicate tap", func(j *sizing.Job) {
				c := j.Clone().Equipment.Blower.Taps[at]
				c.Name = s.free(len(j.Equipment.Blower.Taps) + 1)
				j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, c)
			})
		},
		Remove: func() { s.remove() },
	})
	if len(t.Taps) > 0 {
		s.fields(b)
	}
}

// free is a name for the n-th tap that no other has.
func (s *Screen) free(n int) string {
	for {
		name := fmt.Sprintf("tap %d", n)
		if _, taken := table(s.model.Peek()).Tap(name); !taken {
			return name
		}
		n++
	}
}

// remove takes the tap out; what named it is left open.
func (s *Screen) remove() {
	at := s.tap
	s.model.Apply("Remove tap", func(j *sizing.Job) {
		list := taps(j)
		rename(j, (*list)[at].Name, "")
		*list = append((*list)[:at:at], (*list)[at+1:]...)
		if len(*list) == 0 {
			*list = nil
		}
	})
}

func (s *Screen) fields(b *form.Builder) {
	path := fmt.Sprintf("equipment.blower.taps[%d]", s.tap)
	at := form.At(taps, s.tap)
	b.Rename(path+".name", "Tap name", form.Of(at, func(t *blower.Tap) *string { return &t.Name }), rename)
	b.Points(path+".points", "Blower table", form.Of(at, func(t *blower.Tap) *[]blower.Point { return &t.Points }))
}

// rename follows a tap's name through the job.
func rename(j *sizing.Job, before, after string) {
	follow := func(name *string) {
		if *name == before {
			*name = after
		}
	}
	follow(&j.Equipment.Blower.CoolingTap)
	follow(&j.Equipment.Blower.HeatingTap)
	for i := range j.Options {
		follow(&j.Options[i].Tap)
	}
	for i := range j.Readings {
		follow(&j.Readings[i].Tap)
	}
}
