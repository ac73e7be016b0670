package export

import (
	"fmt"
	"io"
	"strings"

	"returnbench/sizing"
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
	p, s := &printer{w: w}, d.study()
	recommendation(p, s, sys)
	question(p, s, sys)
	answer(p, s, sys)
	options(p, s, sys)
	if d.Ranges != nil {
		knownRanges(p, d.Ranges, sys)
	}
	house(p, s.Today(), sys)
	ducts(p, s, sys)
	asFound(p, s, sys)
	readings(p, s, sys)
	works(p, s, sys)
	findings(p, s, sys)
	assumptions(p, s, sys)
	p.title("Before any work")
	for _, c := range Cautions() {
		p.wrapped("%s", c)
	}
	return p.err
}

// recommendation leads: what is wrong and what to do, and why that.
func recommendation(p *printer, s *sizing.Study, sys units.Locale) {
	if s.Name != "" {
		p.line("%s", s.Name)
	}
	r := s.Recommendation
	p.wrapped("%s", r.Next.In(sys))
	for _, f := range append([]sizing.Finding{r.Why}, r.Notes...) {
		if f.In(sys) != r.Next.In(sys) {
			p.wrapped("%s", f.In(sys))
		}
	}
	p.line("")
}

func question(p *printer, s *sizing.Study, sys units.Locale) {
	p.line("Design airflow %s (%s) at %s of face velocity wants %s of filter face.",
		s.DesignAirflow.Show(sys), s.AirflowPerCapacity.Show(sys), s.TargetFaceVelocity.Show(sys), s.NeededFace.Show(sys))
	p.line("Air: %s, density %s, %.3f of the air of blower tables.",
		s.Air.Temperature.Show(sys), s.Air.Density.Show(sys), s.Air.DensityRatio)
}

func answer(p *printer, s *sizing.Study, sys units.Locale) {
	p.title("Smallest nominal sizes that fit the limits")
	if words := s.Answer.In(sys); words != "" {
		p.wrapped("%s", words)
	}
	for _, a := range []struct {
		place string
		size  *sizing.Size
	}{{"return grille", s.Answer.Grille}, {"filter slot", s.Answer.Slot}, {"deeper cabinet", s.Answer.Cabinet}} {
		if a.size == nil {
			p.line("  %-15s none goes into the room there is", a.place)
			continue
		}
		p.line("  %-15s %-14s face %s, %s, filter drop %s", a.place, a.size.Label,
			a.size.FaceArea.Show(sys), a.size.FaceVelocity.Show(sys), a.size.FilterDrop.Show(sys))
		if !a.size.Meets {
			p.wrapped("none fits every limit; the nearest misses: %s", a.size.Missed(sys))
		}
		if with, err := s.With(*a.size); err == nil {
			p.wrapped("with it: %s: %s", with.Verdict, why(with, sys))
		}
	}
}

func options(p *printer, s *sizing.Study, sys units.Locale) {
	p.title("Where the blower runs (rated external static " + s.RatedExternalStatic.Show(sys) + ")")
	p.table(table[optionRow]{optionBrief, optionRows(s), sys}.text)
	worst := 0.0
	for _, r := range optionRows(s) {
		worst = max(worst, r.at.Residual, -r.at.Residual)
	}
	p.line("  blower and system agree to %.1e of the static at every point", worst)
	for i := range s.Options {
		if o := &s.Options[i]; len(o.Why) > 0 {
			p.wrapped("%s: %s: %s", o.Name, o.Verdict, why(o, sys))
			if o.Kind == sizing.KindOption {
				p.wrapped("  against today: %s", o.Versus.In(sys))
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
	p.table(table[*sizing.OptionResult]{moneyBrief, rows, sys}.text)
}

// why is the verdict's sentence.
func why(o *sizing.OptionResult, sys units.Locale) string { return o.Why.In(sys) }

// house writes today's parts, ports and branches, with a clean filter.
func house(p *printer, o *sizing.OptionResult, sys units.Locale) {
	c := &o.Clean
	p.title(fmt.Sprintf("Today, clean filter: parts of the external static %s", c.ExternalStatic.Show(sys)))
	p.table(table[sizing.PartDrop]{[]column[sizing.PartDrop]{
		{"part", func(d sizing.PartDrop) any { return d.Name }},
		{"drop", func(d sizing.PartDrop) any { return d.Drop }},
		{"of the rated", func(d sizing.PartDrop) any { return percent(d.Share) }},
		{"known from", func(d sizing.PartDrop) any { return d.Basis }},
		{"", func(d sizing.PartDrop) any {
			if d.Internal {
				return "inside the rated static"
			}
			return ""
		}},
	}, c.Parts, sys}.text)
	p.title("Static at the test ports")
	p.table(table[sizing.Port]{[]column[sizing.Port]{
		{"port", func(q sizing.Port) any { return q.Name }},
		{"static", func(q sizing.Port) any { return q.Static }},
	}, c.Ports, sys}.text)
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
	}, c.Branches, sys}.text)
}

