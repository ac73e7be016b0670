package house

import (
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// House is a job made ready to solve: nothing open, every law compiled.
type House struct {
	*assume.CompleteJob
	State         air.State // return air in cooling
	Heated        air.State // return air in heating
	Air           air.Properties
	ratio         float64 // density to that of blower tables
	Curves        map[string]blower.Curve
	laws          map[lawKey]filter.Law
	lawCache      *LawCache   // across solves; nil: none
	TableIncludes airpath.Law // what the blower table already holds
	Gauge         gauge
	CoolingCoil   thermal.Coil      // as rated; of no use without cooling
	wetBulb       units.Temperature // of the air that enters it; zero: not found yet
	supplySide    []airpath.Part    // coil and supply
	bases         map[string]string
	// spedTaps are the curves made by the fan laws, in the order of the options.
	adjustedTaps []string
	// Today's branches without filters, and return sides as one tabled law each, once made.
	todayBranches []airpath.Branch
	returnTables  []returnTable
	ductLaws      map[ductKey]airpath.Law
	met           []met          // where each tap was last met
	Trial         *filter.Filter // a make under trial that the job does not hold
}

// lawKey is a make in a face.
type lawKey struct {
	name                 string
	depth, width, height units.Length
}

func New(a *assume.CompleteJob, memo *LawCache) (*House, error) {
	h := &House{CompleteJob: a, lawCache: memo, Curves: map[string]blower.Curve{}, laws: map[lawKey]filter.Law{}, ductLaws: map[ductKey]airpath.Law{}, bases: map[string]string{}}
	var err error
	if h.State, err = air.FromWetBulb(a.Site.Altitude, a.Site.IndoorDryBulb, a.Site.IndoorWetBulb); err != nil {
		return nil, job.FieldErrors{{Path: "site.indoor_wet_bulb", Given: a.Site.IndoorWetBulb.String(), Wanted: err.Error()}}
	}
	if h.Heated, err = air.New(a.Site.Altitude, a.Site.HeatingIndoor, assume.HeatingHumidity); err != nil {
		return nil, job.FieldErrors{{Path: "site.heating_indoor", Given: a.Site.HeatingIndoor.String(), Wanted: err.Error()}}
	}
	h.Air = h.State.Properties()
	h.ratio = float64(h.Air.Density) / float64(air.StandardDensity)
	for _, tap := range a.Equipment.Blower.Taps {
		if h.Curves[tap.Name], err = h.curve(tap); err != nil {
			return nil, job.FieldErrors{{Path: "equipment.blower.taps", Given: tap.Name, Wanted: err.Error()}}
		}
	}
	if h.Equipment.Kind != job.Furnace {
		if h.CoolingCoil, err = h.coolingCoil(); err != nil {
			return nil, err
		}
	}
	if err := h.readTableIncludes(); err != nil {
		return nil, err
	}
	if err := h.readGauge(); err != nil {
		return nil, err
	}
	h.todayBranches = nil // compiled before the gauge had its say
	h.compileSupplySide()
	return h, nil
}

// tableFilter is the clean throw-away filter that blower tables "with filter"
// are usually measured with.
var tableFilter = filter.Filter{Name: "filter of the blower table", Depth: units.Inch, MERV: 4}

// readTableIncludes settles what the blower table already holds. A wet coil inside the
// table is left out of the external parts; a filter inside it is credited with
// a usual throw-away filter's drop.
func (h *House) readTableIncludes() error {
	for _, in := range h.Equipment.Blower.Includes {
		switch in {
		case blower.IncludesWetCoil:
			h.Note("coil", "the blower table", "the blower table was measured with a wet coil: its drop is inside the table")
		case blower.IncludesFilter:
			w, hh := assume.UsualSlot(h.DesignAirflow)
			law, err := tableFilter.Law(w, hh, h.Air)
			if err != nil {
				return err
			}
			face := float64(w) * float64(hh)
			h.TableIncludes = func(q float64) float64 { return float64(law.Drop(units.Speed(q / face))) }
			h.Note("equipment.blower.includes", assume.CommonPractice, "the blower table was measured with a clean throw-away filter of %v by %v in place", w, hh)
		}
	}
	return nil
}

// CoilIsInside tells whether the coil's drop is within the rated static.
func (h *House) CoilIsInside() bool {
	if h.Equipment.Kind == job.AirHandler {
		return true
	}
	for _, in := range h.Equipment.Blower.Includes {
		if in == blower.IncludesWetCoil {
			return true
		}
	}
	return false
}

func (h *House) HasCoil() bool { return h.Coil.Drop > 0 }

func law(p job.Part) airpath.Law {
	return airpath.Power(float64(p.Drop), float64(p.Airflow), p.Exponent)
}

func (h *House) compileSupplySide() {
	if h.HasCoil() && !h.CoilIsInside() {
		h.supplySide = append(h.supplySide, airpath.Part{Name: "coil", Law: law(h.Coil)})
	}
	h.supplySide = append(h.supplySide, airpath.Part{Name: "supply", Law: law(h.Supply)})
}

// Arrangement is the return side with one set of filters.
type Arrangement struct {
	name       string
	kind       study.OptionKind
	Returns    []job.Return
	Slot       job.Slot
	Tap        string // cooling
	heatingTap string
	fanTap     string // with neither
	Price      units.Money
	NoFilters  bool // every filter taken out
	// keepsReturns says that the return side is today's.
	KeepsReturns bool
	kept         []GaugeFactors // of the gauge's factor, by branch
	Places       []place
	// As last solved: the point, and the share of the air of each place that slips
	// past its frame, and of all return air that the place carries.
	point  airpath.Point
	leaks  []float64
	shares []float64
}

// place is one spot that holds a filter.
type place struct {
	branch        int // -1: the central slot
	Filter        filter.Filter
	width, height units.Length // of one filter
	count         int          // filters of that size; zero is one
	Law           filter.Law
	loading       filter.Loading
	held          float64      // share of the dust in the air through it
	curve         filter.Curve // in its present state, without the gap
	seat          filter.Seat
	seated        filter.Seated // the present state in its seat
}

// frames is how many filters the place holds.
func (p *place) frames() int { return max(p.count, 1) }

// frame is the nominal face of one filter, m2.
func (p *place) frame() float64 { return float64(p.width) * float64(p.height) }

// face is that of all filters of the place, m2.
func (p *place) face() float64 { return float64(p.frames()) * p.frame() }

// drop is the filter's drop at flow q, the media and the gap in parallel, bowed
// as that drop bows it.
func (p *place) drop(q float64) float64 {
	return float64(p.seated.Drop(units.Flow(q / float64(p.frames()))))
}

// heldAt is one of the place's filters in its seat, where all of them carry a flow.
func (p *place) heldAt(q float64) filter.Held {
	return p.seated.At(units.Flow(q / float64(p.frames())))
}

// Become puts the filter into a state.
func (p *place) Become(c filter.Curve) {
	p.curve, p.seated = c, p.seated.With(c)
}

// sit puts the filter into its seat, or out of it.
func (p *place) sit(left bool, a air.Properties) (err error) {
	p.seat.Left = left
	p.seated, err = p.Filter.Seat(p.curve, p.width, p.height, p.seat, a)
	return err
}

func (h *House) Arrange(o job.Option, kind study.OptionKind) (*Arrangement, error) {
	a := &Arrangement{name: o.Name, kind: kind, Returns: h.Returns, Slot: h.Slot, Tap: h.Equipment.Blower.CoolingTap, Price: o.Price}
	if o.Tap != "" {
		a.Tap = o.Tap
	}
	var err error
	if a.Tap, err = h.tapAtSpeed(a.Tap, o.SpeedRatio); err != nil {
		return nil, err
	}
	if a.heatingTap, err = h.tapAtSpeed(h.Equipment.Blower.HeatingTap, o.SpeedRatio); err != nil {
		return nil, err
	}
	// A fan tap that nobody typed is the cooling tap, also of an option.
	if a.fanTap = a.Tap; h.Site.FanHours > 0 && !h.Assumes("equipment.blower.fan_tap") {
		if a.fanTap, err = h.tapAtSpeed(h.Equipment.Blower.FanTap, o.SpeedRatio); err != nil {
			return nil, err
		}
	}
	if a.KeepsReturns = len(o.Returns) == 0; !a.KeepsReturns {
		a.Returns = make([]job.Return, len(o.Returns))
		for i, r := range o.Returns {
			a.Returns[i] = h.Complete(r)
		}
	}
	if o.Slot != (job.Slot{}) {
		a.Slot = h.completeSlot(o.Slot, o.Filter)
	}
	if o.Filter != "" {
		a.Returns = withFilter(a.Returns, o.Filter)
		if !a.Slot.None {
			a.Slot.Filter = o.Filter
		}
	}
	a.kept = h.RetainedFactors(a.Returns)
	if err := h.placeFilters(a); err != nil {
		return nil, err
	}
	return a, nil
}

// withFilter is branches with another filter in each that has one.
func withFilter(branches []job.Return, name string) []job.Return {
	other := func(r job.Return) bool { return r.Filter != "" && r.Filter != name }
	if !slices.ContainsFunc(branches, other) {
		return branches
	}
	branches = slices.Clone(branches)
	for i := range branches {
		if branches[i].Filter != "" {
			branches[i].Filter = name
		}
	}
	return branches
}

// completeSlot takes what a new slot leaves open from its filter or from today.
func (h *House) completeSlot(s job.Slot, name string) job.Slot {
	if s.None {
		return s
	}
	if s.Filter == "" {
		s.Filter = name
	}
	if s.Filter == "" {
		s.Filter = h.Slot.Filter
	}
	f, _ := h.Filter(s.Filter)
	if s.Width == 0 {
		s.Width, s.Height = f.Width, f.Height
	}
	if s.Width == 0 {
		s.Width, s.Height = h.Slot.Width, h.Slot.Height
		if s.Count == 0 {
			s.Count, s.Stacked = h.Slot.Count, h.Slot.Stacked
		}
	}
	if s.Width == 0 {
		s.Width, s.Height = assume.UsualSlot(h.DesignAirflow)
	}
	if s.Depth == 0 {
		s.Depth = f.Depth
	}
	if s.Depth == 0 {
		s.Depth = units.Inch
	}
	if s.Filter == "" {
		s.Filter = assume.GenericFilterName
	}
	return s
}

func (h *House) placeFilters(a *Arrangement) error {
	n := 0 // a place is large, and most branches hold none
	for _, r := range a.Returns {
		if r.Filter != "" {
			n++
		}
	}
	if !a.Slot.None {
		n++
	}
	a.Places = make([]place, 0, n)
	for i, r := range a.Returns {
		if r.Filter == "" {
			continue
		}
		p, err := h.place(i, r.Filter, job.Slot{Width: r.Grille.Width, Height: r.Grille.Height})
		if err != nil {
			return err
		}
		a.Places = append(a.Places, p)
	}
	if !a.Slot.None {
		p, err := h.place(-1, a.Slot.Filter, a.Slot)
		if err != nil {
			return err
		}
		p.count = a.Slot.Filters()
		a.Places = append(a.Places, p)
	}
	return nil
}

// place puts a filter into a slot, or behind a grille, whose frame is taken as
// sealed.
func (h *House) place(branch int, name string, s job.Slot) (place, error) {
	f, ok := h.Filter(name)
	if !ok {
		f = filter.Filter{Name: name, Depth: s.Depth, MERV: 8}
	}
	if s.Depth > 0 && (f.Depth == 0 || name == assume.GenericFilterName) {
		f.Depth = s.Depth
	}
	law, err := h.law(f, s.Width, s.Height)
	if err != nil {
		return place{}, h.filterFault(f, err)
	}
	if branch < 0 && h.setByGauge(f) {
		law = law.Scale(h.Gauge.FilterScale)
		law.Source = "gauge"
	}
	p := place{branch: branch, Filter: f, width: s.Width, height: s.Height, Law: law, curve: law.Curve}
	path := s.Depth
	if path == 0 {
		path = f.Depth
	}
	p.seat = filter.Seat{Crack: filter.FrameCrack(p.width, p.height, path, s.Gap, s.GapBends), Cover: h.edgeCover(s)}
	if p.loading, err = f.Loading(law); err == nil {
		p.held, err = f.DustCaught()
	}
	if err == nil {
		err = p.sit(false, h.Air)
	}
	if err != nil {
		return place{}, h.filterFault(f, err)
	}
	return p, nil
}

// Filter is a make by its name: the one under trial, else the job's.
func (h *House) Filter(name string) (filter.Filter, bool) {
	if h.Trial != nil && h.Trial.Name == name {
		return *h.Trial, true
	}
	return h.Job.Filter(name)
}

// setByGauge tells whether the gauge corrected the law of a make: it is today's in
// the slot, and as deep.
func (h *House) setByGauge(f filter.Filter) bool {
	return h.Gauge.FilterScale != 0 && f.Name == h.Slot.Filter && math.Abs(float64(f.Depth-h.Gauge.filterDepth)) < float64(SameDepth)
}

// law is the clean law of a filter in a face. A make of a known size keeps, in
// every size, the pitch of its own: its law is carried over without the rounding
// of the pleat count.
func (h *House) law(f filter.Filter, width, height units.Length) (filter.Law, error) {
	l, err := h.ownLaw(f, width, height)
	return f.InFace(l, width, height), err
}

// ownLaw is the law of a filter in its own size, or in the face where it has
// none, worked out once a solve.
func (h *House) ownLaw(f filter.Filter, width, height units.Length) (filter.Law, error) {
	if f.Width > 0 && f.Height > 0 {
		width, height = f.Width, f.Height
	}
	key := lawKey{f.Name, f.Depth, width, height}
	if l, ok := h.laws[key]; ok {
		return l, nil
	}
	l, err := h.lawCache.law(f, width, height, h.Air)
	if err == nil {
		if h.Perturbation != nil {
			switch l.Source {
			case filter.Generic: // all of a sample alike, as they err
				l = l.Scale(h.Perturbation.Assumed("generic filters"))
			case filter.FromMake:
				l = l.Scale(h.Perturbation.PleatModel())
			}
		}
		h.laws[key] = l
	}
	return l, err
}

func (h *House) filterFault(f filter.Filter, err error) error {
	for i, g := range h.Filters {
		if g.Name != f.Name {
			continue
		}
		if fe, ok := err.(*filter.FieldError); ok {
			return job.FieldErrors{{Path: fmt.Sprintf("filters[%d].%s", i, fe.Field), Given: fe.Given, Wanted: fe.Want}}
		}
		return job.FieldErrors{{Path: fmt.Sprintf("filters[%d]", i), Given: f.Name, Wanted: err.Error()}}
	}
	return err
}

// System joins the arrangement's parts. Its filter parts read the places'
// present curves, so a loaded filter needs no new system.
func (h *House) System(a *Arrangement) (airpath.System, error) {
	var s airpath.System
	var err error
	if s.Branches, err = h.branches(a); err != nil {
		return s, err
	}
	s.Series = make([]airpath.Part, 0, len(h.supplySide)+4)
	if len(a.Returns) == 0 {
		s.Series = append(s.Series, airpath.Part{Name: "return", Law: law(h.ReturnPart)})
	}
	if p := a.Central(); p != nil && !a.NoFilters {
		s.Series = append(s.Series, airpath.Part{Name: "filter", Law: p.drop})
	}
	if law := h.slotEntry(a.Slot); law != nil {
		s.Series = append(s.Series, airpath.Part{Name: "slot entry", Law: law})
	}
	if h.Gauge.Unexplained > 0 {
		s.Series = append(s.Series, h.unexplained())
	}
	s.Series = append(s.Series, h.supplySide...)
	return s, nil
}

// branches compiles the return branches of an arrangement. Those of today without
// filters serve every option and every size that leaves them so.
func (h *House) branches(a *Arrangement) ([]airpath.Branch, error) {
	bare := a.KeepsReturns && (a.NoFilters || !slices.ContainsFunc(a.Places, func(p place) bool { return p.branch >= 0 }))
	if bare && h.todayBranches != nil {
		return h.todayBranches, nil
	}
	out := make([]airpath.Branch, 0, len(a.Returns))
	for i := range a.Returns {
		b, err := h.branch(a, i)
		if err != nil {
			return nil, err
		}
		out = append(out, h.Perturbation.PerturbBranch(b, a.Returns[i].Grille))
	}
	if bare {
		h.todayBranches = out
	}
	return out, nil
}

// slotEntry is what a slot's own entry and turn take; nil: nothing.
func (h *House) slotEntry(s job.Slot) airpath.Law {
	k := s.EntryCoefficient * h.Perturbation.SlotEntry()
	if k == 0 || s.None {
		return nil
	}
	face, rho := float64(s.Filters())*float64(s.Width)*float64(s.Height), float64(h.Air.Density)
	return func(q float64) float64 {
		v := q / face
		return k * rho / 2 * v * absolute(v)
	}
}

func absolute(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

func (a *Arrangement) Central() *place {
	for i := range a.Places {
		if a.Places[i].branch < 0 {
			return &a.Places[i]
		}
	}
	return nil
}

func (a *Arrangement) inBranch(i int) *place {
	for k := range a.Places {
		if a.Places[k].branch == i {
			return &a.Places[k]
		}
	}
	return nil
}

// branch compiles one return branch of an arrangement.
func (h *House) branch(a *Arrangement, i int) (airpath.Branch, error) {
	r := a.Returns[i]
	ducts, err := h.ducts(r)
	if err != nil {
		return airpath.Branch{}, job.FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: err.Error()}}
	}
	if p := a.inBranch(i); p != nil && !a.NoFilters {
		return h.branchOf(r, i, At(a.kept, i), &airpath.Part{Name: "filter", Law: p.drop}, ducts)
	}
	return h.branchOf(r, i, At(a.kept, i), nil, ducts)
}

