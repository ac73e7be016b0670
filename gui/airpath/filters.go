package airpath

import (
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// filters are the filters of a drawing. Those in the grilles carry a share of the air
// each, so their part of the whole is a mean over all return air.
type filters struct {
	all      sizing.PartDrop
	grilles  []units.Pressure // by branch; zero: none
	held     int              // grilles with a filter
	branches int
	atUnit   bool
	unit     units.Pressure // drop of the filter at the unit
}

// filters finds the filters of the drawing; ok is false where it has none.
func (a *Drawing) filters() (f filters, ok bool) {
	if f.all, ok = a.drop(sizing.PartFilter); !ok {
		return f, false
	}
	f.grilles, f.unit = a.option.FilterDrops(a.condition())
	for _, drop := range f.grilles {
		if drop > 0 {
			f.held++
		}
	}
	f.branches = len(f.grilles)
	f.atUnit = f.unit > 0
	return f, true
}

// isMean reports whether the drop of all filters is one that no gauge reads.
func (f *filters) isMean() bool { return f.held > 0 && (f.branches > 1 || f.atUnit) }

// costly reports whether a filter of that drop is to blame where all together take too
// much: it does so alone, or none drops more.
func (f *filters) costly(drop units.Pressure) bool {
	if !costly(f.all) {
		return false
	}
	return study.Exceeds(drop, f.all.Budget) || drop >= max(f.unit, slices.Max(append(f.grilles, 0)))
}

// filterWords are the words under the filters: what a gauge reads over one filter, and
// what all take, where they are several.
func (p *plan) filterWords(f *filters) words {
	sys, room := p.a.sys, p.filter.w-4
	number := func(d units.Pressure) string { return d.Kind().Number(d.SI(), sys) }
	var more string
	var w words
	switch {
	case f.held == 0:
		return p.partWords("filter", f.all)
	case f.atUnit:
		one := f.all
		one.Drop, one.Share = f.unit, float64(f.unit)/float64(p.a.study.RatedExternalStatic)
		w = p.partWords("unit filter", one)
		more = message.Text(sys, "all filters {drop}, mean over all return air", "drop", number(f.all.Drop))
	case f.branches == 1:
		return p.partWords("filter at grille", f.all)
	case f.held == 1:
		w = p.partWords("filter at grille", f.all)
		w.lines = []string{slices.Max(f.grilles).Show(sys)}
		more = message.Text(sys, "mean over all return air {drop}, {share} % of rated", "drop", number(f.all.Drop), "share", message.Fixed(100*f.all.Share, 0))
	default:
		w = p.partWords("filters at grilles", f.all)
		more = message.Text(sys, "mean over all return air")
	}
	w.lines = append(w.lines, p.wrap(more, room)...)
	return w
}

// wrap breaks words into lines of a width.
func (k *sketch) wrap(text string, w float32) []string {
	var out []string
	for _, word := range strings.Split(text, " ") {
		last := len(out) - 1
		if last >= 0 && k.width(out[last]+" "+word, lettering{}) <= w {
			out[last] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}
