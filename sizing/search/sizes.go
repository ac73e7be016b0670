package search

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/fit"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Candidates whose face velocity at the design airflow lies outside these
// multiples of the target are not worth solving.
const (
	slowestWorth = 0.5
	fastestWorth = 1.45
	nearMisses   = 12
)

// FindSizes solves the nominal sizes that may fit in the house's own air path and ranks
// them: those that meet all limits first, then fewest openings, then the lowest drop for
// the least metal and media. The suggested sizes are picked from all.
func FindSizes(h *house.House) ([]study.Size, study.SuggestedSizes, error) {
	base, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return nil, study.SuggestedSizes{}, err
	}
	today, err := h.System(base)
	if err != nil {
		return nil, study.SuggestedSizes{}, err
	}
	now, err := h.CoolingOperatingPoint(base, today)
	if err != nil {
		return nil, study.SuggestedSizes{}, err
	}
	all, err := solveListed(h, candidates(h))
	if err != nil {
		return nil, study.SuggestedSizes{}, err
	}
	picked := answer(h, all)
	markFront(all)
	out := trim(rank(all, house.FilterDrop(today, now.Point)), picked.Sizes())
	picked.Write()
	return out, picked, nil
}

// solveListed solves the candidates that can come onto the list, in their order:
// all that have room, and of the others those that may be among the nearest. A
// size that misses more limits by its dimensions alone than the nearest ones
// miss in total is not solved.
func solveListed(h *house.House, listed []candidate) ([]study.Size, error) {
	type place struct{ index, missed int }
	var later []place
	solved := make([]*study.Size, len(listed))
	sizes := make([]study.Size, 0, len(listed))
	var a house.Arrangement
	solve := func(i int) error {
		z, err := solveSize(h, listed[i], &a)
		sizes = append(sizes, z)
		solved[i] = &sizes[len(sizes)-1]
		return err
	}
	for i, c := range listed {
		room, missed := missedUnsolved(h, c)
		if room > 0 {
			later = append(later, place{i, missed})
			continue
		}
		if err := solve(i); err != nil {
			return nil, err
		}
	}
	// The same order as rank has for sizes that miss limits.
	order := func(missed, count, missedToo, countToo int) int {
		return cmp.Or(cmp.Compare(missed, missedToo), cmp.Compare(count, countToo))
	}
	slices.SortStableFunc(later, func(a, b place) int {
		return order(a.missed, listed[a.index].count, b.missed, listed[b.index].count)
	})
	for _, p := range later {
		nearer := 0
		for _, z := range solved {
			if z != nil && !z.MeetsAll && order(len(z.Misses), z.Count, p.missed, listed[p.index].count) < 0 {
				nearer++
			}
		}
		if nearer >= nearMisses {
			break
		}
		if err := solve(p.index); err != nil {
			return nil, err
		}
	}
	out := make([]study.Size, 0, len(sizes))
	for _, z := range solved {
		if z != nil {
			out = append(out, *z)
		}
	}
	return out, nil
}

// missedUnsolved counts the limits that a size misses at any airflow: those of
// the room, and all.
func missedUnsolved(h *house.House, c candidate) (room, all int) {
	if c.place != job.InGrille {
		room = fit.CountRoomBreaches(h, c.slot())
	}
	all = room
	if study.Exceeds(c.velocity(h), h.TargetFaceVelocity) {
		all++
	}
	return room, all
}

// candidate is a size before it is solved.
type candidate struct {
	place   job.PlaceKind
	count   int
	stacked bool
	size    stock.Size
}

