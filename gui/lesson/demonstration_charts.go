package lesson

import (
	"strings"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// chartState is the state that the charts of a view are drawn from. A slider reports each of its
// positions before and after it is solved, and only what it moves is drawn.
type chartState struct {
	lesson           *lesson.Lesson
	start, now, end  *sizing.Study
	step             Step
	position, traced int
	visited          int
	sys              units.Locale
}

// redraw draws the charts whose subject changed.
func (v *demonstrationView) redraw(sys units.Locale) {
	start, _ := v.show.Start()
	now, _ := v.show.Now()
	end, _ := v.show.End()
	_, visited := v.show.Visited()
	next := chartState{v.show.Lesson(), start.Study, now.Study, end.Study, v.show.Step(), v.show.Position(), v.show.Traced(), len(visited), sys}
	was := v.charted
	v.charted = next
	if next == was {
		return
	}
	v.trace.Refresh()
	// The chart shows the position only through its Study, but for the start alone.
	atStart := func(s chartState) bool { return s.step == Ask || s.position == 0 }
	same := atStart(was) == atStart(next)
	next.position, next.traced, next.visited = was.position, was.traced, was.visited
	if !same || next != was {
		v.chart.Refresh()
	}
}

// plot draws the start, and beside it the house as it is moved.
func (v *demonstrationView) plot() (plots.Chart, bool) {
	start, ok := v.show.Start()
	now, solved := v.show.Now()
	if !ok || !solved {
		return plots.Chart{}, false
	}
	sys := v.units()
	before, after := side("start, {setting}", start, sys), side("now, {setting}", now, sys)
	if v.show.Step() == Ask || v.show.Position() == 0 {
		after = before
	}
	room := []plots.Side{before}
	if end, ok := v.show.End(); ok && v.show.Step() != Ask {
		room = append(room, side("", end, sys))
	}
	key := strings.ReplaceAll(string(v.show.Lesson().Picture()), "_", "-")
	return plots.BeforeAfter(key, before, after, room, v.look()), true
}

func side(name message.ID, s lesson.SolvedSetting, sys units.Locale) plots.Side {
	return plots.Side{Name: message.Text(sys, name, "setting", s.Setting), Study: s.Study, Option: s.Setting.Option, Loaded: s.Loaded()}
}

// plotTrace draws the chosen number along the move, as far as it was made.
func (v *demonstrationView) plotTrace() (plots.Chart, bool) {
	settings := v.show.Settings()
	numbers := v.show.Lesson().Numbers
	at, stands := v.show.Visited()
	if len(stands) == 0 || len(numbers) == 0 || len(settings) < 2 {
		return plots.Chart{}, false
	}
	sys, n := v.units(), numbers[v.show.Traced()]
	t := plots.Trace{Name: message.Text(sys, n.Name()), Move: v.show.Lesson().Move.Name, From: settings[0].Show(sys), To: settings[len(settings)-1].Show(sys), Positions: len(settings), Now: v.show.Position()}
	for i, st := range stands {
		v, unit := st.Value(n).In(sys)
		t.At, t.Values, t.Unit = append(t.At, at[i]), append(t.Values, v), unit
	}
	return t.Chart(v.look()), true
}