// branchOf joins grille, filter and duct in the order in which the air meets
// them; filter and ducts may be nil.
func (h *House) branchOf(r job.Return, i int, kept GaugeFactors, filters *airpath.Part, ducts airpath.Law) (airpath.Branch, error) {
	b := airpath.Branch{Name: job.BranchName(r, i), Parts: make([]airpath.Part, 0, 3)}
	if r.Grille.Width > 0 {
		law, err := r.Grille.Law()
		if err != nil {
			return b, job.FieldErrors{{Path: fmt.Sprintf("returns[%d].grille", i), Given: r.Name, Wanted: err.Error()}}
		}
		linear, quadratic := law.Coefficients(h.Air)
		if linear == 0 && quadratic == 0 && ducts == nil {
			quadratic = h.openHole(r.Grille)
		}
		b.Parts = append(b.Parts, airpath.Part{Name: "grille", Law: func(q float64) float64 {
			return kept.Grille * (linear*q + quadratic*q*absolute(q))
		}})
	}
	if filters != nil {
		b.Parts = append(b.Parts, *filters)
	}
	if ducts != nil {
		if kept.Duct != 1 {
			ducts = ducts.Scale(kept.Duct)
		}
		b.Parts = append(b.Parts, airpath.Part{Name: "duct", Law: ducts})
	}
	if len(b.Parts) == 0 {
		return b, job.FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: "a grille, a filter or a duct run"}}
	}
	return b, nil
}

