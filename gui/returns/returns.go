// Package returns is the place for the return branches, from the rooms to the
// return plenum.
package returns

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place; it edits one branch at a time.
type Screen struct {
	*form.Form
	model Model
	list  form.List[sizing.Return]
}

// New makes the screen.
func New(m Model) *Screen {
	s := &Screen{model: m, list: form.Branches(func(j *sizing.Job) *[]sizing.Return { return &j.Returns })}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func (s *Screen) shape() string {
	j := s.model.Peek()
	return s.list.Shape(j) + fmt.Sprint(s.model.Units()) + form.BranchShape(s.list.Now(j))
}

func (s *Screen) build(b *form.Builder) {
	b.Heading("Return branches, in parallel")
	if len(s.model.Peek().Returns) == 0 {
		b.Note("No branch is described: a usual return of the rated static stands in. Add each grille with its duct to have its own drop.")
	}
	if form.Items(b, &s.list) {
		form.Branch(b, fmt.Sprintf("returns[%d]", s.list.At()), s.list.Field())
	}
}

// Show leads to a field, after its branch has been put in view.
func (s *Screen) Show(path string) {
	if s.list.Taken(path, "returns[%d]") {
		s.Refresh()
	}
	s.Form.Show(path)
}
