package sizing

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Way is one change of today's house, or several together.
type Way struct {
	Changes []string // what is done, in words
	Result  OptionResult
	Priced  bool       // the price of every change is known, and in the ten years' cost
	Lacks   units.Flow // of the airflow asked for, with clean filters; zero: it reaches it

	option  Option
	filters []filter.Filter // makes that the job lacks
}

// Name is the way in a few words.
func (w *Way) Name() string { return strings.Join(w.Changes, " + ") }

// TakeWay makes the way an option of the job, with the makes of filter that it
// needs, and gives the option's name.
func (j *Job) TakeWay(w Way) string {
	for _, f := range w.filters {
		if !slices.ContainsFunc(j.Filters, func(g filter.Filter) bool { return g.Name == f.Name }) {
			j.Filters = append(j.Filters, f)
		}
	}
	o := w.option
	o.Name, o.Returns = j.freeName(o.Name), cloneReturns(o.Returns)
	j.Options = append(j.Options, o)
	return o.Name
}

// remedy is one thing that could be done. Of one kind no two go together.
type remedy struct {
	kind, words string
	work        bill
	apply       func(j *Job, o *Option) // j holds today's house, and takes new makes of filter
}

// most is how many changes are tried together: past three no one keeps track
// of a job.
const most = 3

// search tries changes and sets of changes.
type search struct {
	job     Job // with every make that a change needs
	known   int // makes that the job had before
	target  units.Flow
	house   *house
	today   OptionResult
	changes []remedy
	gains   []bool // changes that raise the airflow by themselves

	reach []Way
	hits  [][]int // changes of each way in reach
	alone []Way   // single changes that fall short
	best  []Way   // the most of each number of changes together, where it falls short
	tried int
}

func newSearch(job Job, study *Study, target units.Flow) (*search, error) {
	s := &search{job: job.Clone(), known: len(job.Filters), target: target, today: *study.Today()}
	s.changes = slices.Concat(study.filterChanges(job), study.returnChanges(job.Prices), study.tapChanges(job.Prices))
	for _, c := range s.changes { // for the makes that they bring
		c.apply(&s.job, &Option{})
	}
	var err error
	s.house, err = newHouse(assume(s.job), nil)
	return s, err
}

// run tries single changes, then pairs, then three together where no pair
// reaches the airflow. A set that holds one that reaches it is not tried.
func (s *search) run(ctx context.Context, done func(float64)) error {
	for n := 1; n <= most; n++ {
		if n == most && len(s.reach) > 0 {
			break
		}
		sets := s.sets(n)
		for i, set := range sets {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := s.try(set); err != nil {
				return err
			}
			done((float64(n-1) + float64(i+1)/float64(len(sets))) / most)
		}
	}
	done(1)
	slices.SortStableFunc(s.reach, func(a, b Way) int {
		return cmp.Or(cmp.Compare(len(a.Changes), len(b.Changes)), a.unpriced()-b.unpriced(), cmp.Compare(a.Result.tenYearsOfKnown(), b.Result.tenYearsOfKnown()))
	})
	return nil
}

// unpriced orders ways whose cost holds the work before those whose does not.
func (w *Way) unpriced() int {
	if w.Priced {
		return 0
	}
	return 1
}

// sets are the sets of n changes of different kinds that are worth trying.
func (s *search) sets(n int) [][]int {
	var out [][]int
	var grow func(set []int, from int)
	grow = func(set []int, from int) {
		if len(set) == n {
			if !s.beaten(set) {
				out = append(out, slices.Clone(set))
			}
			return
		}
		for i := from; i < len(s.changes); i++ {
			same := func(k int) bool { return s.changes[k].kind == s.changes[i].kind }
			if slices.ContainsFunc(set, same) || n > 1 && !s.gains[i] {
				continue
			}
			grow(append(set, i), i+1)
		}
	}
	grow(nil, 0)
	return out
}

// beaten tells that a part of the set reaches the airflow already.
func (s *search) beaten(set []int) bool {
	return slices.ContainsFunc(s.hits, func(hit []int) bool {
		return !slices.ContainsFunc(hit, func(i int) bool { return !slices.Contains(set, i) })
	})
}

func (s *search) try(set []int) error {
	w := Way{}
	var work bill
	for _, i := range set {
		s.changes[i].apply(&s.job, &w.option)
		w.Changes = append(w.Changes, s.changes[i].words)
		work.total += s.changes[i].work.total
		work.unknown = work.unknown || s.changes[i].work.unknown
	}
	w.option.Price, w.Priced = work.whole(), !work.unknown
	w.option.Name = w.Name()
	w.filters = slices.DeleteFunc(slices.Clone(s.job.Filters[s.known:]), func(f filter.Filter) bool { return !w.option.names(f.Name) })
	r, err := s.house.judged(w.option)
	if err != nil {
		return err
	}
	w.Result = *r
	w.Result.UpgradeKnown = w.Priced
	s.house.money(&w.Result, &s.today)
	s.note(w, set)
	return nil
}

