package lesson

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// SolvedSetting is the house solved at a setting.
type SolvedSetting struct {
	Setting Setting
	Study   *sizing.Study
	state   State
}

// Solve is an engine: sizing.Solve, or the Solve of a sizing.Solver.
type Solve func(sizing.Job) (*sizing.Study, error)

// Solve works out the house at a setting of the move.
func (l *Lesson) Solve(s Setting, solve Solve) (SolvedSetting, error) {
	study, err := solve(s.Job)
	if err != nil {
		return SolvedSetting{}, err
	}
	if study.Option(s.Option) == nil {
		return SolvedSetting{}, message.Errorf("the job has no option {option}", "option", strconv.Quote(s.Option))
	}
	return SolvedSetting{Setting: s, Study: study, state: l.state()}, nil
}

// Result is the result of the option shown.
func (s SolvedSetting) Result() *sizing.OptionResult { return s.Study.Option(s.Setting.Option) }

// Loaded reports whether the filter is shown at its change limit.
func (s SolvedSetting) Loaded() bool { return s.state == Loaded }

// Condition is the condition of that option in the state shown.
func (s SolvedSetting) Condition() *sizing.Condition {
	if s.Loaded() {
		return &s.Result().Loaded
	}
	return &s.Result().Clean
}

// Value is one number.
func (s SolvedSetting) Value(n Number) Value {
	f := n.figure()
	if f == nil {
		return Value{v: math.NaN()}
	}
	return f.of(s)
}

// Working is the steps behind a number; nil where it has none.
func (s SolvedSetting) Working(n Number) *sizing.Working {
	f := n.figure()
	if f == nil || f.working == "" {
		return nil
	}
	key := f.working
	if strings.Contains(key, "%s") {
		key = fmt.Sprintf(key, s.state)
	}
	if n != AirDensity {
		for i := range s.Study.Options {
			if s.Study.Options[i].Name == s.Setting.Option {
				key = fmt.Sprintf("options[%d].%s", i, key)
				break
			}
		}
	}
	return s.Study.Working(key)
}

// Samples are the settings by which the predictions are judged: both ends and
// evenly spaced settings between, as far as the move has so many.
func Samples(settings int) []int {
	const most = 13
	n := min(settings, most)
	out := make([]int, 0, n)
	for i := range n {
		at := 0
		if n > 1 {
			at = int(math.Round(float64(i) * float64(settings-1) / float64(n-1)))
		}
		out = append(out, at)
	}
	return out
}

// Outcome is the solved settings along the whole move, the first at its start
// and the last at its end.
type Outcome struct {
	Lesson *Lesson
	Solved []SolvedSetting
}

// Run solves a lesson along its move.
func (l *Lesson) Run(solve Solve) (Outcome, error) {
	o := Outcome{Lesson: l}
	settings, err := l.Settings()
	if err != nil {
		return o, err
	}
	for _, i := range Samples(len(settings)) {
		s, err := l.Solve(settings[i], solve)
		if err != nil {
			return o, message.Errorf("{move} at {setting}: {why}", "move", l.Move.Name, "setting", settings[i], "why", err)
		}
		o.Solved = append(o.Solved, s)
	}
	return o, nil
}

// Start is the house before the move.
func (o Outcome) Start() SolvedSetting { return o.Solved[0] }

// End is the house after it.
func (o Outcome) End() SolvedSetting { return o.Solved[len(o.Solved)-1] }

// Change is the change of a number over the whole move.
func (o Outcome) Change(n Number) Change { return Change{o.Start().Value(n), o.End().Value(n)} }

// extreme finds the SolvedSetting where a number is least, or most.
func (o Outcome) extreme(n Number, most bool) (int, SolvedSetting) {
	best := 0
	for i, s := range o.Solved {
		v, b := s.Value(n).v, o.Solved[best].Value(n).v
		if v < b && !most || v > b && most {
			best = i
		}
	}
	return best, o.Solved[best]
}

// Right reports for each prediction whether it came true.
func (o Outcome) Right() []bool {
	out := make([]bool, len(o.Lesson.Predictions))
	for i, p := range o.Lesson.Predictions {
		out[i] = len(p.Claims) > 0
		for _, c := range p.Claims {
			out[i] = out[i] && o.isTrue(c)
		}
	}
	return out
}

func (o Outcome) isTrue(c Claim) bool {
	change := o.Change(c.Number)
	size := math.Abs(change.size())
	switch c.Goes {
	case Up, Down, Level:
		if change.Goes() != c.Goes || o.turns(c.Number, DownThenUp) || o.turns(c.Number, UpThenDown) {
			return false
		}
	default:
		if !o.turns(c.Number, c.Goes) {
			return false
		}
		_, turn := o.extreme(c.Number, c.Goes == UpThenDown)
		size = math.Abs(Change{o.Start().Value(c.Number), turn.Value(c.Number)}.size())
	}
	return size >= c.Least && (c.Most == 0 || size <= c.Most)
}

// turns reports whether a number has its minimum, or its maximum, between the
// ends and by a noticeable amount.
func (o Outcome) turns(n Number, direction Goes) bool {
	_, turn := o.extreme(n, direction == UpThenDown)
	want := Down
	if direction == UpThenDown {
		want = Up
	}
	t := turn.Value(n)
	return Change{o.Start().Value(n), t}.Goes() == want && Change{o.End().Value(n), t}.Goes() == want
}
