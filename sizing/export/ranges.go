package export

import (
	"fmt"
	"io"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Ranges are how well the numbers of a Study are known.
type Ranges struct {
	Samples  int                  `json:"samples"`
	Seed     uint64               `json:"seed"`
	Share    float64              `json:"share"` // of the samples that lie within a range
	Options  []sizing.OptionRange `json:"options"`
	Findings []sizing.Finding     `json:"findings"`
}

// NewRanges joins what sampling gave with what it may be said to mean.
func NewRanges(options []sizing.OptionRange, samples int, seed uint64) *Ranges {
	return &Ranges{samples, seed, sizing.RangeShare, options, sizing.RangeFindings(options)}
}

// basis says what the ranges are.
func (r *Ranges) basis() string {
	text := fmt.Sprintf("%.0f %% of %d samples (seed %d), each with what was typed, read and assumed moved within its uncertainty, lie within these ranges; the filter is clean where nothing else is said",
		100*r.Share, r.Samples, r.Seed)
	if note := sizing.UnsolvedNote(r.Options); !note.Empty() {
		text += ". " + note.String()
	}
	return text
}

// Document is a Study with what was worked out beside it.
type Document struct {
	Study  *sizing.Study
	Ranges *Ranges // nil: not worked out, and left out
}

// study is the Study, its claims held to the samples where there are any.
func (d Document) study() *sizing.Study {
	if d.Ranges == nil {
		return d.Study
	}
	return sizing.WithRanges(d.Study, d.Ranges.Options)
}

// CSV is that of the Study and, after another empty line, the ranges.
func (d Document) CSV(w io.Writer, sys units.Locale) error {
	if err := CSV(w, d.Study, sys); err != nil || d.Ranges == nil {
		return err
	}
	if _, err := io.WriteString(w, "\n"); err != nil {
		return err
	}
	return flushed(w, table[sizing.OptionRange]{rangeFull, d.Ranges.Options, sys}.csv)
}

// ends are the two columns of a range.
func ends[T units.Quantity](name string, low, high func(sizing.OptionRange) T) []column[sizing.OptionRange] {
	return []column[sizing.OptionRange]{
		{name + " from", func(r sizing.OptionRange) any { return low(r) }},
		{name + " to", func(r sizing.OptionRange) any { return high(r) }},
	}
}

// rangeFull holds every number of the ranges.
var rangeFull = func() []column[sizing.OptionRange] {
	type option = sizing.OptionRange
	out := []column[option]{{"option", func(r option) any { return r.Name }}}
	out = append(out, ends("airflow", func(r option) units.Flow { return r.Airflow.Low }, func(r option) units.Flow { return r.Airflow.High })...)
	out = append(out, ends("loaded airflow", func(r option) units.Flow { return r.LoadedAirflow.Low }, func(r option) units.Flow { return r.LoadedAirflow.High })...)
	out = append(out, ends("external static", func(r option) units.Pressure { return r.ExternalStatic.Low }, func(r option) units.Pressure { return r.ExternalStatic.High })...)
	out = append(out, ends("filter drop", func(r option) units.Pressure { return r.FilterDrop.Low }, func(r option) units.Pressure { return r.FilterDrop.High })...)
	out = append(out, ends("blower power", func(r option) units.Power { return r.BlowerPower.Low }, func(r option) units.Power { return r.BlowerPower.High })...)
	out = append(out, ends("temperature rise", func(r option) units.TemperatureDifference { return r.TemperatureRise.Low }, func(r option) units.TemperatureDifference { return r.TemperatureRise.High })...)
	out = append(out, ends("life", func(r option) units.Duration { return r.Life.Low }, func(r option) units.Duration { return r.Life.High })...)
	out = append(out, ends("annual cost", func(r option) units.Money { return r.AnnualCost.Low }, func(r option) units.Money { return r.AnnualCost.High })...)
	out = append(out, ends("airflow over today", func(r option) units.Flow { return r.AirflowGain.Low }, func(r option) units.Flow { return r.AirflowGain.High })...)
	out = append(out, ends("power under today", func(r option) units.Power { return r.PowerSaved.Low }, func(r option) units.Power { return r.PowerSaved.High })...)
	out = append(out, ends("annual cost under today", func(r option) units.Money { return r.AnnualSaved.Low }, func(r option) units.Money { return r.AnnualSaved.High })...)
	for _, c := range []struct {
		name string
		of   func(option) sizing.Agreement
	}{
		{"airflow", func(r option) sizing.Agreement { return r.MoreAir }},
		{"watts", func(r option) sizing.Agreement { return r.FewerWatts }},
		{"filter drop", func(r option) sizing.Agreement { return r.LessFilter }},
		{"annual cost", func(r option) sizing.Agreement { return r.CheaperAYear }},
	} {
		out = append(out, column[option]{c.name + " against today", func(r option) any { return against(r, c.of(r)) }})
	}
	return append(out, column[option]{"airflow and watts against today", func(r option) any { return r.AgainstToday }})
}()

// against is what may be said of a number beside today's; today itself and the
// house with no filter are held against nothing.
func against(r sizing.OptionRange, a sizing.Agreement) sizing.Standing {
	if r.Kind != sizing.KindOption {
		return ""
	}
	return a.Standing()
}

// span is a range as words in the usual unit.
func span(low, high units.Quantity, sys units.Locale) string {
	a, b := low.Kind().Number(low.SI(), sys), high.Kind().Number(high.SI(), sys)
	if a == b {
		return a
	}
	return a + " to " + b
}

// rangeBrief is what the summary shows, the unit in the heading.
func rangeBrief(sys units.Locale) []column[sizing.OptionRange] {
	type option = sizing.OptionRange
	of := func(name string, ends func(option) (low, high units.Quantity)) column[option] {
		low, _ := ends(option{})
		return column[option]{name + ", " + low.Kind().Usual(sys).Name, func(r option) any {
			low, high := ends(r)
			return span(low, high, sys)
		}}
	}
	return []column[option]{
		{"option", func(r option) any { return r.Name }},
		of("airflow", func(r option) (low, high units.Quantity) { return r.Airflow.Low, r.Airflow.High }),
		of("loaded", func(r option) (low, high units.Quantity) { return r.LoadedAirflow.Low, r.LoadedAirflow.High }),
		of("ext. static", func(r option) (low, high units.Quantity) { return r.ExternalStatic.Low, r.ExternalStatic.High }),
		of("filter drop", func(r option) (low, high units.Quantity) { return r.FilterDrop.Low, r.FilterDrop.High }),
		of("blower", func(r option) (low, high units.Quantity) { return r.BlowerPower.Low, r.BlowerPower.High }),
		of("heat rise", func(r option) (low, high units.Quantity) { return r.TemperatureRise.Low, r.TemperatureRise.High }),
		of("a year", func(r option) (low, high units.Quantity) { return r.AnnualCost.Low, r.AnnualCost.High }),
		{"air, watts", func(r option) any { return r.AgainstToday }},
	}
}

func knownRanges(p *printer, r *Ranges, sys units.Locale) {
	p.title("How well that is known")
	p.wrapped("%s", r.basis())
	p.table(table[sizing.OptionRange]{rangeBrief(sys), r.Options, sys}.text)
	for _, f := range r.Findings {
		p.wrapped("%s: %s", f.Severity, f.In(sys))
	}
}
