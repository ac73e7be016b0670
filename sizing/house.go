package sizing

import (
	"fmt"
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// house is a job made ready to solve: nothing open, every law compiled.
type house struct {
	*assumed
	state   air.State // return air in cooling
	heated  air.State // return air in heating
	air     air.Properties
	ratio   float64 // density to that of blower tables
	curves  map[string]blower.Curve
	laws    map[lawKey]filter.Law
	memo    *lawMemo // across solves; nil: none
	sweeps  *pleatStudies
	offset  airpath.Law // what the blower table already holds
	gauge   gauge
	coil    thermal.Coil   // as rated; of no use without cooling
	serving []airpath.Part // coil and supply
	bases   map[string]string
	// spedTaps are the curves made by the fan laws, in the order of the options.
	spedTaps []string
	// todayReturn is today's unfiltered branches as one tabled law, once made.
	todayReturn airpath.Law
	near        airpath.Point // where it was last solved
}

// lawKey is a make in a face.
type lawKey struct {
	name                 string
	depth, width, height units.Length
}

func newHouse(a *assumed, memo *lawMemo) (*house, error) {
	h := &house{assumed: a, memo: memo, sweeps: memo.pleats(), curves: map[string]blower.Curve{}, laws: map[lawKey]filter.Law{}, bases: map[string]string{}}
	var err error
	if h.state, err = air.FromWetBulb(a.Site.Altitude, a.Site.IndoorDryBulb, a.Site.IndoorWetBulb); err != nil {
		return nil, FieldErrors{{Path: "site.indoor_wet_bulb", Given: a.Site.IndoorWetBulb.String(), Wanted: err.Error()}}
	}
	if h.heated, err = air.New(a.Site.Altitude, a.Site.HeatingIndoor, 0.3); err != nil {
		return nil, FieldErrors{{Path: "site.heating_indoor", Given: a.Site.HeatingIndoor.String(), Wanted: err.Error()}}
	}
	h.air = h.state.Properties()
	h.ratio = float64(h.air.Density) / float64(air.StandardDensity)
	for _, tap := range a.Equipment.Blower.Taps {
		if h.curves[tap.Name], err = h.curve(tap); err != nil {
			return nil, FieldErrors{{Path: "equipment.blower.taps", Given: tap.Name, Wanted: err.Error()}}
		}
	}
	if h.Equipment.Kind != Furnace {
		if h.coil, err = h.coolingCoil(); err != nil {
			return nil, err
		}
	}
	if err := h.included(); err != nil {
		return nil, err
	}
	if err := h.readGauge(); err != nil {
		return nil, err
	}
	h.compileServing()
	return h, nil
}

// tableFilter is the clean throw-away filter that blower tables "with filter"
// are usually measured with.
var tableFilter = filter.Filter{Name: "filter of the blower table", Depth: units.Inch, MERV: 4}

// included settles what the blower table already holds. A wet coil inside the
// table is left out of the external parts; a filter inside it is credited with
// a usual throw-away filter's drop.
func (h *house) included() error {
	for _, in := range h.Equipment.Blower.Includes {
		switch in {
		case blower.IncludesWetCoil:
			h.note("coil", "the blower table", "the blower table was measured with a wet coil: its drop is inside the table")
		case blower.IncludesFilter:
			w, hh := usualSlot(h.DesignAirflow)
			law, err := tableFilter.Law(w, hh, h.air)
			if err != nil {
				return err
			}
			face := float64(w) * float64(hh)
			h.offset = func(q float64) float64 { return float64(law.Drop(units.Speed(q / face))) }
			h.note("equipment.blower.includes", commonPractice, "the blower table was measured with a clean throw-away filter of %v by %v in place", w, hh)
		}
	}
	return nil
}

// coilIsInside tells whether the coil's drop is within the rated static.
func (h *house) coilIsInside() bool {
	if h.Equipment.Kind == AirHandler {
		return true
	}
	for _, in := range h.Equipment.Blower.Includes {
		if in == blower.IncludesWetCoil {
			return true
		}
	}
	return false
}

func (h *house) hasCoil() bool { return h.Coil.Drop > 0 }

func (p Part) law() airpath.Law {
	return airpath.Power(float64(p.Drop), float64(p.Airflow), p.Exponent)
}

func (h *house) compileServing() {
	if h.hasCoil() && !h.coilIsInside() {
		h.serving = append(h.serving, airpath.Part{Name: "coil", Law: h.Coil.law()})
	}
	h.serving = append(h.serving, airpath.Part{Name: "supply", Law: h.Supply.law()})
}

// arrangement is the return side with one set of filters.
type arrangement struct {
	name, kind string
	returns    []Return
	slot       Slot
	tap        string // cooling
	heatingTap string
	fanTap     string // with neither
	price      units.Money
	bare       bool // every filter taken out
	// keepsReturns says that the return side is today's.
	keepsReturns bool
	kept         []kept // of the gauge's factor, by branch
	places       []place
	// As last solved: the point, and the share of the air of each place that slips
	// past its frame, and of all return air that the place carries.
	point  airpath.Point
	leaks  []float64
	shares []float64
}

// place is one spot that holds a filter.
type place struct {
	branch        int // -1: the central slot
	filter        filter.Filter
	width, height units.Length
	law           filter.Law
	loading       filter.Loading
	held          float64      // share of the dust in the air through it
	curve         filter.Curve // in its present state, without the gap
	seat          filter.Seat
	seated        filter.Seated // the present state in its seat
}

func (p *place) face() float64 { return float64(p.width) * float64(p.height) }

// drop is the filter's drop at flow q, the media and the gap in parallel, bowed
// as that drop bows it.
func (p *place) drop(q float64) float64 { return float64(p.seated.Drop(units.Flow(q))) }

// become puts the filter into a state.
func (p *place) become(c filter.Curve) {
	p.curve, p.seated = c, p.seated.With(c)
}

// sit puts the filter into its seat, or out of it.
func (p *place) sit(left bool, a air.Properties) (err error) {
	p.seat.Left = left
	p.seated, err = p.filter.Seat(p.curve, p.width, p.height, p.seat, a)
	return err
}

func (h *house) arrange(o Option, kind string) (*arrangement, error) {
	a := &arrangement{name: o.Name, kind: kind, returns: h.Returns, slot: h.Slot, tap: h.Equipment.Blower.CoolingTap, price: o.Price}
	if o.Tap != "" {
		a.tap = o.Tap
	}
	var err error
	if a.tap, err = h.sped(a.tap, o.SpeedRatio); err != nil {
		return nil, err
	}
	if a.heatingTap, err = h.sped(h.Equipment.Blower.HeatingTap, o.SpeedRatio); err != nil {
		return nil, err
	}
	if a.fanTap = a.tap; h.Equipment.Blower.FanTap != h.Equipment.Blower.CoolingTap {
		if a.fanTap, err = h.sped(h.Equipment.Blower.FanTap, o.SpeedRatio); err != nil {
			return nil, err
		}
	}
	if a.keepsReturns = len(o.Returns) == 0; !a.keepsReturns {
		a.returns = o.Returns
	}
	if o.Slot != (Slot{}) {
		a.slot = h.completeSlot(o.Slot, o.Filter)
	}
	if o.Filter != "" {
		a.returns = cloneReturns(a.returns)
		for i := range a.returns {
			if a.returns[i].Filter != "" {
				a.returns[i].Filter = o.Filter
			}
		}
		if !a.slot.None {
			a.slot.Filter = o.Filter
		}
	}
	a.kept = h.inherits(a.returns)
	if err := h.placeFilters(a); err != nil {
		return nil, err
	}
	return a, nil
}

// completeSlot takes what a new slot leaves open from its filter or from today.
func (h *house) completeSlot(s Slot, name string) Slot {
	if s.None {
		return s
	}
	if s.Filter == "" {
		s.Filter = name
	}
	if s.Filter == "" {
		s.Filter = h.Slot.Filter
	}
	f, _ := h.filter(s.Filter)
	if s.Width == 0 {
		s.Width, s.Height = f.Width, f.Height
	}
	if s.Width == 0 {
		s.Width, s.Height = h.Slot.Width, h.Slot.Height
	}
	if s.Width == 0 {
		s.Width, s.Height = usualSlot(h.DesignAirflow)
	}
	if s.Depth == 0 {
		s.Depth = f.Depth
	}
	if s.Depth == 0 {
		s.Depth = units.Inch
	}
	if s.Filter == "" {
		s.Filter = GenericFilterName
	}
	return s
}

func (h *house) placeFilters(a *arrangement) error {
	a.places = make([]place, 0, len(a.returns)+1)
	for i, r := range a.returns {
		if r.Filter == "" {
			continue
		}
		p, err := h.place(i, r.Filter, Slot{Width: r.Grille.Width, Height: r.Grille.Height})
		if err != nil {
			return err
		}
		a.places = append(a.places, p)
	}
	if !a.slot.None {
		p, err := h.place(-1, a.slot.Filter, a.slot)
		if err != nil {
			return err
		}
		a.places = append(a.places, p)
	}
	return nil
}

// place puts a filter into a slot, or behind a grille, whose frame is taken as
// sealed.
func (h *house) place(branch int, name string, s Slot) (place, error) {
	f, ok := h.filter(name)
	if !ok {
		f = filter.Filter{Name: name, Depth: s.Depth, MERV: 8}
	}
	if s.Depth > 0 && (f.Depth == 0 || name == GenericFilterName) {
		f.Depth = s.Depth
	}
	law, err := h.law(f, s.Width, s.Height)
	if err != nil {
		return place{}, h.filterFault(f, err)
	}
	if branch < 0 && h.gauged(f) {
		law.Curve = law.Curve.Scale(h.gauge.filterScale)
		law.Source = "gauge"
	}
	p := place{branch: branch, filter: f, width: s.Width, height: s.Height, law: law, curve: law.Curve}
	path := s.Depth
	if path == 0 {
		path = f.Depth
	}
	p.seat = filter.Seat{Crack: filter.FrameCrack(p.width, p.height, path, s.Gap, s.GapBends), Cover: h.edgeCover(s)}
	if p.loading, err = f.Loading(law); err == nil {
		p.held, err = f.DustCaught()
	}
	if err == nil {
		err = p.sit(false, h.air)
	}
	if err != nil {
		return place{}, h.filterFault(f, err)
	}
	return p, nil
}

// gauged tells whether the gauge corrected the law of a make: it is today's in
// the slot, and as deep.
func (h *house) gauged(f filter.Filter) bool {
	return h.gauge.filterScale != 0 && f.Name == h.Slot.Filter && math.Abs(float64(f.Depth-h.gauge.filterDepth)) < float64(sameDepth)
}

// law is the clean law of a filter in a face, worked out once a solve.
func (h *house) law(f filter.Filter, width, height units.Length) (filter.Law, error) {
	key := lawKey{f.Name, f.Depth, width, height}
	if l, ok := h.laws[key]; ok {
		return l, nil
	}
	l, err := h.memo.law(f, width, height, h.air)
	if err == nil {
		if h.scatter != nil {
			switch l.Source {
			case filter.Generic: // all of a sample alike, as they err
				l.Curve = l.Curve.Scale(h.scatter.assumed("generic filters"))
			case filter.FromMake:
				l.Curve = l.Curve.Scale(h.scatter.pleats())
			}
		}
		h.laws[key] = l
	}
	return l, err
}

func (h *house) filterFault(f filter.Filter, err error) error {
	for i, g := range h.Filters {
		if g.Name != f.Name {
			continue
		}
		if fe, ok := err.(*filter.FieldError); ok {
			return FieldErrors{{Path: fmt.Sprintf("filters[%d].%s", i, fe.Field), Given: fe.Given, Wanted: fe.Want}}
		}
		return FieldErrors{{Path: fmt.Sprintf("filters[%d]", i), Given: f.Name, Wanted: err.Error()}}
	}
	return err
}

// system joins the arrangement's parts. Its filter parts read the places'
// present curves, so a loaded filter needs no new system.
func (h *house) system(a *arrangement) (airpath.System, error) {
	var s airpath.System
	for i := range a.returns {
		b, err := h.branch(a, i)
		if err != nil {
			return s, err
		}
		s.Branches = append(s.Branches, h.scatter.built(b, a.returns[i].Grille))
	}
	if len(a.returns) == 0 {
		s.Series = append(s.Series, airpath.Part{Name: "return", Law: h.returnPart.law()})
	}
	if p := a.central(); p != nil && !a.bare {
		s.Series = append(s.Series, airpath.Part{Name: "filter", Law: p.drop})
	}
	if k := a.slot.EntryCoefficient * h.scatter.entry(); k > 0 && !a.slot.None {
		face := float64(a.slot.Width) * float64(a.slot.Height)
		rho := float64(h.air.Density)
		s.Series = append(s.Series, airpath.Part{Name: "slot entry", Law: func(q float64) float64 {
			v := q / face
			return k * rho / 2 * v * absolute(v)
		}})
	}
	s.Series = append(s.Series, h.serving...)
	return s, nil
}

func absolute(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

func (a *arrangement) central() *place {
	for i := range a.places {
		if a.places[i].branch < 0 {
			return &a.places[i]
		}
	}
	return nil
}

func (a *arrangement) inBranch(i int) *place {
	for k := range a.places {
		if a.places[k].branch == i {
			return &a.places[k]
		}
	}
	return nil
}

// branch compiles one return branch of an arrangement.
func (h *house) branch(a *arrangement, i int) (airpath.Branch, error) {
	r := a.returns[i]
	ducts, err := h.ducts(r)
	if err != nil {
		return airpath.Branch{}, FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: err.Error()}}
	}
	if p := a.inBranch(i); p != nil && !a.bare {
		return h.branchOf(r, i, at(a.kept, i), &airpath.Part{Name: "filter", Law: p.drop}, ducts)
	}
	return h.branchOf(r, i, at(a.kept, i), nil, ducts)
}

