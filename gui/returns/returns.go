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
	at    int
}

// New makes the screen.
func New(m Model) *Screen {
	s := &Screen{model: m}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func branches(j *sizing.Job) *[]sizing.Return { return &j.Returns }

func (s *Screen) shape() string {
	list := s.model.Peek().Returns
	s.at = max(0, min(s.at, len(list)-1))
	shape := fmt.Sprint(s.at, len(list), s.model.Units())
	if len(list) > 0 {
		shape += form.BranchShape(&list[s.at])
	}
	return shape
}

func (s *Screen) names() []string {
	list := s.model.Peek().Returns
	out := make([]string, len(list))
	for i, r := range list {
		out[i] = r.Name
	}
	return out
}

func (s *Screen) build(b *form.Builder) {
	n := len(s.model.Peek().Returns)
	b.Heading("Return branches, in parallel")
	if n == 0 {
		b.Note("No branch is described: a usual return of the rated static stands in. Add each grille with its duct to have its own drop.")
	}
	b.Items(form.Items{
		What: "branch", Names: s.names, At: s.at,
		Pick: func(i int) { s.at = i; s.Refresh() },
		Add: func() {
			s.at = n
			form.Append(b, "Add branch", branches, sizing.Return{Name: fmt.Sprintf("return %d", n+1)})
		},
		Copy: func() {
			from := s.at
			s.at = n
			s.model.Apply("Duplicate branch", func(j *sizing.Job) {
				c := j.Clone().Returns[from]
				c.Name += " copy"
				j.Returns = append(j.Returns, c)
			})
		},
		Remove: func() { form.Remove(b, "Remove branch", branches, s.at) },
	})
	if n > 0 {
		form.Branch(b, fmt.Sprintf("returns[%d]", s.at), form.At(branches, s.at))
	}
}

// Show leads to a field, after its branch has been put in view.
func (s *Screen) Show(path string) {
	var i int
	if _, err := fmt.Sscanf(path, "returns[%d]", &i); err == nil {
		s.at = i
		s.Refresh()
	}
	s.Form.Show(path)
}
