package upgrade

import (
	"cmp"
	"context"
	"math"
	"slices"

	"returnbench/sizing/assume"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/fit"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/money"
	"returnbench/sizing/option"
	"returnbench/sizing/search"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Upgrade is one change of today's house, or several together.
type Upgrade struct {
	Changes []message.Message // what is done
	Result  study.OptionResult
	Priced  bool       // the price of every change is known, and in the ten years' cost
	Lacks   units.Flow // airflow missing to the target, with clean filters; zero: none

	option  job.Option
	filters []filter.Filter // makes that the job lacks
}

// Name is the upgrade in a few English words, the name of its option.
func (w *Upgrade) Name() string { return w.In(units.IP) }

// In is Name, written for a reader.
func (w *Upgrade) In(l units.Locale) string {
	words := message.Rows{Mark: " + "}
	for _, c := range w.Changes {
		words.Items = append(words.Items, c)
	}
	return words.Show(l)
}

// AddUpgrade makes an upgrade an option of the job, with the makes of filter that it
// needs, and gives the option's name, written for a reader.
func AddUpgrade(l units.Locale, j *job.Job, w Upgrade) string {
	for _, f := range w.filters {
		if !slices.ContainsFunc(j.Filters, func(g filter.Filter) bool { return g.Name == f.Name }) {
			j.Filters = append(j.Filters, f)
		}
	}
	o := w.option
	o.Name, o.Returns = search.FreeName(j, w.In(l)), job.CloneReturns(o.Returns)
	j.Options = append(j.Options, o)
	return o.Name
}

// change is one change of the house. Two changes of the same kind are not
// combined.
type change struct {
	kind  string
	words message.Message
	work  search.WorkCost
	apply func(j *job.Job, o *job.Option) // j holds today's house, and takes new makes of filter
}

// most is how many changes are tried together: more than three make an offer hard
// to understand.
const most = 3

// changeSearch tries changes and sets of changes.
type changeSearch struct {
	job     job.Job // with every make that a change needs
	known   int     // makes that the job had before
	target  units.Flow
	house   *house.House
	today   study.OptionResult
	changes []change
	gains   []bool // changes that raise the airflow by themselves

	reach []Upgrade
	hits  [][]int   // changes of each upgrade in reach
	alone []Upgrade // single changes that fall short
	best  []Upgrade // the most of each number of changes together, where it falls short
	tried int
}

func newSearch(j job.Job, st *study.Study, h *house.House, target units.Flow) (*changeSearch, error) {
	s := &changeSearch{job: j.Clone(), known: len(j.Filters), target: target, today: *st.Today()}
	s.changes = slices.Concat(filterChanges(st, j), returnChanges(st, j.Prices, h), tapChanges(st, j.Prices))
	for _, c := range s.changes { // for the makes of filter that they add
		c.apply(&s.job, &job.Option{})
	}
	var err error
	s.house, err = house.New(assume.Job(s.job), nil)
	return s, err
}

// run tries single changes, then pairs, then three together where no pair
// reaches the airflow. A set that contains a smaller one that reaches it is not
// tried.
func (s *changeSearch) run(ctx context.Context, done func(float64)) error {
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
	slices.SortStableFunc(s.reach, compare)
	return nil
}

// compare orders upgrades by the cost of ten years; those whose cost is not known come
// after the others, by the number of their changes.
func compare(a, b Upgrade) int {
	changes := cmp.Compare(len(a.Changes), len(b.Changes))
	switch known := a.Result.TenYearKnown; {
	case known != b.Result.TenYearKnown && known:
		return -1
	case known != b.Result.TenYearKnown:
		return 1
	case known:
		return cmp.Or(cmp.Compare(a.Result.TenYearCost, b.Result.TenYearCost), changes)
	}
	return cmp.Or(changes, cmp.Compare(money.TenYearsOfKnown(&a.Result), money.TenYearsOfKnown(&b.Result)))
}

// sets are the sets of n changes of different kinds that are worth trying.
func (s *changeSearch) sets(n int) [][]int {
	var out [][]int
	var grow func(set []int, from int)
	grow = func(set []int, from int) {
		if len(set) == n {
			if !s.containsHit(set) {
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

// containsHit reports whether a part of the set already reaches the airflow.
func (s *changeSearch) containsHit(set []int) bool {
	return slices.ContainsFunc(s.hits, func(hit []int) bool {
		return !slices.ContainsFunc(hit, func(i int) bool { return !slices.Contains(set, i) })
	})
}

func (s *changeSearch) try(set []int) error {
	w := Upgrade{}
	var work search.WorkCost
	for _, i := range set {
		s.changes[i].apply(&s.job, &w.option)
		w.Changes = append(w.Changes, s.changes[i].words)
		work.Total += s.changes[i].work.Total
		work.Unknown = work.Unknown || s.changes[i].work.Unknown
	}
	w.option.Price, w.Priced = work.TotalIfKnown(), !work.Unknown
	w.option.Name = w.Name()
	w.filters = slices.DeleteFunc(slices.Clone(s.job.Filters[s.known:]), func(f filter.Filter) bool { return !names(&w.option, f.Name) })
	r, err := option.SolveWithFindings(s.house, w.option)
	if err != nil {
		return err
	}
	w.Result = *r
	w.Result.UpgradeKnown = w.Priced
	money.AddCosts(s.house, &w.Result, &s.today)
	s.note(w, set)
	return nil
}

func (s *changeSearch) note(w Upgrade, set []int) {
	s.tried++
	flow := w.Result.Clean.Airflow
	if len(set) == 1 {
		s.gains = append(s.gains, flow > s.today.Clean.Airflow)
	}
	if study.Short(flow, s.target) {
		w.Lacks = s.target - flow
	}
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

// nearest are the upgrades that fall short.
func (s *changeSearch) nearest() []Upgrade {
	out := slices.Clone(s.alone)
	if len(s.reach) == 0 {
		out = append(out, s.best...)
	}
	slices.SortStableFunc(out, func(a, b Upgrade) int { return cmp.Compare(a.Lacks, b.Lacks) })
	return out
}

// names reports whether an option uses a make of filter in any place.
func names(o *job.Option, make string) bool {
	return o.Filter == make || o.Slot.Filter == make || slices.ContainsFunc(o.Returns, func(r job.Return) bool { return r.Filter == make })
}

// returns are the option's own branches, today's copied where it has none yet.
func returns(o *job.Option, j *job.Job) []job.Return {
	if len(o.Returns) == 0 {
		o.Returns = job.CloneReturns(j.Returns)
	}
	return o.Returns
}

// tapChanges are the other taps of the blower, in cooling.
func tapChanges(s *study.Study, p job.WorkPrices) []change {
	var out []change
	var work search.WorkCost
	work.Add(1, p.Visit)
	for _, t := range s.Blower.Taps {
		if t.Name != s.Blower.CoolingTap && t.SpeedRatio == 0 {
			out = append(out, change{"tap", message.New("{tap}", "tap", s.Blower.TapName(t.Name)), work, func(_ *job.Job, o *job.Option) { o.Tap = t.Name }})
		}
	}
	return out
}

// filterChanges are the job's other filters in today's places and, for each
// kind of place, the smallest size and the size with the lowest drop that meet
// the limits.
func filterChanges(s *study.Study, jb job.Job) []change {
	var out []change
	for _, f := range jb.Filters {
		if f.Name != s.Today().Filter && f.MERV >= jb.Limits.MinMERV && makeFits(s, jb, f) {
			out = append(out, change{"filter", message.New("filter {name}", "name", study.FilterName(f.Name)), search.WorkCost{}, func(_ *job.Job, o *job.Option) { o.Filter = f.Name }})
		}
	}
	for _, place := range job.PlaceKinds() {
		if place == job.InGrille && len(jb.Returns) == 0 {
			continue // no branch to install it in
		}
		for _, z := range sizesToTry(s, place) {
			out = append(out, change{"filter", search.SizeName(&jb, z), search.OfSize(jb.Prices, z, len(jb.Returns)), func(j *job.Job, o *job.Option) { putSize(j, o, z) }})
		}
	}
	return out
}

// makeFits reports whether a filter fits today's places: it has their depth and,
// where it is made in one size only, their face.
func makeFits(s *study.Study, j job.Job, f filter.Filter) bool {
	if f.Depth > 0 && math.Abs(float64(f.Depth-s.Today().FilterDepth)) >= float64(house.SameDepth) {
		return false
	}
	own := stock.Size{Width: f.Width, Height: f.Height}
	face := stock.Size{Width: j.Slot.Width, Height: j.Slot.Height}
	for _, r := range j.Returns {
		if r.Filter != "" {
			face = stock.Size{Width: r.Grille.Width, Height: r.Grille.Height}
		}
	}
	return own.Width == 0 || face.Width == 0 || own.SameFace(face)
}

func sizesToTry(s *study.Study, place job.PlaceKind) []study.Size {
	smallest := s.SuggestedSizes.Smallest(place)
	if smallest == nil {
		return nil
	}
	least := *smallest
	for _, z := range s.Sizes {
		if z.Place == place && z.MeetsAll && z.FilterDrop < least.FilterDrop {
			least = z
		}
	}
	if least.Label == smallest.Label {
		return []study.Size{least}
	}
	return []study.Size{*smallest, least}
}

// putSize puts a size into an option that may have other returns already.
func putSize(j *job.Job, o *job.Option, z study.Size) {
	trial := job.Job{Filters: j.Filters, Returns: j.Returns, Limits: j.Limits}
	if len(o.Returns) > 0 {
		trial.Returns = o.Returns
	}
	search.AddSize(units.IP, &trial, z)
	j.Filters = trial.Filters
	sized := trial.Options[0]
	o.Filter, o.Slot = sized.Filter, sized.Slot
	if len(sized.Returns) > 0 {
		o.Returns = sized.Returns
	}
}

// returnChanges are what could be done to the branches of the return, where
// they are described.
func returnChanges(s *study.Study, p job.WorkPrices, h *house.House) []change {
	var out []change
	add := func(kind string, words message.Message, n int, each units.Money, apply func(j *job.Job, o *job.Option)) {
		if n > 0 {
			var work search.WorkCost
			work.Add(n, each)
			out = append(out, change{kind, words, work, apply})
		}
	}
	branches := s.Today().Clean.Branches
	if len(branches) == 0 {
		return nil
	}
	var narrow, small message.List
	for _, d := range s.Ducts {
		if d.Undersized {
			narrow = append(narrow, d.Branch)
		}
	}
	for i, b := range branches {
		if search.SmallGrille(h.Returns[i], b.Airflow) {
			small = append(small, b.Name)
		}
	}
	add("ducts", inReturns(narrow, "larger ducts in {names}", "larger ducts in {count} returns"), len(narrow), p.Duct, func(j *job.Job, o *job.Option) { widenDucts(s, j, o) })
	straight := h.Limits.FlexCompression
	slack := func(r duct.Run) bool { return r.Shape == duct.Flex && r.Compression > straight }
	slackened := 0
	for _, r := range h.Returns {
		if slices.ContainsFunc(r.Runs, slack) {
			slackened++
		}
	}
	add("flex", message.New("flex pulled straight"), slackened, p.Visit,
		func(j *job.Job, o *job.Option) {
			for _, r := range returns(o, j) {
				for i := range r.Runs {
					r.Runs[i].Compression = min(r.Runs[i].Compression, straight)
				}
			}
		})
	add("grilles", inReturns(small, "larger grilles in {names}", "larger grilles in {count} returns"), len(small), p.Grille, func(j *job.Job, o *job.Option) { widenGrilles(s, j, o, h) })
	add("branch", message.New("one more return"), 1, p.Return, func(j *job.Job, o *job.Option) {
		list := returns(o, j)
		widest := 0
		for i, b := range branches {
			if b.Airflow > branches[widest].Airflow {
				widest = i
			}
		}
		again := job.CloneReturns(list[widest : widest+1])[0]
		again.Name = "" // it is named by its number, in the reader's language
		o.Returns = append(list, again)
	})
	return out
}

// inReturns names the branches of a change where they are few, else gives their
// number.
func inReturns(names message.List, few, many message.ID) message.Message {
	if len(names) > 2 {
		return message.New(many, "count", len(names))
	}
	return message.New(few, "names", names)
}

// widenDucts gives every run of an undersized duct the size that keeps the
// limits at its branch's airflow. Its fittings get the section of the first
// run.
func widenDucts(s *study.Study, j *job.Job, o *job.Option) {
	list := returns(o, j)
	for i := range min(len(list), len(s.Ducts)) {
		d := s.Ducts[i]
		if !d.Undersized {
			continue
		}
		for k := range list[i].Runs {
			widen(&list[i].Runs[k], d)
		}
		for k := range list[i].Fittings {
			list[i].Fittings[k] = search.Unsized(list[i].Fittings[k])
		}
	}
}

func widen(r *duct.Run, d study.DuctSize) {
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

// widenGrilles replaces every grille with too little face by the smallest nominal one
// that has enough (search.GrilleFace) and fits its wall opening.
func widenGrilles(s *study.Study, j *job.Job, o *job.Option, h *house.House) {
	list := returns(o, j)
	for i, b := range s.Today().Clean.Branches {
		if i >= len(list) || !search.SmallGrille(list[i], b.Airflow) {
			continue
		}
		g := &list[i].Grille
		need := search.GrilleFace(list[i], b.Airflow)
		for _, z := range search.GrilleSizes(h, list[i].Filter != "") {
			if z.Face() >= need && fit.Excess(z.Width, z.Height, list[i].OpeningWidth, list[i].OpeningHeight) <= fit.Slack {
				*g = duct.Grille{Width: z.Width, Height: z.Height, Style: g.Style, FreeArea: g.FreeArea}
				break
			}
		}
	}
}
