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

// Places that a size may be for.
const (
	InGrille  = "grille"  // filter grilles in the wall
	InSlot    = "slot"    // a thin filter at the equipment
	InCabinet = "cabinet" // a deep filter at the equipment
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
	now, err := h.meet(today, base.tap, h.offset)
	if err != nil {
		return nil, Answer{}, err
	}
	all, err := h.solveSizes(base)
	if err != nil {
		return nil, Answer{}, err
	}
	picked := answer(all)
	markFront(all)
	out := trim(rank(all, h.filterDropNow(base, now)))
	for i := range out {
		out[i].write()
	}
	for _, z := range picked.sizes() {
		z.write()
	}
	return out, picked, nil
}

func (h *house) solveSizes(base *arrangement) ([]Size, error) {
	bases, err := h.sizeBases(base)
	if err != nil {
		return nil, err
	}
	candidates := h.candidates()
	out := make([]Size, 0, len(candidates))
	for _, c := range candidates {
		s, err := h.solveSize(c, base, bases)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

// write puts what the size misses into words.
func (z *Size) write() {
	for k := range z.Misses {
		m := &z.Misses[k]
		m.Text = m.In(units.IP)
	}
}

func (h *house) filterDropNow(a *arrangement, p airpath.Point) float64 {
	if c := a.central(); c != nil {
		return c.drop(p.Flow)
	}
	sum := 0.0
	for i := range a.places {
		q := p.Branches[a.places[i].branch]
		sum += a.places[i].drop(q) * q / p.Flow
	}
	return sum
}

// candidate is a size before it is solved.
type candidate struct {
	place string
	count int
	size  stock.Size
}

func (h *house) sizeSystem() units.System {
	if h.Limits.NominalSizes == MetricSizes {
		return units.SI
	}
	return units.IP
}

// candidates are the nominal sizes worth solving. A further opening of one size
// is looked at only where one fewer would not keep the target.
func (h *house) candidates() []candidate {
	var out []candidate
	add := func(place string, least, most int, sizes []stock.Size) {
		for _, s := range sizes {
			if s.System != h.sizeSystem() {
				continue
			}
			for n := least; n <= most; n++ {
				v := float64(h.DesignAirflow) / (float64(n) * float64(s.Face())) / float64(h.TargetFaceVelocity)
				if v >= slowestWorth && v <= fastestWorth {
					out = append(out, candidate{place, n, s})
				}
				if v <= 1 {
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
	return out
}

// slotsFor is 2 where no single size keeps the target: a filter on each side
// of the equipment.
func (h *house) slotsFor(sizes []stock.Size) int {
	for _, s := range sizes {
		box := s
		box.Depth = 0
		if s.System == h.sizeSystem() && s.Face() >= units.Area(float64(h.DesignAirflow)/float64(h.TargetFaceVelocity)) &&
			fits(box, h.Limits.CabinetWidth, h.Limits.CabinetHeight) {
			return 1
		}
	}
	return 2
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

// thickest is the depth up to which a filter counts as thin: nominal 2 in.
const thickest = 2.1 * units.Inch

// thin keeps the filters of slots.
func thin(sizes []stock.Size) []stock.Size {
	return slices.DeleteFunc(sizes, func(s stock.Size) bool { return s.Depth > thickest })
}

// sizeFilter is the make that would go into a place of a depth: the job's own
// of that depth and MERV, else a generic one.
func (h *house) sizeFilter(depth units.Length) filter.Filter {
	for _, f := range h.Filters {
		if f.Name != GenericFilterName && math.Abs(float64(f.Depth-depth)) < float64(0.3*units.Inch) && f.MERV >= h.Limits.MinMERV {
			return f
		}
	}
	return filter.Filter{Name: fmt.Sprintf("generic MERV %d", h.Limits.MinMERV), Depth: depth, MERV: h.Limits.MinMERV}
}

func (h *house) solveSize(c candidate, base *arrangement, bases sizeBases) (Size, error) {
	f := h.sizeFilter(c.size.Depth)
	law, err := h.sizeLaw(f, c)
	if err != nil {
		return Size{}, h.filterFault(f, err)
	}
	face := float64(c.count) * float64(c.size.Face())
	s := Size{
		Place: c.place, Count: c.count, Width: c.size.Width, Height: c.size.Height, Depth: c.size.Depth,
		Label: label(c), Filter: f.Name, FaceArea: units.Area(face),
		MediaArea: units.Area(face * law.MediaAreaRatio), DesignFaceVelocity: units.Speed(float64(h.DesignAirflow) / face),
	}
	sys, err := h.sizeSystemOf(c, base, bases, law, face)
	if err != nil {
		return s, err
	}
	p, err := h.meet(sys, base.tap, h.offset)
	if err != nil {
		return s, err
	}
	s.Airflow, s.ExternalStatic = units.Flow(p.Flow), units.Pressure(p.Static)
	s.FaceVelocity = units.Speed(p.Flow / face)
	s.FilterDrop = law.Drop(s.FaceVelocity)
	s.BlowerPower, _ = h.curves[base.tap].Power(units.Pressure(p.Static - h.given(p.Flow)))
	s.Misses = h.misses(c, s, f)
	s.Meets = len(s.Misses) == 0
	return s, nil
}

// sizeLaw carries a make's law over by face velocity from its own size: its
// pitch is the same in every size, but for the rounding of the pleat count.
func (h *house) sizeLaw(f filter.Filter, c candidate) (filter.Law, error) {
	w, hh := c.size.Width, c.size.Height
	if f.Width > 0 {
		w, hh = f.Width, f.Height
	}
	law, err := h.law(f, w, hh)
	if err == nil && c.place != InGrille && h.gauged(f) {
		law.Curve = law.Curve.Scale(h.gauge.filterScale)
	}
	return law, err
}

func label(c candidate) string {
	if c.count == 1 {
		return c.size.String()
	}
	return fmt.Sprintf("%d x %s", c.count, c.size)
}

// sizeBases are the house without its filters.
type sizeBases struct {
	equipment airpath.System // for filters at the equipment
	ducts     []airpath.Law  // of each branch, as described; nil where it has none
}

func (h *house) sizeBases(base *arrangement) (sizeBases, error) {
	b := sizeBases{ducts: make([]airpath.Law, len(base.returns))}
	a := *base
	a.places, a.slot = nil, Slot{None: true}
	var err error
	if b.equipment, err = h.tabled(&a); err != nil {
		return b, err
	}
	for i, r := range base.returns {
		if b.ducts[i], err = h.ducts(r); err != nil {
			return b, err
		}
	}
	return b, nil
}

// tabled is the arrangement with its branches as one tabled law.
func (h *house) tabled(a *arrangement) (airpath.System, error) {
	sys, err := h.system(a)
	if err != nil || len(sys.Branches) == 0 {
		return sys, err
	}
	return h.tableOf(sys, a)
}

// tableOf puts one tabled law in the place of the branches of an arrangement's
// system, which hold no filters. Today's serves all that keep today's returns.
func (h *house) tableOf(sys airpath.System, a *arrangement) (airpath.System, error) {
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

// searching is the system for what asks for many points and little more than a
// picture of each: a filter's life, a curve to draw. Several branches without
// filters of their own stay as they are while a filter loads, so one table
// serves.
func (h *house) searching(a *arrangement, sys airpath.System) (airpath.System, error) {
	filtered := slices.ContainsFunc(a.places, func(p place) bool { return p.branch >= 0 })
	if len(sys.Branches) < 2 || filtered && !a.bare {
		return sys, nil
	}
	return h.tableOf(sys, a)
}

// sizeSystemOf puts the candidate into the house in place of today's filters, as
// Take makes an option of it.
func (h *house) sizeSystemOf(c candidate, base *arrangement, bases sizeBases, law filter.Law, face float64) (airpath.System, error) {
	if c.place == InGrille && len(base.returns) > 0 {
		return h.grilleEach(c, base, bases, law)
	}
	return bases.equipment.After(airpath.Part{Name: "filter", Law: lawOver(law.Curve, face)}), nil
}

// lawOver is a filter's law against the flow through its face.
func lawOver(c filter.Curve, face float64) airpath.Law {
	return func(q float64) float64 { return float64(c.Drop(units.Speed(q / face))) }
}

// grilleEach puts one filter grille of the candidate's size into each branch,
// and adds branches like the last one where it has more openings.
func (h *house) grilleEach(c candidate, base *arrangement, bases sizeBases, law filter.Law) (airpath.System, error) {
	returns := withGrilles(slices.Clone(base.returns), Size{Count: c.count, Width: c.size.Width, Height: c.size.Height}, "")
	sys := airpath.System{Branches: make([]airpath.Branch, len(returns)), Series: h.serving}
	filters := airpath.Part{Name: "filter", Law: lawOver(law.Curve, float64(c.size.Face()))}
	gauged := h.inherits(returns)
	for i, r := range returns {
		b, err := h.branchOf(r, i, at(gauged, i), &filters, bases.ducts[min(i, len(bases.ducts)-1)])
		if err != nil {
			return sys, err
		}
		sys.Branches[i] = b
	}
	return sys, nil
}

// misses lists each limit that a solved size does not keep. Their sentences are
// left to be written for the sizes that stay on the list.
func (h *house) misses(c candidate, s Size, f filter.Filter) []Finding {
	var out []Finding
	l := h.Limits
	miss := func(code, source, format string, args ...any) {
		out = append(out, Finding{Severity: Caution, Code: code, Source: source, format: format, args: args})
	}
	if exceeds(s.DesignFaceVelocity, h.TargetFaceVelocity) {
		miss("face_velocity", h.targetSource(), "face velocity %v is over the target %v", s.DesignFaceVelocity, h.TargetFaceVelocity)
	}
	if most, source := h.dropLimit(); s.FilterDrop > most {
		miss("filter_drop", source, "clean drop %v is over the %v that a filter may take", s.FilterDrop, most)
	}
	if f.MERV < l.MinMERV {
		miss("merv", "the job's limit", "MERV %v is under %v", f.MERV, l.MinMERV)
	}
	switch c.place {
	case InGrille:
		w, hh := l.WallWidth, l.WallHeight
		face := stock.Size{Width: c.size.Width, Height: c.size.Height, System: c.size.System}
		if !fits(face, w, hh) {
			miss("wall", "the wall opening", "does not fit the wall opening of %v by %v", w, hh)
		}
		if b := l.StudBay; b > 0 && min(c.size.Width, c.size.Height) > b+0.26*units.Inch {
			miss("stud_bay", "the stud bay", "wider than the stud bay of %v", b)
		}
	default:
		box := c.size
		if c.place == InCabinet {
			box = c.size.Box()
			box.Depth = 0
		}
		if !fits(box, l.CabinetWidth, l.CabinetHeight) {
			miss("room", "the room at the equipment", "does not fit the room of %v by %v", l.CabinetWidth, l.CabinetHeight)
		}
		if d := l.CabinetDepth; d > 0 && c.place == InCabinet && c.size.Box().Depth > d {
			miss("depth", "the room at the equipment", "needs %v along the airflow, there is %v", c.size.Box().Depth, d)
		}
	}
	return out
}

// fits takes a side of zero as free.
func fits(s stock.Size, w, h units.Length) bool {
	free := 1000 * units.Inch
	if w == 0 {
		w = free
	}
	if h == 0 {
		h = free
	}
	return stock.Fits(s, w, h)
}

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

// trim keeps all that meet and the nearest of those that do not.
func trim(sizes []Size) []Size {
	n := slices.IndexFunc(sizes, func(s Size) bool { return !s.Meets })
	if n < 0 {
		return sizes
	}
	return sizes[:min(len(sizes), n+nearMisses)]
}

// answer picks, for each place, the size that meets with the fewest openings
// and the least face; where none meets, the one that fits the room and misses
// the fewest other limits, the least face first where it keeps the face velocity.
func answer(sizes []Size) Answer {
	pick := func(place string) *Size {
		var best *Size
		for i := range sizes {
			if s := &sizes[i]; s.Place == place && s.goesIn() && (best == nil || s.nearer(best)) {
				best = s
			}
		}
		if best == nil {
			return nil
		}
		copied := *best
		copied.Misses = slices.Clone(best.Misses)
		return &copied
	}
	return Answer{Grille: pick(InGrille), Slot: pick(InSlot), Cabinet: pick(InCabinet)}
}

// goesIn tells that nothing of the house is in the size's way: all that it may
// miss is about the air.
func (z *Size) goesIn() bool {
	return !slices.ContainsFunc(z.Misses, func(m Finding) bool { return m.Code != "face_velocity" && m.Code != "filter_drop" })
}

func (z *Size) nearer(best *Size) bool {
	fast := func(s *Size) bool {
		return slices.ContainsFunc(s.Misses, func(m Finding) bool { return m.Code == "face_velocity" })
	}
	face := compareLoose(float64(z.FaceArea), float64(best.FaceArea))
	if fast(z) && fast(best) {
		face = -face
	}
	return cmp.Or(cmp.Compare(len(z.Misses), len(best.Misses)), order(fast(z), fast(best)),
		cmp.Compare(z.Count, best.Count), face, cmp.Compare(z.Depth, best.Depth)) < 0
}

// compareLoose takes numbers within rounding as equal, so that the units in which
// a house was typed do not decide between two like sizes.
func compareLoose(a, b float64) int {
	if math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return cmp.Compare(a, b)
}
