package export

import (
	"io"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// sizeRow is a size and the result of the house with it.
type sizeRow struct {
	sizing.Size
	with *sizing.OptionResult
}

func (z sizeRow) verdict() any {
	if z.with == nil {
		return ""
	}
	return z.with.Verdict
}

func sizeRows(s *sizing.Study) ([]sizeRow, error) {
	out := make([]sizeRow, len(s.Sizes))
	for i, z := range s.Sizes {
		with, err := s.With(z)
		if err != nil {
			return nil, err
		}
		out[i] = sizeRow{z, with}
	}
	return out, nil
}

var sizeBrief = []column[sizeRow]{
	{"place", func(z sizeRow) any { return z.Place }},
	{"size", func(z sizeRow) any { return z.Label }},
	{"face area", func(z sizeRow) any { return z.FaceArea }},
	{"face velocity", func(z sizeRow) any { return z.FaceVelocity }},
	{"filter drop", func(z sizeRow) any { return z.FilterDrop }},
	{"ext. static", func(z sizeRow) any { return z.ExternalStatic }},
	{"airflow", func(z sizeRow) any { return z.Airflow }},
	{"blower", func(z sizeRow) any { return z.BlowerPower }},
	{"verdict", func(z sizeRow) any { return z.verdict() }},
}

var sizeFull = []column[sizeRow]{
	{"place", func(z sizeRow) any { return z.Place }},
	{"count", func(z sizeRow) any { return z.Count }},
	{"size", func(z sizeRow) any { return z.Label }},
	{"filter", func(z sizeRow) any { return z.Filter }},
	{"width", func(z sizeRow) any { return z.Width }},
	{"height", func(z sizeRow) any { return z.Height }},
	{"depth", func(z sizeRow) any { return z.Depth }},
	{"face area", func(z sizeRow) any { return z.FaceArea }},
	{"media area", func(z sizeRow) any { return z.MediaArea }},
	{"design face velocity", func(z sizeRow) any { return z.DesignFaceVelocity }},
	{"airflow", func(z sizeRow) any { return z.Airflow }},
	{"face velocity", func(z sizeRow) any { return z.FaceVelocity }},
	{"filter drop", func(z sizeRow) any { return z.FilterDrop }},
	{"external static", func(z sizeRow) any { return z.ExternalStatic }},
	{"blower power", func(z sizeRow) any { return z.BlowerPower }},
	{"meets", func(z sizeRow) any { return z.MeetsAll }},
	{"front", func(z sizeRow) any { return z.ParetoOptimal }},
	{"verdict", func(z sizeRow) any { return z.verdict() }},
}

// Sizes writes the ranked sizes for a terminal: those that fit the limits, then
// as many of the near misses as asked for, each with the limits it misses.
// Beside each is the verdict on the house with that size.
func Sizes(w io.Writer, s *sizing.Study, sys units.Locale, misses int) error {
	all, err := sizeRows(s)
	if err != nil {
		return err
	}
	fit, near := split(all)
	p := &printer{w: w, l: sys}
	if len(fit) == 0 {
		p.paragraph(s.SuggestedSizes.In(sys))
	} else {
		p.say("Sizes that fit every limit of the job, best first, and the verdict of the house with each in:")
		p.table(table[sizeRow]{sizeBrief, fit, sys}.text)
	}
	if near = near[:min(len(near), misses)]; len(near) > 0 {
		p.line("")
		p.say("Nearest of the others:")
		p.table(table[sizeRow]{sizeBrief, near, sys}.text)
		for _, z := range near {
			p.wrapped("{place} {size} misses: {limits}", "place", z.Place, "size", z.Label, "limits", z.Missed(sys))
		}
	}
	return p.err
}

func split(all []sizeRow) (fit, near []sizeRow) {
	for _, z := range all {
		if z.MeetsAll {
			fit = append(fit, z)
		} else {
			near = append(near, z)
		}
	}
	return fit, near
}
