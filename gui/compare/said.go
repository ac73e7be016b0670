package compare

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// said is the sentences under the table, one for each option, about its effect
// on today's problems.
type said struct {
	object *fyne.Container
	lines  []*widget.Label
}

func newSaid() *said { return &said{object: container.NewVBox()} }

// refresh writes a line for each option.
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
		if emptied := study.EmptiedWords(o).In(sys); emptied != "" {
			put(o.Name + ": " + emptied)
		}
		if mean := o.MeanDropWords().In(sys); o.Kind != sizing.KindNoFilter && mean != "" {
			put(sizing.OptionName(o.Name).Show(sys) + ": " + mean)
		}
		if o.Name == study.Recommendation.Option {
			continue // the reason for it tells what it does
		}
		if versus := o.Versus.In(sys); o.Kind == sizing.KindOption && versus != "" {
			put(o.Name + ": " + versus)
		}
	}
	for len(s.lines) > n {
		s.object.Remove(s.lines[len(s.lines)-1])
		s.lines = s.lines[:len(s.lines)-1]
	}
}
