package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Candidates whose face velocity at the design airflow lies outside these
// multiples of the target are not worth solving.
const (
	slowestWorth = 0.5
	fastestWorth = 1.45
	nearMisses   = 12
)

// sizes solves every nominal size worth looking at in the house's own air path
// and ranks them: those that meet all limits first, then fewest openings, then
// the most relief for the least metal and media. The answer is picked from all.
func (h *house) sizes() ([]Size, Answer, error) {
	base, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return nil, Answer{}, err
	}
	today, err := h.system(base)
	if err != nil {
		return nil, Answer{}, err
	}
	now, err := h.cooled(base, today)
	if err != nil {
		return nil, Answer{}, err
	}
	var all []Size
	for _, c := range h.candidates() {
		z, err := h.solveSize(c)
		if err != nil {
			return nil, Answer{}, err
		}
		all = append(all, z)
	}
	picked := h.answer(all)
	markFront(all)
	out := trim(rank(all, filterDrop(today, now.Point)), picked.sizes())
	for i := range out {
		out[i].write()
	}
	for _, z := range picked.sizes() {
		z.write()
	}
	picked.write()
	return out, picked, nil
}

// write puts what the size misses into words.
func (z *Size) write() {
	for k := range z.Misses {
		m := &z.Misses[k]
		m.Text = m.In(units.IP)
	}
}

// candidate is a size before it is solved.
type candidate struct {
	place   PlaceKind
	count   int
	stacked bool
	size    stock.Size
}

// candidates are the nominal sizes worth solving. A further opening of one size
// is looked at only where one fewer would not keep the target. The largest single
// cabinet that goes into the room is always among them.
func (h *house) candidates() []candidate {
	var out []candidate
	add := func(place PlaceKind, least, most int, sizes []stock.Size) {
		for _, s := range stock.Of(h.sizeSystem(), sizes) {
			target := h.sizeVelocity(place, s.Depth)
			for n := least; n <= most; n++ {
				v := float64(h.DesignAirflow) / (float64(n) * float64(s.Face())) / float64(target)
				if v >= slowestWorth && v <= fastestWorth {
					out = append(out, h.stood(candidate{place: place, count: n, size: s}))
				}
				if v <= 1.0001 {
					break
				}
			}
		}
	}
	least := max(1, len(h.Returns)) // every branch that is described ends in a grille
	add(InGrille, least, max(least, h.Limits.MaxOpenings), withDepth(stock.FilterGrilles(), h.thinDepth()))
	slots, cabinets := thin(stock.Filters()), stock.Cabinets()
	add(InSlot, 1, h.slotsFor(slots), slots)
	add(InCabinet, 1, h.slotsFor(cabinets), cabinets)
	if c, found := h.largestCabinet(cabinets); found && float64(h.DesignAirflow)/float64(c.size.Face()) > fastestWorth*float64(h.TargetFaceVelocity) {
		out = append(out, c)
	}
	return out
}

// stood stacks two filters where the room takes them so and not side by side.
func (h *house) stood(c candidate) candidate {
	if c.place == InGrille || c.count < 2 || h.hasRoom(c) {
		return c
	}
	stacked := c
	if stacked.stacked = true; h.hasRoom(stacked) {
		return stacked
	}
	return c
}

// hasRoom tells whether a casing for the candidate goes into the room.
func (h *house) hasRoom(c candidate) bool { return len(h.roomBreaches(c.slot())) == 0 }

func (c candidate) slot() Slot {
	return Slot{Width: c.size.Width, Height: c.size.Height, Depth: c.size.Depth, Count: c.count, Stacked: c.stacked}
}

// largestCabinet is the single cabinet of the most face that goes into the room,
// the deeper one of two alike.
func (h *house) largestCabinet(cabinets []stock.Size) (candidate, bool) {
	best, found := candidate{}, false
	for _, s := range stock.Of(h.sizeSystem(), cabinets) {
		c := candidate{place: InCabinet, count: 1, size: s}
		more := cmp.Or(compareLoose(float64(s.Face()), float64(best.size.Face())), cmp.Compare(s.Depth, best.size.Depth)) > 0
		if more && h.hasRoom(c) {
			best, found = c, true
		}
	}
	return best, found
}

