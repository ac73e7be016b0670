package search

import (
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// AddSize turns a size of a Study's list into an option of the job, so that it can be
// compared with the house as it is. It appends the option and the filter it needs, and
// returns the option's name, written for a reader. Its price is that of the work, where
// known.
func AddSize(l units.Locale, j *job.Job, z study.Size) string {
	make := filterFor(j, z)
	o := optionOf(j, z, make)
	o.Returns = job.CloneReturns(o.Returns)
	o.Name, o.Price = FreeName(j, SizeName(j, z).In(l)), OfSize(j.Prices, z, len(j.Returns)).TotalIfKnown()
	j.Options = append(j.Options, o)
	return o.Name
}

// PlaceSizes name a size by its place.
var PlaceSizes = map[job.PlaceKind]message.ID{job.InGrille: "filter grille {size}", job.InSlot: "slot {size}", job.InCabinet: "cabinet {size}"}

// mostNamed is how many returns the name of an option names.
const mostNamed = 2

// SizeName is what a size does to the house, in a few words. A filter before the
// blower takes the place of those in the grilles: the name says so.
func SizeName(j *job.Job, z study.Size) message.Message {
	name := message.New(PlaceSizes[z.Place], "size", z.Label)
	if z.Place == job.InGrille {
		return name
	}
	emptied := j.FilteredReturns()
	switch n := len(emptied); {
	case n == 0:
		return name
	case n == 1:
		return message.New("{size}, no filter in the grille of {names}", "size", name, "names", emptied)
	case n <= mostNamed:
		return message.New("{size}, no filters in the grilles of {names}", "size", name, "names", emptied)
	default:
		return message.New("{size}, no filters in {count} grilles", "size", name, "count", n)
	}
}

// optionOf is the house with a size in place of today's filters. Its branches
// share their ducts and fittings with those of the job.
func optionOf(j *job.Job, z study.Size, make string) job.Option {
	if z.Place == job.InGrille && len(j.Returns) > 0 {
		return job.Option{Filter: make, Slot: job.Slot{None: true}, Returns: withGrilles(slices.Clone(j.Returns), z, make)}
	}
	o := job.Option{Filter: make, Slot: SlotOf(&z, make)}
	// Filters behind the grilles are removed.
	if slices.ContainsFunc(j.Returns, func(r job.Return) bool { return r.Filter != "" }) {
		o.Returns = slices.Clone(j.Returns)
		for i := range o.Returns {
			o.Returns[i].Filter = ""
		}
	}
	return o
}

// SlotOf is the size as a filter place before the blower, holding a make.
func SlotOf(z *study.Size, make string) job.Slot {
	s := job.Slot{Width: z.Width, Height: z.Height, Depth: z.Depth, Stacked: z.Stacked, AtGrilles: z.Place == job.InGrille, Filter: make}
	if z.Count > 1 {
		s.Count = z.Count
	}
	return s
}

// withGrilles gives each branch a filter grille of the size, and adds branches
// like the last one where the size has more openings.
func withGrilles(branches []job.Return, s study.Size, make string) []job.Return {
	for len(branches) < s.Count {
		last := branches[len(branches)-1]
		last.Name = "" // it is named by its number, in the reader's language
		branches = append(branches, last)
	}
	for i := range branches {
		g := branches[i].Grille
		branches[i].Grille = duct.Grille{Width: s.Width, Height: s.Height, Style: g.Style, FreeArea: g.FreeArea}
		branches[i].Filter = make
	}
	return branches
}

// filterFor finds the filter with which the size was solved, or adds it.
func filterFor(j *job.Job, s study.Size) string {
	for _, f := range j.Filters {
		if f.Name == s.Filter && (f.Depth == 0 || math.Abs(float64(f.Depth-s.Depth)) < float64(house.SameDepth)) {
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

// FreeName is a name that no option has yet.
func FreeName(j *job.Job, name string) string {
	taken := func(n string) bool {
		return slices.ContainsFunc(j.Options, func(o job.Option) bool { return o.Name == n })
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