// branchOf joins grille, filter and duct in the order in which the air meets
// them; filter and ducts may be nil.
func (h *house) branchOf(r Return, i int, kept kept, filters *airpath.Part, ducts airpath.Law) (airpath.Branch, error) {
	b := airpath.Branch{Name: branchName(r, i), Parts: make([]airpath.Part, 0, 3)}
	if r.Grille.Width > 0 {
		law, err := r.Grille.Law()
		if err != nil {
			return b, FieldErrors{{Path: fmt.Sprintf("returns[%d].grille", i), Given: r.Name, Wanted: err.Error()}}
		}
		linear, quadratic := law.Coefficients(h.air)
		b.Parts = append(b.Parts, airpath.Part{Name: "grille", Law: func(q float64) float64 {
			return kept.grille * (linear*q + quadratic*q*absolute(q))
		}})
	}
	if filters != nil {
		b.Parts = append(b.Parts, *filters)
	}
	if ducts != nil {
		if kept.duct != 1 {
			ducts = ducts.Scale(kept.duct)
		}
		b.Parts = append(b.Parts, airpath.Part{Name: "duct", Law: ducts})
	}
	if len(b.Parts) == 0 {
		return b, FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: "a grille, a filter or a duct run"}}
	}
	return b, nil
}

func branchName(r Return, i int) string {
	if r.Name != "" {
		return r.Name
	}
	return fmt.Sprintf("return %d", i+1)
}

// ducts joins runs and fittings of a branch; nil where it has neither.
func (h *house) ducts(r Return) (airpath.Law, error) {
	if len(r.Runs) == 0 && len(r.Fittings) == 0 {
		return nil, nil
	}
	runs := make([]duct.Resistance, len(r.Runs))
	for i := range r.Runs {
		runs[i] = r.Runs[i].Resistance(h.air)
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
		s := section(f, r)
		minor += float64(max(f.Count, 1)) * zeta * float64(h.air.Density) / 2 / (s * s)
	}
	return func(q float64) float64 {
		p := minor * q * absolute(q)
		for i := range runs {
			p += runs[i].Drop(q)
		}
		return p
	}, nil
}