func (s *search) note(w Way, set []int) {
	s.tried++
	flow := w.Result.Clean.Airflow
	if len(set) == 1 {
		s.gains = append(s.gains, flow > s.today.Clean.Airflow)
	}
	w.Lacks = max(0, s.target-flow)
	switch {
	case w.Lacks == 0:
		s.reach, s.hits = append(s.reach, w), append(s.hits, set)
	case len(set) == 1:
		s.alone = append(s.alone, w)
	case len(s.best) < len(set)-1:
		s.best = append(s.best, w)
	case w.Lacks < s.best[len(set)-2].Lacks:
		s.best[len(set)-2] = w
	}
}

// nearest are the ways that fall short.
func (s *search) nearest() []Way {
	out := slices.Clone(s.alone)
	if len(s.reach) == 0 {
		out = append(out, s.best...)
	}
	slices.SortStableFunc(out, func(a, b Way) int { return cmp.Compare(a.Lacks, b.Lacks) })
	return out
}

// names tells whether an option puts a make of filter anywhere.
func (o *Option) names(make string) bool {
	return o.Filter == make || o.Slot.Filter == make || slices.ContainsFunc(o.Returns, func(r Return) bool { return r.Filter == make })
}

// returns are the option's own branches, today's copied where it has none yet.
func (o *Option) returns(j *Job) []Return {
	if len(o.Returns) == 0 {
		o.Returns = cloneReturns(j.Returns)
	}
	return o.Returns
}

// tapChanges are the other taps of the blower, in cooling.
func (s *Study) tapChanges(p WorkPrices) []remedy {
	var out []remedy
	var work bill
	work.add(1, p.Visit)
	for _, t := range s.Blower.Taps {
		if t.Name != s.Blower.CoolingTap {
			out = append(out, remedy{"tap", TapName(t.Name), work, func(_ *Job, o *Option) { o.Tap = t.Name }})
		}
	}
	return out
}

// filterChanges are the job's other makes in today's places, and for each kind
// of place the smallest size and the size of the least drop that meet the
// limits.
func (s *Study) filterChanges(job Job) []remedy {
	var out []remedy
	for _, f := range job.Filters {
		if f.Name != s.Today().Filter && f.MERV >= job.Limits.MinMERV && s.goesIn(job, f) {
			out = append(out, remedy{"filter", "filter " + f.Name, bill{}, func(_ *Job, o *Option) { o.Filter = f.Name }})
		}
	}
	for _, place := range []string{InGrille, InSlot, InCabinet} {
		if place == InGrille && len(job.Returns) == 0 {
			continue // no branch to put it in
		}
		for _, z := range s.worthTrying(place) {
			words := placeWord(z.Place) + " " + z.Label
			out = append(out, remedy{"filter", words, job.Prices.ofSize(z, len(job.Returns)), func(j *Job, o *Option) { j.putSize(o, z) }})
		}
	}
	return out
}

// goesIn tells whether a make fits today's filter places: it has their depth
// and, where it is made in one size alone, their face.
func (s *Study) goesIn(job Job, f filter.Filter) bool {
	if f.Depth > 0 && math.Abs(float64(f.Depth-s.Today().filterDepth)) >= float64(sameDepth) {
		return false
	}
	own := stock.Size{Width: f.Width, Height: f.Height}
	face := stock.Size{Width: job.Slot.Width, Height: job.Slot.Height}
	for _, r := range job.Returns {
		if r.Filter != "" {
			face = stock.Size{Width: r.Grille.Width, Height: r.Grille.Height}
		}
	}
	return own.Width == 0 || face.Width == 0 || own.SameFace(face)
}

func (s *Study) worthTrying(place string) []Size {
	smallest := map[string]*Size{InGrille: s.Answer.Grille, InSlot: s.Answer.Slot, InCabinet: s.Answer.Cabinet}[place]
	if smallest == nil || !smallest.Meets {
		return nil
	}
	least := *smallest
	for _, z := range s.Sizes {
		if z.Place == place && z.Meets && z.FilterDrop < least.FilterDrop {
			least = z
		}
	}
	if least.Label == smallest.Label {
		return []Size{least}
	}
	return []Size{*smallest, least}
}