func ducts(p *printer, s *sizing.Study, sys units.Locale) {
	if len(s.Ducts) == 0 {
		return
	}
	p.title("Suggested return ducts")
	p.table(table[sizing.DuctSize]{[]column[sizing.DuctSize]{
		{"branch", func(d sizing.DuctSize) any { return d.Branch }},
		{"airflow", func(d sizing.DuctSize) any { return d.Airflow }},
		{"round", func(d sizing.DuctSize) any { return d.Round.Diameter }},
		{"its drop", func(d sizing.DuctSize) any { return d.Round.Drop }},
		{"limited by", func(d sizing.DuctSize) any { return d.Round.Bound }},
		{"flex", func(d sizing.DuctSize) any { return d.Flex.Diameter }},
		{"its drop", func(d sizing.DuctSize) any { return d.Flex.Drop }},
		{"rectangular width", func(d sizing.DuctSize) any { return d.Rect.Width }},
		{"height", func(d sizing.DuctSize) any { return d.Rect.Height }},
		{"its drop", func(d sizing.DuctSize) any { return d.Rect.Drop }},
		{"velocity now", func(d sizing.DuctSize) any { return d.Now }},
		{"friction now", func(d sizing.DuctSize) any { return d.NowFriction }},
		{"drop now", func(d sizing.DuctSize) any { return d.NowDrop }},
		{"equivalent length", func(d sizing.DuctSize) any { return d.EquivalentLength.Show(sys) }},
		{"", func(d sizing.DuctSize) any {
			if d.Undersized {
				return "too small today"
			}
			return ""
		}},
	}, s.Ducts, sys}.text)
}

func readings(p *printer, s *sizing.Study, sys units.Locale) {
	for _, r := range s.Readings {
		p.title(strings.TrimSpace("Gauge: " + r.Label))
		p.line("  airflow %s by the %s, external static %s", r.Airflow.Show(sys), r.AirflowBasis, r.ExternalStatic.Show(sys))
		p.table(table[sizing.ReadingRow]{[]column[sizing.ReadingRow]{
			{"port", func(q sizing.ReadingRow) any { return q.Name }},
			{"measured", func(q sizing.ReadingRow) any { return q.Measured }},
			{"predicted", func(q sizing.ReadingRow) any { return q.Predicted }},
		}, r.Rows, sys}.text)
		for _, m := range r.Others {
			p.line("  %s %s, predicted %s", m.Name, m.Measured.Kind().Show(m.Measured.SI(), sys), m.Predicted.Kind().Show(m.Predicted.SI(), sys))
		}
	}
}

// asFound writes the house as found by the gauge.
func asFound(p *printer, s *sizing.Study, sys units.Locale) {
	f := s.AsFound
	if f == nil {
		return
	}
	c := &f.Condition
	p.title(strings.TrimSpace("As found, " + f.Label))
	p.line("  airflow %s by the %s, external static %s, filter drop %s", c.Airflow.Show(sys), f.AirflowBasis, c.ExternalStatic.Show(sys), c.FilterDrop.Show(sys))
	if f.CleanDrop > 0 {
		p.line("  of the filter's drop %s is the clean filter and %s is dust", f.CleanDrop.Show(sys), f.DustDrop.Show(sys))
	}
	if f.Unexplained > 0 {
		p.wrapped("%s of the return is not explained by what is described; it stays in today and in every option as a loss of its own", f.Unexplained.Show(sys))
	}
}

// works sets each round after the work beside prediction and the house before.
func works(p *printer, s *sizing.Study, sys units.Locale) {
	for _, w := range s.Works {
		before := "before (worked out)"
		if w.BeforeRead {
			before = "before (as found)"
		}
		p.title("After the work: " + w.Option)
		p.table(table[sizing.WorkRow]{[]column[sizing.WorkRow]{
			{"what", func(r sizing.WorkRow) any { return r.Name }},
			{before, func(r sizing.WorkRow) any { return withUnit(r.Before, sys) }},
			{"predicted", func(r sizing.WorkRow) any { return withUnit(r.Predicted, sys) }},
			{"after", func(r sizing.WorkRow) any { return withUnit(r.After, sys) }},
		}, w.Rows, sys}.text)
	}
}

// withUnit is a quantity with its unit; a dash where there is none.
func withUnit(q units.Quantity, sys units.Locale) string {
	if q == nil {
		return "-"
	}
	return q.Kind().Show(q.SI(), sys)
}

func findings(p *printer, s *sizing.Study, sys units.Locale) {
	p.title("Findings")
	for _, f := range s.Findings {
		about := ""
		if f.Option != "" {
			about = f.Option + ": "
		}
		p.wrapped("%s: %s%s [%s; %s]", f.Severity, about, f.In(sys), f.Code, f.Source)
	}
	if len(s.Findings) == 0 {
		p.line("  none")
	}
}

func assumptions(p *printer, s *sizing.Study, sys units.Locale) {
	p.title(fmt.Sprintf("Assumed, because nobody typed or measured it (%.0f %% of today's external static rests on this)", 100*s.AssumedShare))
	for _, a := range s.Assumptions {
		p.wrapped("%s: %s [%s]", a.Path, a.In(sys), a.Source)
	}
	if len(s.Assumptions) == 0 {
		p.line("  nothing")
	}
}
