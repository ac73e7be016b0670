// Package candidate turns a size of the Study's list into an option of the
// Job, so that it can be compared with the house as it is.
package candidate

import (
	"fmt"
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// Add appends the option and the filter it needs, and tells the option's name.
func Add(j *sizing.Job, s sizing.Size) string {
	name := freeName(j, placeWord(s.Place)+" "+s.Label)
	make := filterFor(j, s)
	o := sizing.Option{Name: name, Filter: make}
	if s.Place == sizing.InGrille && len(j.Returns) > 0 {
		o.Slot = sizing.Slot{None: true}
		o.Returns = withGrilles(j.Clone().Returns, s, make)
	} else {
		// Where no branch is described the filters stand at the end of the
		// return as it is assumed: side by side they are one face.
		o.Slot = sizing.Slot{Width: units.Length(float64(s.Count) * float64(s.Width)), Height: s.Height, Depth: s.Depth, Filter: make}
	}
	j.Options = append(j.Options, o)
	return name
}

func placeWord(place string) string {
	switch place {
	case sizing.InGrille:
		return "filter grille"
	case sizing.InCabinet:
		return "cabinet"
	}
	return "slot"
}

// withGrilles puts a filter grille of the size at the head of each branch, and
// adds branches like the last one where the size has more openings.
func withGrilles(branches []sizing.Return, s sizing.Size, make string) []sizing.Return {
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
func filterFor(j *sizing.Job, s sizing.Size) string {
	for _, f := range j.Filters {
		if f.Name == s.Filter && (f.Depth == 0 || f.Depth <= s.Depth) {
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
func freeName(j *sizing.Job, name string) string {
	taken := func(n string) bool {
		return slices.ContainsFunc(j.Options, func(o sizing.Option) bool { return o.Name == n })
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
