package fields

import (
	"strconv"

	"returnbench/gui/lang"
	"returnbench/gui/parse"
)

// PercentOptions describe a Percent field.
type PercentOptions struct {
	Label string
	Tip   string         // on a term that the label names; empty: it names none
	Get   func() float64 // 0 to 1; zero is left open, NaN where zero is a value
	Set   func(float64)
	Hint  string
	Max   float64 // left at zero: 1

	AllowZero bool // zero is a value
}

// Percent is a field for a share of one, typed and shown in percent.
type Percent struct{ typedText }

// NewPercent makes the field.
func NewPercent(opts PercentOptions) *Percent {
	if opts.Max == 0 {
		opts.Max = 1
	}
	s := &Percent{}
	s.entry = NewEntry()
	s.hint = opts.Hint
	s.state = func() string { return parse.Exact(opts.Get()) }
	s.unitNow = func() string { return "%" }
	s.show = func() string {
		if v := opts.Get(); v == v && (v != 0 || opts.AllowZero) {
			return lang.Locale().Mark(strconv.FormatFloat(v*100, 'g', 5, 64))
		}
		return ""
	}
	s.take = func(text string) (string, string) {
		v, fault := parse.Percent(lang.Locale(), text, opts.Max, opts.AllowZero)
		if fault != "" {
			return "", fault
		}
		opts.Set(v)
		return parse.Exact(v), ""
	}
	s.start(opts.Label, opts.Tip, s.entry)
	return s
}