// candidates are the nominal sizes that may fit. One more opening of a size is
// tried only where one fewer misses the target velocity. The largest single
// cabinet that goes into the room is always among them.
func candidates(h *house.House) []candidate {
	var out []candidate
	add := func(place job.PlaceKind, least, most int, sizes []stock.Size) {
		for _, s := range stock.Of(h.SizeSystem(), sizes) {
			target := sizeVelocity(h, place, s.Depth)
			for n := least; n <= most; n++ {
				v := float64(h.DesignAirflow) / (float64(n) * float64(s.Face())) / float64(target)
				if v >= slowestWorth && v <= fastestWorth {
					out = append(out, stackedToFit(h, candidate{place: place, count: n, size: s}))
				}
				if v <= 1.0001 {
					break
				}
			}
		}
	}
	least := max(1, len(h.Returns)) // every branch that is described ends in a grille
	sizes := func(place job.PlaceKind) []stock.Size { return append(listed(h, place), stocked(h, place)...) }
	add(job.InGrille, least, max(least, h.Limits.MaxOpenings), sizes(job.InGrille))
	slots, cabinets := sizes(job.InSlot), sizes(job.InCabinet)
	add(job.InSlot, 1, slotsFor(h, slots), slots)
	add(job.InCabinet, 1, slotsFor(h, cabinets), cabinets)
	if c, found := largestCabinet(h, cabinets); found && float64(h.DesignAirflow)/float64(c.size.Face()) > fastestWorth*float64(h.TargetFaceVelocity) {
		out = append(out, c)
	}
	return out
}

// stackedToFit stacks two filters where they fit the room in that way and not side by
// side.
func stackedToFit(h *house.House, c candidate) candidate {
	if c.place == job.InGrille || c.count < 2 || RoomFor(h, c) {
		return c
	}
	stacked := c
	if stacked.stacked = true; RoomFor(h, stacked) {
		return stacked
	}
	return c
}

// RoomFor reports whether a casing for the candidate goes into the room.
func RoomFor(h *house.House, c candidate) bool { return fit.HasRoom(h, c.slot()) }

// face is the nominal face of all its openings, m2.
func (c candidate) face() units.Area { return units.Area(float64(c.count) * float64(c.size.Face())) }

// velocity is the face velocity at the design airflow.
func (c candidate) velocity(h *house.House) units.Speed {
	return units.Speed(float64(h.DesignAirflow) / float64(c.face()))
}

func (c candidate) slot() job.Slot {
	return job.Slot{Width: c.size.Width, Height: c.size.Height, Depth: c.size.Depth, Count: c.count, Stacked: c.stacked}
}

// largestCabinet is the single cabinet with the largest face that fits the room,
// and of equal faces the deepest.
func largestCabinet(h *house.House, cabinets []stock.Size) (candidate, bool) {
	best, found := candidate{}, false
	for _, s := range stock.Of(h.SizeSystem(), cabinets) {
		c := candidate{place: job.InCabinet, count: 1, size: s}
		more := cmp.Or(study.CompareLoose(float64(s.Face()), float64(best.size.Face())), cmp.Compare(s.Depth, best.size.Depth)) > 0
		if more && RoomFor(h, c) {
			best, found = c, true
		}
	}
	return best, found
}

// slotsFor is 2 where no single size that fits the room keeps the target
// velocity, else 1.
func slotsFor(h *house.House, sizes []stock.Size) int {
	for _, s := range stock.Of(h.SizeSystem(), sizes) {
		needed := units.Area(float64(h.DesignAirflow) / float64(sizeVelocity(h, job.InSlot, s.Depth)))
		if s.Face() >= needed && RoomFor(h, candidate{count: 1, size: s}) {
			return 1
		}
	}
	return 2
}

// sizeVelocity is the face velocity at the design airflow for which sizes of a
// place and depth are searched: the target, or a lower one that a chosen set of
// limits requires.
func sizeVelocity(h *house.House, place job.PlaceKind, depth units.Length) units.Speed {
	v := h.TargetFaceVelocity
	if !slices.Contains(h.Limits.Checks, job.Title24) {
		return v
	}
	if depth < judge.Title24Deep {
		v = min(v, judge.Title24Thin)
	}
	if gross, ok := judge.TableGross(h.Equipment.CoolingCapacity); ok && place == job.InGrille {
		v = min(v, units.Speed(float64(h.DesignAirflow)/float64(gross)))
	}
	return v
}

