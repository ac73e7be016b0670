package export

import (
	"fmt"
	"io"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Summary writes a study in words: the question and its answer first, then what
// each option does, today's house in detail, the findings, what was assumed and
// the cautions.
func Summary(w io.Writer, s *sizing.Study, sys units.Locale) error {
	return Document{Study: s}.Summary(w, sys)
}

// Summary writes the ranges after the options where there are any.
func (d Document) Summary(w io.Writer, sys units.Locale) error {
	p, s := &printer{w: w, l: sys}, d.study()
	recommendation(p, s)
	question(p, s)
	answer(p, s)
	options(p, s)
	if d.Ranges != nil {
		knownRanges(p, d.Ranges)
	}
	house(p, s.Today())
	ducts(p, s)
	asFound(p, s)
	readings(p, s)
	works(p, s)
	findings(p, s)
	assumptions(p, s)
	p.title("Before any work")
	for _, c := range Cautions() {
		p.wrapped(c)
	}
	return p.err
}

// recommendation comes first: what is wrong, what to do, and the reason.
func recommendation(p *printer, s *sizing.Study) {
	if s.Name != "" {
		p.line(s.Name)
	}
	r := s.Recommendation
	next := r.Next.In(p.l)
	p.paragraph(next)
	for _, f := range append([]sizing.Finding{r.Why}, r.Notes...) {
		if text := f.In(p.l); text != next {
			p.paragraph(text)
		}
	}
	p.line("")
}

func question(p *printer, s *sizing.Study) {
	p.say("Design airflow {airflow} ({per_capacity}) at {velocity} of face velocity needs {face} of filter face.",
		"airflow", s.DesignAirflow, "per_capacity", s.AirflowPerCapacity, "velocity", s.TargetFaceVelocity, "face", s.NeededFace)
	p.say("Air: {temperature}, density {density}, {ratio} of the air of blower tables.",
		"temperature", s.Air.Temperature, "density", s.Air.Density, "ratio", message.Fixed(s.Air.DensityRatio, 3))
}

func answer(p *printer, s *sizing.Study) {
	p.title("Smallest nominal sizes that fit the limits")
	if words := s.SuggestedSizes.In(p.l); words != "" {
		p.paragraph(words)
	}
	for _, a := range []struct {
		place message.ID
		size  *sizing.Size
	}{{"return grille", s.SuggestedSizes.Grille}, {"filter slot", s.SuggestedSizes.Slot}, {"deeper cabinet", s.SuggestedSizes.Cabinet}} {
		place := padded(message.Text(p.l, a.place), 15)
		if a.size == nil {
			p.note("{place} none goes into the room there is", "place", place)
			continue
		}
		p.note("{place} {size} face {area}, {velocity}, filter drop {drop}", "place", place, "size", padded(a.size.Label, 14),
			"area", a.size.FaceArea, "velocity", a.size.FaceVelocity, "drop", a.size.FilterDrop)
		if !a.size.MeetsAll {
			p.wrapped("none fits every limit; the nearest misses: {limits}", "limits", a.size.Missed(p.l))
		}
		if with, err := s.With(*a.size); err == nil {
			p.wrapped("with it: {verdict}: {why}", "verdict", with.Verdict, "why", with.Why)
		}
	}
}

func options(p *printer, s *sizing.Study) {
	p.title("Where the blower runs (rated external static {static})", "static", s.RatedExternalStatic)
	p.table(table[optionRow]{optionBrief, optionRows(s), p.l}.text)
	worst := 0.0
	for _, r := range optionRows(s) {
		worst = max(worst, r.at.Residual, -r.at.Residual)
	}
	p.note("blower and system agree to {share} of the static at every point", "share", p.l.Mark(fmt.Sprintf("%.1e", worst)))
	for i := range s.Options {
		if o := &s.Options[i]; len(o.Why) > 0 {
			p.wrapped("{option}: {verdict}: {why}", "option", named{o}, "verdict", o.Verdict, "why", o.Why)
			if o.Kind == sizing.KindOption {
				p.wrapped("against today: {finding}", "finding", o.Versus)
			}
		}
	}
	p.title("What each filter does and costs")
	var rows []*sizing.OptionResult
	for i := range s.Options {
		if s.Options[i].Kind != sizing.KindNoFilter {
			rows = append(rows, &s.Options[i])
		}
	}
	p.table(table[*sizing.OptionResult]{moneyBrief, rows, p.l}.text)
}

// padded fills a text up with blanks to a width in letters.
func padded(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-len([]rune(text))))
}