// slotsFor is 2 where no single size that has room keeps the target.
func (h *house) slotsFor(sizes []stock.Size) int {
	for _, s := range stock.Of(h.sizeSystem(), sizes) {
		needed := units.Area(float64(h.DesignAirflow) / float64(h.sizeVelocity(InSlot, s.Depth)))
		if s.Face() >= needed && h.hasRoom(candidate{count: 1, size: s}) {
			return 1
		}
	}
	return 2
}

// sizeVelocity is the face velocity at the design airflow that sizes of a place
// and depth are looked for at: the target, or what the ticked sets ask of them.
func (h *house) sizeVelocity(place PlaceKind, depth units.Length) units.Speed {
	v := h.TargetFaceVelocity
	if !slices.Contains(h.Limits.Checks, Title24) {
		return v
	}
	if depth < title24Deep {
		v = min(v, title24Thin)
	}
	if gross, ok := tableGross(h.Equipment.CoolingCapacity); ok && place == InGrille {
		v = min(v, units.Speed(float64(h.DesignAirflow)/float64(gross)))
	}
	return v
}

func (h *house) thinDepth() units.Length {
	if h.sizeSystem() == units.SI {
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

// thin keeps the filters of slots.
func thin(sizes []stock.Size) []stock.Size {
	return slices.DeleteFunc(sizes, func(s stock.Size) bool { return isDeep(s.Depth) })
}

// sizeFilter is the make that would go into a place of a depth: the job's own
// of that depth and MERV, else a generic one.
func (h *house) sizeFilter(depth units.Length) filter.Filter {
	least := h.leastMERV()
	for _, f := range h.Filters {
		if f.Name != GenericFilterName && math.Abs(float64(f.Depth-depth)) < float64(sameDepth) && ratedMERV(f) >= least {
			return f
		}
	}
	return filter.Filter{Name: genericName(least), Depth: depth, MERV: least}
}

func genericName(merv int) string { return fmt.Sprintf("generic MERV %d", merv) }

// solveSize solves the house as Take would make it with the size.
func (h *house) solveSize(c candidate) (Size, error) {
	f := h.sizeFilter(c.size.Depth)
	face := float64(c.count) * float64(c.size.Face())
	z := Size{
		Place: c.place, Count: c.count, Width: c.size.Width, Height: c.size.Height, Depth: c.size.Depth, Stacked: c.stacked,
		Label: label(c), Filter: f.Name, MERV: ratedMERV(f), FaceArea: units.Area(face), DesignFaceVelocity: units.Speed(float64(h.DesignAirflow) / face),
	}
	if c.place != InGrille {
		box := h.assembly(z.Slot(f.Name))
		z.Assembly = &box
	}
	h.trial = &f
	defer func() { h.trial = nil }()
	a, err := h.arrange(h.optionOf(z, f.Name), KindOption)
	if err != nil {
		return z, err
	}
	sys, err := h.system(a)
	if err != nil {
		return z, err
	}
	p, err := h.cooled(a, sys)
	if err != nil {
		return z, err
	}
	z.Airflow, z.ExternalStatic, z.BlowerPower = units.Flow(p.Flow), p.External, p.Power
	z.FaceVelocity = units.Speed(p.Flow / face)
	z.FilterDrop = units.Pressure(filterDrop(sys, p.Point))
	_, media := a.areas()
	z.MediaArea = units.Area(media)
	z.Misses = h.misses(z, a)
	z.Meets = len(z.Misses) == 0
	return z, nil
}

func label(c candidate) string {
	if c.count == 1 {
		return c.size.String()
	}
	return fmt.Sprintf("%d x %s", c.count, c.size)
}

// searching is the system for what asks for many points and little more than a
// picture of each: a filter's life, a curve to draw. Several branches without
// filters of their own stay as they are while a filter loads, so one table, that
// of today where the returns are today's, stands for them.
func (h *house) searching(a *arrangement, sys airpath.System) (airpath.System, error) {
	filtered := slices.ContainsFunc(a.places, func(p place) bool { return p.branch >= 0 })
	if len(sys.Branches) < 2 || filtered && !a.bare {
		return sys, nil
	}
	law := h.todayReturn
	if law == nil || !a.keepsReturns {
		var err error
		if law, err = sys.Table(float64(h.DesignAirflow)); err != nil {
			return sys, err
		}
		if a.keepsReturns {
			h.todayReturn = law
		}
	}
	return airpath.System{Series: append([]airpath.Part{{Name: "return", Law: law}}, sys.Series...)}, nil
}

// misses lists each limit that a solved size does not keep. Their sentences are
// left to be written for the sizes that stay on the list.
func (h *house) misses(z Size, a *arrangement) []Finding {
	var out []Finding
	miss := func(code, source, format string, args ...any) {
		out = append(out, Finding{Severity: Caution, Code: code, Source: source, format: format, args: args})
	}
	if exceeds(z.DesignFaceVelocity, h.TargetFaceVelocity) {
		needed := units.Area(float64(h.DesignAirflow) / float64(h.TargetFaceVelocity))
		miss(codeFaceVelocity, h.targetSource(), "face velocity %v is over the target %v: it wants %v of face, this has %v", z.DesignFaceVelocity, h.TargetFaceVelocity, needed, z.FaceArea)
	}
	if most, source := h.dropLimit(); z.FilterDrop > most {
		miss(codeFilterDrop, source, "clean drop %v is over the %v that a filter may take", z.FilterDrop, most)
	}
	for _, b := range h.breaches(a) {
		out = append(out, b.miss())
	}
	facts := filterFacts{merv: z.MERV, depth: z.Depth, face: z.FaceArea, atWall: z.Place == InGrille,
		drop: a.places[0].law.Drop(z.DesignFaceVelocity)}
	for _, f := range h.filterSets(facts, a.returns) {
		out = append(out, asMiss(f))
	}
	return out
}

const (
	codeFaceVelocity = "face_velocity"
	codeFilterDrop   = "filter_drop"
)

// markFront marks the sizes that no other of the same standing beats in
// openings, face area and drop at once.
func markFront(sizes []Size) {
	for i := range sizes {
		a := &sizes[i]
		a.Front = a.Meets
		for k := range sizes {
			if sizes[k].Meets && sizes[k].beats(a) {
				a.Front = false
			}
		}
	}
}

// beats tells that b is no worse than a in openings, face area and drop, and
// better in one of them.
func (b *Size) beats(a *Size) bool {
	face, drop := compareLoose(float64(b.FaceArea), float64(a.FaceArea)), compareLoose(float64(b.FilterDrop), float64(a.FilterDrop))
	noWorse := b.Count <= a.Count && face <= 0 && drop <= 0
	better := b.Count < a.Count || face < 0 || drop < 0
	return noWorse && better
}

// rank puts the sizes in order. Without a price list the cost of a size is taken as
// its metal and media: face area, and as much again for every 4 in of depth.
func rank(sizes []Size, dropNow float64) []Size {
	metal := func(s *Size) float64 { return float64(s.FaceArea) * (1 + s.Depth.In(4*units.Inch)) }
	value := func(a, b *Size) int {
		x, y := (dropNow-float64(a.FilterDrop))/metal(a), (dropNow-float64(b.FilterDrop))/metal(b)
		if math.Abs(x-y) <= 1e-9*max(dropNow, float64(a.FilterDrop), float64(b.FilterDrop))/min(metal(a), metal(b)) {
			return 0 // within the rounding of the drops, of which little may be left
		}
		return cmp.Compare(x, y)
	}
	ranked := make([]*Size, len(sizes))
	for i := range sizes {
		ranked[i] = &sizes[i]
	}
	slices.SortStableFunc(ranked, func(a, b *Size) int {
		return cmp.Or(
			order(b.Meets, a.Meets),
			cmp.Compare(len(a.Misses), len(b.Misses)),
			cmp.Compare(a.Count, b.Count),
			value(b, a),
			compareLoose(float64(a.FaceArea), float64(b.FaceArea)),
		)
	})
	out := make([]Size, len(sizes))
	for i, s := range ranked {
		out[i] = *s
	}
	return out
}

func order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// trim keeps all that meet, the nearest of those that do not, and those asked for.
func trim(sizes []Size, keep []*Size) []Size {
	n := slices.IndexFunc(sizes, func(z Size) bool { return !z.Meets })
	if n < 0 {
		return sizes
	}
	n = min(len(sizes), n+nearMisses)
	out := sizes[:n:n]
	for _, z := range sizes[n:] {
		if slices.ContainsFunc(keep, func(k *Size) bool { return k.key() == z.key() }) {
			out = append(out, z)
		}
	}
	return out
}

// compareLoose takes numbers within rounding as equal, so that the units in which
// a house was typed do not decide between two like sizes.
func compareLoose(a, b float64) int {
	if math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return cmp.Compare(a, b)
}
