package sizing

import (
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// Take turns a size of a Study's list into an option of the job, so that it can
// be compared with the house as it is: it appends the option and the filter it
// needs, and gives the option's name. Its price is that of the work, where known.
func (j *Job) Take(s Size) string {
	name := j.freeName(placeWord(s.Place) + " " + s.Label)
	make := j.filterFor(s)
	o := Option{Name: name, Filter: make, Price: j.Prices.ofSize(s, len(j.Returns)).whole()}
	if s.Place == InGrille && len(j.Returns) > 0 {
		o.Slot = Slot{None: true}
		o.Returns = withGrilles(j.Clone().Returns, s, make)
	} else {
		// Where no branch is described the filters stand at the end of the
		// return as it is assumed: side by side they are one face. Filters
		// behind the grilles make way for them.
		if slices.ContainsFunc(j.Returns, func(r Return) bool { return r.Filter != "" }) {
			o.Returns = j.Clone().Returns
			for i := range o.Returns {
				o.Returns[i].Filter = ""
			}
		}
		o.Slot = Slot{Width: units.Length(float64(s.Count) * float64(s.Width)), Height: s.Height, Depth: s.Depth, Filter: make}
	}
	j.Options = append(j.Options, o)
	return name
}

// sameDepth is how near two nominal depths are of one kind of filter.
const sameDepth = 0.3 * units.Inch

func placeWord(place string) string {
	switch place {
	case InGrille:
		return "filter grille"
	case InCabinet:
		return "cabinet"
	}
	return "slot"
}

// withGrilles puts a filter grille of the size at the head of each branch, and
// adds branches like the last one where the size has more openings.
func withGrilles(branches []Return, s Size, make string) []Return {
	for len(branches) < s.Count {
		last := branches[len(branches)-1]
		last.Runs, last.Fittings = slices.Clone(last.Runs), slices.Clone(last.Fittings)
		last.Name = fmt.Sprintf("return %d", len(branches)+1)
		branches = append(branches, last)
	}
	for i := range branches {
		g := branches[i].Grille
		branches[i].Grille = duct.Grille{Width: s.Width, Height: s.Height, Style: g.Style, FreeArea: g.FreeArea}
		branches[i].Filter = make
	}
	return branches
}

// filterFor finds the make that the size was solved with, or adds it.
func (j *Job) filterFor(s Size) string {
	for _, f := range j.Filters {
		if f.Name == s.Filter && (f.Depth == 0 || math.Abs(float64(f.Depth-s.Depth)) < float64(sameDepth)) {
			return f.Name
		}
	}
	merv := 0
	if _, err := fmt.Sscanf(s.Filter, "generic MERV %d", &merv); err != nil {
		merv = max(j.Limits.MinMERV, 8)
	}
	name := s.Filter
	if slices.ContainsFunc(j.Filters, func(f filter.Filter) bool { return f.Name == name }) {
		name = fmt.Sprintf("%s, %s deep", s.Filter, s.Depth)
	}
	if !slices.ContainsFunc(j.Filters, func(f filter.Filter) bool { return f.Name == name }) {
		j.Filters = append(j.Filters, filter.Filter{Name: name, Depth: s.Depth, MERV: merv})
	}
	return name
}

// freeName is a name that no option has yet.
func (j *Job) freeName(name string) string {
	taken := func(n string) bool {
		return slices.ContainsFunc(j.Options, func(o Option) bool { return o.Name == n })
	}
	if !taken(name) {
		return name
	}
	for i := 2; ; i++ {
		if n := fmt.Sprintf("%s, %d", name, i); !taken(n) {
			return n
		}
	}
}
