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
func (j *Job) Take(z Size) string {
	make := j.filterFor(z)
	o := j.optionOf(z, make)
	o.Name, o.Price = j.freeName(placeWord(z.Place)+" "+z.Label), j.Prices.ofSize(z, len(j.Returns)).whole()
	j.Options = append(j.Options, o)
	return o.Name
}

// optionOf is the house with a size in place of today's filters.
func (j *Job) optionOf(z Size, make string) Option {
	if z.Place == InGrille && len(j.Returns) > 0 {
		return Option{Filter: make, Slot: Slot{None: true}, Returns: withGrilles(cloneReturns(j.Returns), z, make)}
	}
	o := Option{Filter: make, Slot: z.Slot(make)}
	// Filters behind the grilles make way.
	if slices.ContainsFunc(j.Returns, func(r Return) bool { return r.Filter != "" }) {
		o.Returns = cloneReturns(j.Returns)
		for i := range o.Returns {
			o.Returns[i].Filter = ""
		}
	}
	return o
}

// Slot is the size as a filter place before the blower, holding a make.
func (z *Size) Slot(make string) Slot {
	s := Slot{Width: z.Width, Height: z.Height, Depth: z.Depth, Stacked: z.Stacked, AtGrilles: z.Place == InGrille, Filter: make}
	if z.Count > 1 {
		s.Count = z.Count
	}
	return s
}

// sameDepth is how near two nominal depths are of one kind of filter.
const sameDepth = 0.3 * units.Inch

func placeWord(place PlaceKind) string {
	if place == InGrille {
		return "filter grille"
	}
	return string(place)
}

// withGrilles puts a filter grille of the size at the head of each branch, and
// adds branches like the last one where the size has more openings.
func withGrilles(branches []Return, s Size, make string) []Return {
	for len(branches) < s.Count {
		last := branches[len(branches)-1]
		last = cloneReturns([]Return{last})[0]
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
	name := s.Filter
	if slices.ContainsFunc(j.Filters, func(f filter.Filter) bool { return f.Name == name }) {
		name = fmt.Sprintf("%s, %s deep", s.Filter, s.Depth)
	}
	if !slices.ContainsFunc(j.Filters, func(f filter.Filter) bool { return f.Name == name }) {
		j.Filters = append(j.Filters, filter.Filter{Name: name, Depth: s.Depth, MERV: s.MERV})
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
