package forms

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
)

// Returns is the place for the return branches, from the rooms to the
// return plenum.
//
// It edits one branch at a time.
type Returns struct {
	*form.Form
	model form.Model
	list  form.List[sizing.Return]
}

// NewReturns makes the form.
func NewReturns(m form.Model) *Returns {
	s := &Returns{model: m, list: form.Returns(func(j *sizing.Job) *[]sizing.Return { return &j.Returns })}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func (s *Returns) shape() string {
	j := s.model.Peek()
	return s.list.Shape(j) + fmt.Sprint(s.model.Units()) + fmt.Sprint(form.NoSlotForGrilles(j)) + form.ReturnShape(s.list.Now(j))
}

func (s *Returns) build(b *form.Builder) {
	b.Heading("Returns")
	if len(s.model.Peek().Returns) == 0 {
		b.Note("Typical return assumed until you add yours. Add each grille with its duct.")
	}
	if form.Items(b, &s.list) {
		form.Return(b, fmt.Sprintf("returns[%d]", s.list.At()), s.list.Field())
	}
}

// Show leads to a field, after its branch has been put in view.
func (s *Returns) Show(path string) {
	if s.list.Select(path, "returns[%d]") {
		s.Refresh()
	}
	s.Form.Show(path)
}