// openHole is the k of k Q^2 of a grille that is all free area on no duct: the air
// that empties through it into the plenum loses its velocity pressure (Borda and
// Carnot). Without it such a return would take all air at no drop.
func (h *House) openHole(g duct.Grille) float64 {
	face := float64(g.Width) * float64(g.Height)
	return float64(h.Air.Density) / 2 / (face * face)
}

// ducts joins runs and fittings of a branch; nil where it has neither.
func (h *House) ducts(r job.Return) (airpath.Law, error) {
	if len(r.Runs) == 0 && len(r.Fittings) == 0 {
		return nil, nil
	}
	key := ductKey{first(r.Runs), len(r.Runs), first(r.Fittings), len(r.Fittings)}
	if law := h.ductLaws[key]; law != nil {
		return law, nil
	}
	law, err := h.compileDucts(r)
	if err == nil {
		h.ductLaws[key] = law
	}
	return law, err
}

// ductKey tells the ducts of a branch by the lists that hold them: the sizes of
// the search put a grille before today's very ducts.
type ductKey struct {
	runs     *duct.Run
	n        int
	fittings *duct.Fitting
	m        int
}

func first[T any](list []T) *T {
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}

func (h *House) compileDucts(r job.Return) (airpath.Law, error) {
	runs := make([]duct.Resistance, len(r.Runs))
	for i := range r.Runs {
		runs[i] = r.Runs[i].Resistance(h.Air)
	}
	minor := 0.0 // Pa s2/m6
	for _, f := range r.Fittings {
		zeta := f.Coefficient
		if zeta == 0 {
			z, _, err := f.LossCoefficient()
			if err != nil {
				return nil, err
			}
			zeta = z
		}
		s := job.Section(f, r)
		minor += float64(max(f.Count, 1)) * zeta * float64(h.Air.Density) / 2 / (s * s)
	}
	return func(q float64) float64 {
		p := minor * q * absolute(q)
		for i := range runs {
			p += runs[i].Drop(q)
		}
		return p
	}, nil
}

// SameDepth is how near two nominal depths are of one kind of filter.
const SameDepth = 0.3 * units.Inch
