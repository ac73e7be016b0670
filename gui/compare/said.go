package compare

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// said tells under the table in a sentence each what an option does to the
// problems of today.
type said struct {
	object *fyne.Container
	lines  []*widget.Label
}

func newSaid() *said { return &said{object: container.NewVBox()} }

// refresh writes a line an option.
func (s *said) refresh(study *sizing.Study, options []*sizing.OptionResult, sys units.Locale) {
	n := 0
	put := func(text string) {
		if text == "" {
			return
		}
		if n == len(s.lines) {
			l := widget.NewLabel("")
			l.Wrapping = fyne.TextWrapWord
			s.lines = append(s.lines, l)
			s.object.Add(l)
		}
		if s.lines[n].Text != text {
			s.lines[n].SetText(text)
		}
		n++
	}
	put(study.Recommendation.Why.In(sys))
	for _, o := range options {
		if o.Kind == sizing.KindOption && !o.Versus.Empty() {
			put(o.Name + ": " + o.Versus.In(sys))
		}
	}
	for len(s.lines) > n {
		s.object.Remove(s.lines[len(s.lines)-1])
		s.lines = s.lines[:len(s.lines)-1]
	}
}
