package lesson

import (
	"math"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/units"
)

// Setting is one position of a move.
type Setting struct {
	Index  int
	Job    sizing.Job
	Option string // option of the job whose results are shown
	label  string
	value  float64 // SI
	most   float64 // of the move, SI, to choose the unit by
	kind   *units.Kind
	share  bool // of one
}

// mostSettings is how many positions a range may have.
const mostSettings = 400

// usualSettings is how many positions a range of a quantity has where no step
// is given: enough for a slider to move smoothly.
const usualSettings = 24

// Settings are the positions of the lesson's move, in order.
func (l *Lesson) Settings() ([]Setting, error) {
	if len(l.Move.Choices) > 0 {
		return l.choices()
	}
	return l.steps()
}

func (l *Lesson) choices() ([]Setting, error) {
	var out []Setting
	for i, c := range l.Move.Choices {
		s := Setting{Index: i, Job: l.Job.Clone(), Option: sizing.TodayName, label: c.Label}
		if l.Move.Path == "" {
			s.Option = c.Option
		} else if err := l.Move.each(&s.Job, func(v fieldpath.Value) error { return v.Set(c.Value) }); err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

func (l *Lesson) steps() ([]Setting, error) {
	r, err := l.Move.span(&l.Job)
	if err != nil {
		return nil, err
	}
	out := make([]Setting, r.count)
	for i := range out {
		n := r.at(i)
		s := Setting{Index: i, Job: l.Job.Clone(), Option: sizing.TodayName, value: n, most: math.Max(math.Abs(r.from), math.Abs(r.to)), kind: r.kind, share: r.share}
		if err := l.Move.each(&s.Job, func(v fieldpath.Value) error { v.SetNumber(n); return nil }); err != nil {
			return nil, err
		}
		out[i] = s
	}
	return out, nil
}

// each calls do for every field that moves.
func (m *Move) each(job *sizing.Job, do func(fieldpath.Value) error) error {
	for _, path := range append([]string{m.Path}, m.With...) {
		v, err := fieldpath.Find(job, path)
		if err != nil {
			return err
		}
		if err := do(v); err != nil {
			return err
		}
	}
	return nil
}

// span is a range of a move in SI.
type span struct {
	from, to float64
	count    int
	kind     *units.Kind
	share    bool
}

func (r span) at(i int) float64 {
	if i == r.count-1 {
		return r.to
	}
	return r.from + (r.to-r.from)*float64(i)/float64(r.count-1)
}

func (m *Move) span(job *sizing.Job) (span, error) {
	v, err := fieldpath.Find(job, m.Path)
	if err != nil {
		return span{}, err
	}
	r := span{kind: v.Quantity(), share: v.Share}
	if r.from, err = v.Number(m.From); err != nil {
		return r, err
	}
	if r.to, err = v.Number(m.To); err != nil {
		return r, err
	}
	r.count, err = m.count(v, math.Abs(r.to-r.from))
	return r, err
}

// count is how many positions a range has.
func (m *Move) count(v fieldpath.Value, width float64) (int, error) {
	if m.Step == "" {
		if v.IsWhole() {
			return min(int(width), mostSettings-1) + 1, nil
		}
		return usualSettings + 1, nil
	}
	step, err := stepOf(v, m.Step)
	if err != nil {
		return 0, err
	}
	n := math.Round(width / step)
	return int(math.Min(math.Max(n, 1), mostSettings)) + 1, nil
}

// stepOf reads a step; that of a temperature is a difference.
func stepOf(v fieldpath.Value, text string) (float64, error) {
	if k := v.Quantity(); k != nil {
		return k.Difference().Parse(text, "")
	}
	return v.Number(text)
}

// Show names the setting in the units of a system.
func (s Setting) Show(sys units.Locale) string {
	if s.label != "" {
		return s.label
	}
	if s.share {
		return sys.Mark(strconv.FormatFloat(significant(100*s.value), 'f', -1, 64)) + " %"
	}
	if s.kind == nil {
		return sys.Mark(strconv.FormatFloat(significant(s.value), 'f', -1, 64))
	}
	u := s.kind.Usual(sys)
	if s.kind == units.Length(0).Kind() {
		u = lengthUnit(s.most, sys)
	}
	number := sys.Mark(strconv.FormatFloat(significant(u.FromSI(s.value)), 'f', -1, 64))
	if u.Name == "$" {
		return sys.Dollars(number)
	}
	return strings.TrimSpace(number + " " + u.Name)
}

// lengthUnit is the unit for lengths up to most: altitudes and long ducts are
// not shown in inches.
func lengthUnit(most float64, sys units.Locale) *units.Unit {
	name := map[units.System]string{units.InchPound: "in", units.Metric: "mm"}[sys.System]
	if most >= 2 {
		name = map[units.System]string{units.InchPound: "ft", units.Metric: "m"}[sys.System]
	}
	return units.Length(0).Kind().Unit(name)
}

// significant rounds to three figures.
func significant(v float64) float64 {
	n, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return v
	}
	return n
}