// optionName is the name of the option that a finding is about.
func optionName(s *sizing.Study, of string, l units.Locale) string {
	if o := s.Option(of); o != nil {
		return name(o, l)
	}
	return of
}

// house writes today's parts, ports and branches, with a clean filter.
func house(p *printer, o *sizing.OptionResult) {
	c := &o.Clean
	p.title("Today, clean filter: parts of the external static {static}", "static", c.ExternalStatic)
	p.table(table[sizing.PartDrop]{[]column[sizing.PartDrop]{
		{"part", func(d sizing.PartDrop) any { return d.Name }},
		{"drop", func(d sizing.PartDrop) any { return d.Drop }},
		{"of the rated", func(d sizing.PartDrop) any { return percent(d.Share) }},
		{"known from", func(d sizing.PartDrop) any { return d.Basis }},
		{"", func(d sizing.PartDrop) any {
			if d.Internal {
				return message.ID("inside the rated static")
			}
			return ""
		}},
	}, c.Parts, p.l}.text)
	p.title("Static at the test ports")
	p.table(table[sizing.Port]{[]column[sizing.Port]{
		{"port", func(q sizing.Port) any { return q.Name }},
		{"static", func(q sizing.Port) any { return q.Static }},
	}, c.Ports, p.l}.text)
	if len(c.Branches) == 0 {
		return
	}
	p.title("Return branches")
	p.table(table[sizing.BranchFlow]{[]column[sizing.BranchFlow]{
		{"branch", func(b sizing.BranchFlow) any { return b.Name }},
		{"airflow", func(b sizing.BranchFlow) any { return b.Airflow }},
		{"drop", func(b sizing.BranchFlow) any { return b.Drop }},
		{"grille", func(b sizing.BranchFlow) any { return b.GrilleDrop }},
		{"filter", func(b sizing.BranchFlow) any { return b.FilterDrop }},
		{"duct", func(b sizing.BranchFlow) any { return b.DuctDrop }},
		{"grille face", func(b sizing.BranchFlow) any { return b.FaceVelocity }},
		{"duct velocity", func(b sizing.BranchFlow) any { return b.DuctVelocity }},
	}, c.Branches, p.l}.text)
}

// bounds name the limit that decides the size of a duct.
var bounds = map[string]message.ID{sizing.ByVelocity: "velocity", sizing.ByFriction: "friction"}

func ducts(p *printer, s *sizing.Study) {
	if len(s.Ducts) == 0 {
		return
	}
	p.title("Suggested return ducts")
	p.table(table[sizing.DuctSize]{[]column[sizing.DuctSize]{
		{"branch", func(d sizing.DuctSize) any { return d.Branch }},
		{"airflow", func(d sizing.DuctSize) any { return d.Airflow }},
		{"round", func(d sizing.DuctSize) any { return d.Round.Diameter }},
		{"its drop", func(d sizing.DuctSize) any { return d.Round.Drop }},
		{"limited by", func(d sizing.DuctSize) any { return bounds[d.Round.GoverningLimit] }},
		{"flex", func(d sizing.DuctSize) any { return d.Flex.Diameter }},
		{"its drop", func(d sizing.DuctSize) any { return d.Flex.Drop }},
		{"rectangular width", func(d sizing.DuctSize) any { return d.Rect.Width }},
		{"height", func(d sizing.DuctSize) any { return d.Rect.Height }},
		{"its drop", func(d sizing.DuctSize) any { return d.Rect.Drop }},
		{"velocity now", func(d sizing.DuctSize) any { return d.PresentVelocity }},
		{"friction now", func(d sizing.DuctSize) any { return d.PresentFriction }},
		{"drop now", func(d sizing.DuctSize) any { return d.PresentDrop }},
		{"equivalent length", func(d sizing.DuctSize) any { return d.EquivalentLength.Show(p.l) }},
		{"", func(d sizing.DuctSize) any {
			if d.Undersized {
				return message.ID("too small today")
			}
			return ""
		}},
	}, s.Ducts, p.l}.text)
}