func thinDepth(h *house.House) units.Length {
	if h.SizeSystem() == units.Metric {
		return 48 * units.Millimetre
	}
	return units.Inch
}

func withDepth(sizes []stock.Size, depth units.Length) []stock.Size {
	for i := range sizes {
		sizes[i].Depth = depth
	}
	return sizes
}

// thinOnly keeps the thin filters, which slots hold.
func thinOnly(sizes []stock.Size) []stock.Size {
	return slices.DeleteFunc(sizes, func(s stock.Size) bool { return job.IsDeep(s.Depth) })
}

// sizeFilter is the filter for a place of a depth: the job's own of that depth
// and MERV, else a generic one.
func sizeFilter(h *house.House, depth units.Length) filter.Filter {
	least := judge.LeastMERV(h)
	for _, f := range h.Filters {
		if f.Name != assume.GenericFilterName && math.Abs(float64(f.Depth-depth)) < float64(house.SameDepth) && house.RatedMERV(f) >= least {
			return f
		}
	}
	return filter.Filter{Name: genericName(least), Depth: depth, MERV: least}
}

func genericName(merv int) string { return study.GenericFilter + strconv.Itoa(merv) }

// solveSize solves the house that AddSize would make with the size; a is an
// arrangement to reuse.
func solveSize(h *house.House, c candidate, a *house.Arrangement) (study.Size, error) {
	f := sizeFilter(h, c.size.Depth)
	face := c.face()
	z := study.Size{
		Place: c.place, Count: c.count, Width: c.size.Width, Height: c.size.Height, Depth: c.size.Depth, Stacked: c.stacked,
		Label: label(c), Stocked: isStocked(h, c), Filter: f.Name, MERV: house.RatedMERV(f), FaceArea: face, DesignFaceVelocity: c.velocity(h),
	}
	if c.place != job.InGrille {
		box := house.Assembly(&h.CompleteJob.Job, SlotOf(&z, f.Name))
		z.Assembly = &box
	}
	h.Trial = &f
	defer func() { h.Trial = nil }()
	if err := h.Rearrange(a, optionOf(&h.CompleteJob.Job, z, f.Name), study.KindOption); err != nil {
		return z, err
	}
	sys, err := h.System(a)
	if err != nil {
		return z, err
	}
	p, err := h.CoolingOperatingPoint(a, sys)
	if err != nil {
		return z, err
	}
	z.Airflow, z.ExternalStatic, z.BlowerPower = units.Flow(p.Flow), p.External, p.Power
	z.FaceVelocity = units.Speed(p.Flow / float64(face))
	z.FilterDrop = units.Pressure(house.FilterDrop(sys, p.Point))
	_, media := a.Areas()
	z.MediaArea = units.Area(media)
	z.Misses = misses(h, z, a)
	z.MeetsAll = len(z.Misses) == 0
	return z, nil
}

func label(c candidate) string {
	if c.count == 1 {
		return c.size.String()
	}
	return strconv.Itoa(c.count) + " x " + c.size.String()
}

