package export

import (
	"io"
	"strconv"

	"returnbench/sizing"
	"returnbench/sizing/message"
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

// NewRanges joins the results of sampling with the share of samples that a range
// contains, and the findings that follow from them.
func NewRanges(options []sizing.OptionRange, samples int, seed uint64) *Ranges {
	return &Ranges{samples, seed, sizing.RangeShare, options, sizing.RangeFindings(options)}
}

// basis describes the ranges.
func (r *Ranges) basis() message.Message {
	id := message.ID("{share} % of {samples} samples (seed {seed}), each with what was typed, read and assumed moved within its uncertainty, lie within these ranges; the filter is clean where nothing else is said")
	note := sizing.UnsolvedNote(r.Options)
	if !note.Empty() {
		id = "{share} % of {samples} samples (seed {seed}), each with what was typed, read and assumed moved within its uncertainty, lie within these ranges; the filter is clean where nothing else is said. {note}"
	}
	return message.New(id, "share", message.Fixed(100*r.Share, 0), "samples", r.Samples, "seed", strconv.FormatUint(r.Seed, 10), "note", note)
}

// Document is a Study with what was calculated beside it.
type Document struct {
	Study  *sizing.Study
	Ranges *Ranges // nil: not worked out, and left out
}

// study is the Study; where there are samples, with only the claims on which
// they agree.
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
	return flushed(w, table[sizing.OptionRange]{rangeFull, d.Ranges.Options, machine(sys)}.csv)
}

// rangeFull holds every number of the ranges.
var rangeFull = []column[sizing.OptionRange]{
	{"option", func(r sizing.OptionRange) any { return ranged(r) }},
	{"airflow from", func(r sizing.OptionRange) any { return r.Airflow.Low }},
	{"airflow to", func(r sizing.OptionRange) any { return r.Airflow.High }},
	{"loaded airflow from", func(r sizing.OptionRange) any { return r.LoadedAirflow.Low }},
	{"loaded airflow to", func(r sizing.OptionRange) any { return r.LoadedAirflow.High }},
	{"external static from", func(r sizing.OptionRange) any { return r.ExternalStatic.Low }},
	{"external static to", func(r sizing.OptionRange) any { return r.ExternalStatic.High }},
	{"filter drop from", func(r sizing.OptionRange) any { return r.FilterDrop.Low }},
	{"filter drop to", func(r sizing.OptionRange) any { return r.FilterDrop.High }},
	{"blower power from", func(r sizing.OptionRange) any { return r.BlowerPower.Low }},
	{"blower power to", func(r sizing.OptionRange) any { return r.BlowerPower.High }},
	{"temperature rise from", func(r sizing.OptionRange) any { return r.TemperatureRise.Low }},
	{"temperature rise to", func(r sizing.OptionRange) any { return r.TemperatureRise.High }},
	{"life from", func(r sizing.OptionRange) any { return r.Life.Low }},
	{"life to", func(r sizing.OptionRange) any { return r.Life.High }},
	{"annual cost from", func(r sizing.OptionRange) any { return r.AnnualCost.Low }},
	{"annual cost to", func(r sizing.OptionRange) any { return r.AnnualCost.High }},
	{"airflow over today from", func(r sizing.OptionRange) any { return r.AirflowGain.Low }},
	{"airflow over today to", func(r sizing.OptionRange) any { return r.AirflowGain.High }},
	{"power under today from", func(r sizing.OptionRange) any { return r.PowerSaved.Low }},
	{"power under today to", func(r sizing.OptionRange) any { return r.PowerSaved.High }},
	{"annual cost under today from", func(r sizing.OptionRange) any { return r.AnnualSaved.Low }},
	{"annual cost under today to", func(r sizing.OptionRange) any { return r.AnnualSaved.High }},
	{"airflow against today", func(r sizing.OptionRange) any { return against(r, r.MoreAir) }},
	{"watts against today", func(r sizing.OptionRange) any { return against(r, r.FewerWatts) }},
	{"filter drop against today", func(r sizing.OptionRange) any { return against(r, r.LessFilter) }},
	{"annual cost against today", func(r sizing.OptionRange) any { return against(r, r.CheaperAYear) }},
	{"airflow and watts against today", func(r sizing.OptionRange) any { return claims[r.AgainstToday] }},
}

func ranged(r sizing.OptionRange) any {
	return named{&sizing.OptionResult{Name: r.Name, Kind: r.Kind}}
}

var claims = map[sizing.Claim]message.ID{
	sizing.ClaimBetter: "better", sizing.ClaimWorse: "worse", sizing.ClaimMixed: "mixed", sizing.ClaimTooClose: "too close to tell",
}

// against is the claim about a number compared with today's; today itself and
// the house without a filter are not compared.
func against(r sizing.OptionRange, a sizing.Agreement) message.ID {
	if r.Kind != sizing.KindOption {
		return ""
	}
	return claims[a.Claim()]
}

// interval is a range in one cell.
type interval struct{ low, high units.Quantity }

// Show writes both ends, or one where they are the same as they are rounded.
func (s interval) Show(l units.Locale) string {
	a, b := s.low.Kind().Number(s.low.SI(), l), s.high.Kind().Number(s.high.SI(), l)
	if a == b {
		return a
	}
	return message.Text(l, "{low} to {high}", "low", a, "high", b)
}

// rangeBrief is what the summary shows.
var rangeBrief = []column[sizing.OptionRange]{
	{"option", func(r sizing.OptionRange) any { return ranged(r) }},
	{"airflow", func(r sizing.OptionRange) any { return interval{r.Airflow.Low, r.Airflow.High} }},
	{"loaded", func(r sizing.OptionRange) any { return interval{r.LoadedAirflow.Low, r.LoadedAirflow.High} }},
	{"ext. static", func(r sizing.OptionRange) any { return interval{r.ExternalStatic.Low, r.ExternalStatic.High} }},
	{"filter drop", func(r sizing.OptionRange) any { return interval{r.FilterDrop.Low, r.FilterDrop.High} }},
	{"blower", func(r sizing.OptionRange) any { return interval{r.BlowerPower.Low, r.BlowerPower.High} }},
	{"heat rise", func(r sizing.OptionRange) any { return interval{r.TemperatureRise.Low, r.TemperatureRise.High} }},
	{"a year", func(r sizing.OptionRange) any { return interval{r.AnnualCost.Low, r.AnnualCost.High} }},
	{"air, watts", func(r sizing.OptionRange) any { return claims[r.AgainstToday] }},
}

func knownRanges(p *printer, r *Ranges) {
	p.title("How well that is known")
	p.paragraph(r.basis().In(p.l))
	p.table(table[sizing.OptionRange]{rangeBrief, r.Options, p.l}.text)
	for _, f := range r.Findings {
		p.wrapped("{severity}: {finding}", "severity", f.Severity, "finding", f)
	}
}
