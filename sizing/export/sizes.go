package export

import (
	"io"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

type sizeRow = sizing.Size

var sizeBrief = []column[sizeRow]{
	{"place", func(z sizeRow) any { return z.Place }},
	{"size", func(z sizeRow) any { return z.Label }},
	{"face area", func(z sizeRow) any { return z.FaceArea }},
	{"face velocity", func(z sizeRow) any { return z.FaceVelocity }},
	{"filter drop", func(z sizeRow) any { return z.FilterDrop }},
	{"ext. static", func(z sizeRow) any { return z.ExternalStatic }},
	{"airflow", func(z sizeRow) any { return z.Airflow }},
	{"blower", func(z sizeRow) any { return z.BlowerPower }},
	{"limits", func(z sizeRow) any {
		if z.Meets {
			return "meets all"
		}
		return "misses"
	}},
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
	{"meets", func(z sizeRow) any { return z.Meets }},
	{"front", func(z sizeRow) any { return z.Front }},
}

// Sizes writes the ranked sizes for a terminal: those that meet the limits, then
// as many of the near misses as asked for, each with what it misses.
func Sizes(w io.Writer, s *sizing.Study, sys units.System, misses int) error {
	meets, near := split(s.Sizes)
	p := &printer{w: w}
	if len(meets) == 0 {
		p.line("No nominal size meets every limit of the job.")
	} else {
		p.line("Sizes that meet every limit of the job, best first:")
		p.table(table[sizeRow]{sizeBrief, meets, sys}.text)
	}
	if near = near[:min(len(near), misses)]; len(near) > 0 {
		p.line("")
		p.line("Nearest of the others:")
		p.table(table[sizeRow]{sizeBrief[:len(sizeBrief)-1], near, sys}.text)
		for _, z := range near {
			p.wrapped("%s %s misses: %s", z.Place, z.Label, missed(z, sys))
		}
	}
	return p.err
}

func split(all []sizing.Size) (meets, near []sizing.Size) {
	for _, z := range all {
		if z.Meets {
			meets = append(meets, z)
		} else {
			near = append(near, z)
		}
	}
	return meets, near
}

func missed(z sizing.Size, sys units.System) string {
	out := make([]string, len(z.Misses))
	for i, f := range z.Misses {
		out[i] = f.In(sys)
	}
	return strings.Join(out, "; ")
}