// gaugeWords and foundWords describe what a round of the gauge found, by the basis of
// its airflow.
var (
	gaugeWords = map[message.ID]message.ID{
		"measured":         "airflow {airflow} by the measured, external static {static}",
		"blower table":     "airflow {airflow} by the blower table, external static {static}",
		"temperature rise": "airflow {airflow} by the temperature rise, external static {static}",
	}
	foundWords = map[message.ID]message.ID{
		"measured":         "airflow {airflow} by the measured, external static {static}, filter drop {drop}",
		"blower table":     "airflow {airflow} by the blower table, external static {static}, filter drop {drop}",
		"temperature rise": "airflow {airflow} by the temperature rise, external static {static}, filter drop {drop}",
	}
)

func readings(p *printer, s *sizing.Study) {
	for _, r := range s.Readings {
		if r.Label == "" {
			p.title("Gauge:")
		} else {
			p.title("Gauge: {reading}", "reading", r.Label)
		}
		p.note(gaugeWords[r.AirflowBasis], "airflow", r.Airflow, "static", r.ExternalStatic)
		p.table(table[sizing.ReadingRow]{[]column[sizing.ReadingRow]{
			{"port", func(q sizing.ReadingRow) any { return q.Name }},
			{"measured", func(q sizing.ReadingRow) any { return workedOut(q.Measured, q.WorkedOut) }},
			{"predicted", func(q sizing.ReadingRow) any { return q.Predicted }},
		}, r.Rows, p.l}.text)
		for _, m := range r.OtherQuantities {
			p.note("{name} {measured}, predicted {predicted}", "name", m.Name, "measured", m.Measured, "predicted", m.Predicted)
		}
	}
}

// asFound writes the house as found by the gauge.
func asFound(p *printer, s *sizing.Study) {
	f := s.AsFound
	if f == nil {
		return
	}
	c := &f.Condition
	if f.Label == "" {
		p.title("As found,")
	} else {
		p.title("As found, {reading}", "reading", f.Label)
	}
	p.note(foundWords[f.AirflowBasis], "airflow", c.Airflow, "static", c.ExternalStatic, "drop", c.FilterDrop)
	if f.CleanDrop > 0 {
		p.note("of the filter's drop {clean} is the clean filter and {dust} is dust", "clean", f.CleanDrop, "dust", f.DustDrop)
	}
	if f.Unexplained > 0 {
		p.wrapped("{drop} of the return is not explained by what is described; it stays in today and in every option as a loss of its own", "drop", f.Unexplained)
	}
}

// works sets each round after the work beside prediction and the house before.
func works(p *printer, s *sizing.Study) {
	for _, w := range s.AfterWorkComparisons {
		before := message.ID("before (worked out)")
		if w.BeforeMeasured {
			before = "before (as found)"
		}
		p.title("After the work: {option}", "option", w.Option)
		p.table(table[sizing.AfterWorkRow]{[]column[sizing.AfterWorkRow]{
			{"what", func(r sizing.AfterWorkRow) any { return r.Name }},
			{before, func(r sizing.AfterWorkRow) any { return workedOut(withUnit(r.Before), r.BeforeWorkedOut) }},
			{"predicted", func(r sizing.AfterWorkRow) any { return withUnit(r.Predicted) }},
			{"after", func(r sizing.AfterWorkRow) any { return workedOut(withUnit(r.After), r.AfterWorkedOut) }},
		}, w.Rows, p.l}.text)
	}
}

// workedOut marks a number that was not read though those round it were.
func workedOut(number any, is bool) any {
	if !is {
		return number
	}
	return message.New("{number}, worked out", "number", number)
}

// withUnit is a quantity with its unit; a dash where there is none.
func withUnit(q units.Quantity) any {
	if q == nil {
		return "-"
	}
	return message.List{q}
}

func findings(p *printer, s *sizing.Study) {
	p.title("Findings")
	for _, f := range s.Findings {
		id := message.ID("{severity}: {finding} [{code}; {source}]")
		if f.Option != "" {
			id = "{severity}: {option}: {finding} [{code}; {source}]"
		}
		p.wrapped(id, "severity", f.Severity, "option", optionName(s, f.Option, p.l), "finding", f, "code", f.Code, "source", f.Source)
	}
	if len(s.Findings) == 0 {
		p.note("none")
	}
}

func assumptions(p *printer, s *sizing.Study) {
	p.title("Assumed, because nobody typed or measured it ({share} % of today's external static is based on this)", "share", message.Fixed(100*s.AssumedShare, 0))
	for _, a := range s.Assumptions {
		p.wrapped("{field}: {assumption} [{source}]", "field", a.Path, "assumption", a, "source", a.Source)
	}
	if len(s.Assumptions) == 0 {
		p.note("nothing")
	}
}