// putSize puts a size into an option that may have other returns already.
func (j *Job) putSize(o *Option, z Size) {
	trial := Job{Filters: j.Filters, Returns: j.Returns, Limits: j.Limits}
	if len(o.Returns) > 0 {
		trial.Returns = o.Returns
	}
	trial.Take(z)
	j.Filters = trial.Filters
	taken := trial.Options[0]
	o.Filter, o.Slot = taken.Filter, taken.Slot
	if len(taken.Returns) > 0 {
		o.Returns = taken.Returns
	}
}

// returnChanges are what could be done to the branches of the return, where
// they are described.
func (s *Study) returnChanges(p WorkPrices) []remedy {
	var out []remedy
	add := func(kind, words string, n int, each units.Money, apply func(j *Job, o *Option)) {
		if n > 0 {
			var work bill
			work.add(n, each)
			out = append(out, remedy{kind, words, work, apply})
		}
	}
	branches := s.Today().Clean.Branches
	if len(branches) == 0 {
		return nil
	}
	small, few := named(s.Ducts, func(d DuctSize) (string, bool) { return d.Branch, d.Undersized })
	add("ducts", "larger ducts"+small, few, p.Duct, s.widenDucts)
	slack := func(r duct.Run) bool { return r.Shape == duct.Flex && r.Compression > 0 }
	_, few = named(s.house.Returns, func(r Return) (string, bool) { return r.Name, slices.ContainsFunc(r.Runs, slack) })
	add("flex", "flex pulled straight", few, p.Visit,
		func(j *Job, o *Option) {
			for _, r := range o.returns(j) {
				for i := range r.Runs {
					r.Runs[i].Compression = 0
				}
			}
		})
	fast, few := named(branches, func(b BranchFlow) (string, bool) { return b.Name, b.FaceVelocity > grilleVelocity*1.0001 })
	add("grilles", "larger grilles"+fast, few, p.Grille, s.widenGrilles)
	add("branch", "one more return", 1, p.Return, func(j *Job, o *Option) {
		list := o.returns(j)
		widest := 0
		for i, b := range branches {
			if b.Airflow > branches[widest].Airflow {
				widest = i
			}
		}
		again := cloneReturns(list[widest : widest+1])[0]
		again.Name = fmt.Sprintf("return %d", len(list)+1)
		o.Returns = append(list, again)
	})
	return out
}

// named counts the branches that a change is about, and names them where they
// are few.
func named[T any](list []T, about func(T) (name string, is bool)) (words string, n int) {
	var names []string
	for _, x := range list {
		if name, is := about(x); is {
			names = append(names, name)
		}
	}
	if len(names) > 2 {
		return fmt.Sprintf(" in %d returns", len(names)), len(names)
	}
	return " in " + strings.Join(names, " and "), len(names)
}

// widenDucts gives every run of a duct that is too small the size that its
// branch wants. Its fittings take the section of the first run.
func (s *Study) widenDucts(j *Job, o *Option) {
	list := o.returns(j)
	for i := range min(len(list), len(s.Ducts)) {
		d := s.Ducts[i]
		if !d.Undersized {
			continue
		}
		for k := range list[i].Runs {
			widen(&list[i].Runs[k], d)
		}
		for k := range list[i].Fittings {
			f := &list[i].Fittings[k]
			f.Diameter, f.Width, f.Height = 0, 0, 0
		}
	}
}

func widen(r *duct.Run, d DuctSize) {
	switch r.Shape {
	case duct.Round:
		r.Diameter = max(r.Diameter, d.Round.Diameter)
	case duct.Flex:
		r.Diameter = max(r.Diameter, d.Flex.Diameter)
	case duct.Rectangular:
		if float64(d.Rect.Width)*float64(d.Rect.Height) > float64(r.Width)*float64(r.Height) {
			r.Width, r.Height = d.Rect.Width, d.Rect.Height
		}
	}
}

// widenGrilles gives every grille that air crosses too fast the smallest
// nominal one that keeps the usual velocity and fits its wall.
func (s *Study) widenGrilles(j *Job, o *Option) {
	list := o.returns(j)
	for i, b := range s.Today().Clean.Branches {
		if i >= len(list) || b.FaceVelocity <= grilleVelocity*1.0001 {
			continue
		}
		sizes := stock.Grilles()
		if list[i].Filter != "" {
			sizes = stock.FilterGrilles()
		}
		g := &list[i].Grille
		need := float64(b.Airflow) / float64(grilleVelocity)
		for _, z := range stock.Of(s.house.sizeSystem(), sizes) {
			z.Depth = 0
			if float64(z.Face()) >= need && fits(z, list[i].OpeningWidth, list[i].OpeningHeight) {
				*g = duct.Grille{Width: z.Width, Height: z.Height, Style: g.Style, FreeArea: g.FreeArea}
				break
			}
		}
	}
}