// misses lists each limit that a solved size does not keep.
func misses(h *house.House, z study.Size, a *house.Arrangement) []study.Finding {
	var out []study.Finding
	miss := func(code string, source, text message.ID, args ...any) {
		out = append(out, study.NewFinding(study.Caution, code, source, text, args...))
	}
	if study.Exceeds(z.DesignFaceVelocity, h.TargetFaceVelocity) {
		needed := units.Area(float64(h.DesignAirflow) / float64(h.TargetFaceVelocity))
		miss(codeFaceVelocity, judge.TargetSource(h), "face velocity {velocity} is over the target {target}: it needs {needed} of face, this has {face}",
			"velocity", z.DesignFaceVelocity, "target", h.TargetFaceVelocity, "needed", needed, "face", z.FaceArea)
	}
	if most, source := h.DropLimit(); z.FilterDrop > most {
		miss(codeFilterDrop, source, "clean drop {drop} is over the {limit} that a filter may take", "drop", z.FilterDrop, "limit", most)
	}
	for _, b := range fit.Breaches(h, a) {
		out = append(out, b.Miss())
	}
	facts := judge.FilterFacts{Merv: z.MERV, Depth: z.Depth, Face: z.FaceArea, AtWall: z.Place == job.InGrille,
		Drop: h.DesignDrop(a, z.Airflow, z.FilterDrop)}
	return append(out, judge.FilterSets(h, facts, a.Returns)...)
}

const (
	codeFaceVelocity = "face_velocity"
	codeFilterDrop   = "filter_drop"
)

// markFront sets ParetoOptimal on the sizes that no other size, meeting or missing the
// limits alike, beats in openings, face area and drop at once.
func markFront(sizes []study.Size) {
	for i := range sizes {
		a := &sizes[i]
		a.ParetoOptimal = a.MeetsAll
		for k := 0; k < len(sizes) && a.ParetoOptimal; k++ {
			a.ParetoOptimal = !(sizes[k].MeetsAll && dominates(&sizes[k], a))
		}
	}
}

// dominates reports whether b is no worse than a in openings, face area and drop, and
// better in one of them.
func dominates(b *study.Size, a *study.Size) bool {
	face, drop := study.CompareLoose(float64(b.FaceArea), float64(a.FaceArea)), study.CompareLoose(float64(b.FilterDrop), float64(a.FilterDrop))
	noWorse := b.Count <= a.Count && face <= 0 && drop <= 0
	better := b.Count < a.Count || face < 0 || drop < 0
	return noWorse && better
}

// rank puts the sizes in order. In place of prices the cost of a size is estimated
// by its metal and media: its face area, and as much again for every 4 in of depth.
func rank(sizes []study.Size, dropNow float64) []study.Size {
	metal := func(s *study.Size) float64 { return float64(s.FaceArea) * (1 + s.Depth.In(4*units.Inch)) }
	value := func(a, b *study.Size) int {
		x, y := (dropNow-float64(a.FilterDrop))/metal(a), (dropNow-float64(b.FilterDrop))/metal(b)
		if math.Abs(x-y) <= 1e-9*max(dropNow, float64(a.FilterDrop), float64(b.FilterDrop))/min(metal(a), metal(b)) {
			return 0 // equal within rounding: their small drops are differences of large numbers
		}
		return cmp.Compare(x, y)
	}
	ranked := make([]*study.Size, len(sizes))
	for i := range sizes {
		ranked[i] = &sizes[i]
	}
	slices.SortStableFunc(ranked, func(a, b *study.Size) int {
		return cmp.Or(
			study.Order(b.MeetsAll, a.MeetsAll),
			cmp.Compare(len(a.Misses), len(b.Misses)),
			cmp.Compare(a.Count, b.Count),
			value(b, a),
			study.CompareLoose(float64(a.FaceArea), float64(b.FaceArea)),
		)
	})
	out := make([]study.Size, len(sizes))
	for i, s := range ranked {
		out[i] = *s
	}
	return out
}

// trim keeps all sizes that meet the limits, the nearest of the others, and those in keep.
func trim(sizes []study.Size, keep []*study.Size) []study.Size {
	n := slices.IndexFunc(sizes, func(z study.Size) bool { return !z.MeetsAll })
	if n < 0 {
		return sizes
	}
	n = min(len(sizes), n+nearMisses)
	out := sizes[:n:n]
	for _, z := range sizes[n:] {
		if slices.ContainsFunc(keep, func(k *study.Size) bool { return k.Key() == z.Key() }) {
			out = append(out, z)
		}
	}
	return out
}
