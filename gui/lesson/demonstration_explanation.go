package lesson

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// explain writes what came out: which prediction the engine bears out, why,
// and the working of the numbers, at the start and now.
func (v *demonstrationView) explain(sys units.Locale) {
	o, ok := v.show.Outcome()
	now, solved := v.show.Now()
	key := ""
	if v.show.Step() == Explain {
		key = fmt.Sprint(ok, v.show.At(), v.show.Position(), v.show.Part(), sys, solved)
	}
	if key == v.explained {
		return
	}
	v.explained = key
	v.explanation.Objects = nil
	switch {
	case key == "":
	case !ok || !solved:
		v.explanation.Add(wrapped(lang.T("Working it out ...")))
	default:
		paragraphs, part := o.Explain(sys), v.show.Part()
		if part == 0 {
			v.verdict(o)
		}
		if part < len(paragraphs) {
			p := wrapped(paragraphs[part])
			p.SizeName = theme.SizeNameSubHeadingText
			v.explanation.Add(p)
		} else if part > 0 {
			v.workings(o.Start(), now, sys)
		}
		if part == 0 {
			v.outcomes(o)
		}
		v.scrolled.ScrollToTop()
	}
	v.explanation.Refresh()
}

// verdict says which prediction came true, and whether it was the one chosen.
func (v *demonstrationView) verdict(o lesson.Outcome) {
	right, say := o.Right(), func(text string) {
		l := wrapped(text)
		l.TextStyle.Bold = true
		v.explanation.Add(l)
	}
	for i, p := range v.show.Lesson().Predictions {
		if right[i] {
			say(lang.T("This happened: {prediction}", "prediction", p.Text))
		}
	}
	if !slices.Contains(right, true) {
		say(lang.T("None of the predictions came true with this house."))
	}
	if p := v.show.Predicted(); p >= 0 {
		text := message.ID("Your prediction did not come true.")
		if right[p] {
			text = "Your prediction came true."
		}
		say(lang.T(text))
	}
}

// outcomes says of each prediction what came of it.
func (v *demonstrationView) outcomes(o lesson.Outcome) {
	right := o.Right()
	for i, p := range v.show.Lesson().Predictions {
		n := v.show.Hands()[i]
		note, importance := message.ID("did not happen"), widget.LowImportance
		if right[i] {
			note, importance = "this happened", widget.SuccessImportance
		}
		switch {
		case n > 0 && right[i]:
			note = "this happened, {count} hands"
		case n > 0:
			note = "did not happen, {count} hands"
		}
		a := newAnswer(fmt.Sprintf("%d   %s", i+1, p.Text), func() {})
		a.keys = v.handleKey
		a.set(i == v.show.Predicted(), true, lang.T(note, "count", n), importance)
		v.explanation.Add(a)
	}
}

func (v *demonstrationView) workings(start, now lesson.SolvedSetting, sys units.Locale) {
	if len(v.show.Lesson().Workings) == 0 {
		return
	}
	v.explanation.Add(widget.NewSeparator())
	v.explanation.Add(bold(lang.T("The working")))
	for _, n := range v.show.Lesson().Workings {
		for i, s := range []lesson.SolvedSetting{start, now} {
			if i == 1 && s.Setting.Index == start.Setting.Index {
				continue
			}
			w := s.Working(n)
			if w == nil {
				continue
			}
			v.explanation.Add(bold(message.Text(sys, []message.ID{"{number}, start: {setting}", "{number}, now: {setting}"}[i], "number", n.Name(), "setting", s.Setting)))
			for _, line := range widgets.CalculationLines(*w, sys) {
				v.explanation.Add(line)
			}
		}
	}
}
