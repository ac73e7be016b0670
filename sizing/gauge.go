package sizing

import (
	"math"
	"reflect"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/units"
)

// gauge is what a round of readings of today's house says about its parts.
type gauge struct {
	round       *Reading
	flow        units.Flow
	basis       string
	inside      bool
	static      units.Pressure
	described   units.Pressure // what the return as described takes at flow; 0: not held against it
	returnScale float64        // on branches that read less than described; 0: as described
	unexplained units.Pressure // what the return reads beyond its description, at flow
	filterScale float64        // on today's clean filter law; 0: as it is
	filterDepth units.Length
	foundScale  float64        // the filter as found against the clean one; 0: not read
	cleanDrop   units.Pressure // of the clean filter's own law, at flow; 0: not read
}

// ports are a round's readings with the signs set right and the ports that
// follow from others filled in.
type ports struct {
	returnPlenum, blowerInlet   float64 // suction, Pa, positive
	blowerOutlet, supplyPlenum  float64 // pressure, Pa
	filterDrop                  float64
	hasReturn, hasInlet         bool
	hasOutlet, hasSupply, hasFD bool
}

func (r *Reading) ports() ports {
	p := ports{
		returnPlenum: math.Abs(float64(r.ReturnPlenum)), blowerInlet: math.Abs(float64(r.BlowerInlet)),
		blowerOutlet: math.Abs(float64(r.BlowerOutlet)), supplyPlenum: math.Abs(float64(r.SupplyPlenum)),
		filterDrop: math.Abs(float64(r.FilterDrop)),
	}
	p.hasReturn, p.hasInlet = p.returnPlenum > 0, p.blowerInlet > 0
	p.hasOutlet, p.hasSupply, p.hasFD = p.blowerOutlet > 0, p.supplyPlenum > 0, p.filterDrop > 0
	switch {
	case !p.hasFD && p.hasReturn && p.hasInlet && p.blowerInlet > p.returnPlenum:
		p.filterDrop, p.hasFD = p.blowerInlet-p.returnPlenum, true
	case !p.hasInlet && p.hasReturn && p.hasFD:
		p.blowerInlet, p.hasInlet = p.returnPlenum+p.filterDrop, true
	case !p.hasReturn && p.hasInlet && p.hasFD && p.blowerInlet > p.filterDrop:
		p.returnPlenum, p.hasReturn = p.blowerInlet-p.filterDrop, true
	}
	return p
}

// portsWithoutSlot are the ports where the filters are in the grilles: a drop
// read over one of them is no part of the way from plenum to blower.
func (r *Reading) portsWithoutSlot() ports {
	p := r.ports()
	read := math.Abs(float64(r.FilterDrop))
	p.filterDrop, p.hasFD = read, read > 0
	p.returnPlenum, p.blowerInlet = math.Abs(float64(r.ReturnPlenum)), math.Abs(float64(r.BlowerInlet))
	switch {
	case p.blowerInlet == 0:
		p.blowerInlet = p.returnPlenum
	case p.returnPlenum == 0:
		p.returnPlenum = p.blowerInlet
	}
	p.hasReturn, p.hasInlet = p.returnPlenum > 0, p.blowerInlet > 0
	return p
}

// portsRead are the round's. Where no coil stands apart from the equipment,
// what is read after the blower is read in the supply, and where no filter is at
// the equipment the return plenum is the blower's inlet.
func (h *house) portsRead(r *Reading) ports {
	p := r.ports()
	if h.Slot.None {
		p = r.portsWithoutSlot()
	}
	if apart := h.hasCoil() && h.Equipment.Kind != AirHandler; !apart && p.hasOutlet && !p.hasSupply {
		p.supplyPlenum, p.hasSupply = p.blowerOutlet, true
		p.blowerOutlet, p.hasOutlet = 0, false
	}
	if h.Equipment.Kind == AirHandler {
		p.blowerOutlet, p.hasOutlet = 0, false // inside, before a coil that is no part of the house
	}
	return p
}

// external is the external static that the round shows.
func (h *house) external(p ports) (units.Pressure, bool) {
	after, has := p.blowerOutlet, p.hasOutlet
	if p.hasSupply && (h.coilIsInside() || !has && !h.hasCoil()) {
		after, has = p.supplyPlenum, true
	}
	if !has || !p.hasInlet {
		return 0, false
	}
	return units.Pressure(after + p.blowerInlet), true
}

// byTable says that an airflow was read off the blower's table.
const byTable = "blower table"

func (h *house) readingTap(r *Reading) string {
	switch {
	case r.Tap != "":
		return r.Tap
	case r.Mode == Heating:
		return h.Equipment.Blower.HeatingTap
	}
	return h.Equipment.Blower.CoolingTap
}

// flowOf is the airflow of a round: measured, or read off the blower's table
// at the measured external static, or made of the temperature rise in heating.
func (h *house) flowOf(r *Reading) (q units.Flow, static units.Pressure, basis string, inside bool) {
	static, hasStatic := h.external(h.portsRead(r))
	if r.Airflow > 0 {
		return r.Airflow, static, "measured", true
	}
	if !hasStatic {
		q, known := h.flowByRise(r)
		return q, 0, byRise, known
	}
	tap, err := h.sped(h.readingTap(r), h.speedRatio(r.Option))
	curve, ok := h.curves[tap]
	if err != nil || !ok {
		return 0, static, "", false
	}
	q, inside = curve.Airflow(static)
	return q, static, byTable, inside
}

// sets tells that the study may rest on a round: it is of the house before any
// work.
func (r *Reading) sets() bool {
	return (r.Option == "" || r.Option == TodayName) && !r.AfterWork
}

// readGauge turns the first round on today's house into coefficients.
func (h *house) readGauge() error {
	for i := range h.Readings {
		r := &h.Readings[i]
		if !r.sets() {
			continue
		}
		q, static, basis, inside := h.flowOf(r)
		if q <= 0 {
			continue
		}
		h.gauge = gauge{round: r, flow: q, basis: basis, inside: inside, static: static}
		return h.calibrate(h.portsRead(r), q)
	}
	return nil
}

func (h *house) calibrate(p ports, q units.Flow) error {
	if p.hasSupply {
		h.Supply = Part{Drop: units.Pressure(p.supplyPlenum), Airflow: q, Exponent: h.Supply.Exponent}
		h.measured("supply")
	}
	if coil := p.blowerOutlet - p.supplyPlenum; p.hasOutlet && p.hasSupply && coil > 0 && h.hasCoil() && !h.coilIsInside() {
		if h.gauge.round.Mode == Heating {
			coil /= h.Equipment.CoilDryShare
		}
		h.Coil = Part{Drop: units.Pressure(coil), Airflow: q, Exponent: h.Coil.Exponent}
		h.measured("coil")
	}
	if p.hasReturn {
		if err := h.calibrateReturn(p.returnPlenum, q); err != nil {
			return err
		}
	}
	switch {
	case p.hasFD && !h.Slot.None:
		return h.calibrateFilter(p.filterDrop, q)
	case p.hasFD:
		return h.holdGrilleFilters(p.filterDrop, q)
	}
	return nil
}

// measured takes a part off the list of assumptions.
func (h *house) measured(part string) {
	h.bases[part] = "gauge"
	kept := h.list[:0]
	for _, a := range h.list {
		if a.Path != part {
			kept = append(kept, a)
		}
	}
	h.list = kept
}

func (h *house) calibrateReturn(drop float64, q units.Flow) error {
	if len(h.Returns) == 0 {
		h.returnPart = Part{Drop: units.Pressure(drop), Airflow: q, Exponent: ductExponent}
		h.measured("returns")
		return nil
	}
	filtered := slices.ContainsFunc(h.Returns, func(r Return) bool { return r.Filter != "" })
	if filtered && !h.gauge.round.FilterIsClean {
		return nil // the plenum then holds the filters' dust too: no one can tell them apart
	}
	a, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return err
	}
	s, err := h.system(a)
	if err != nil {
		return err
	}
	s.Series = nil
	described, err := s.Static(float64(q))
	if err != nil {
		return err
	}
	h.gauge.described = units.Pressure(described)
	switch {
	case drop > described:
		h.gauge.unexplained = units.Pressure(drop - described)
	case !filtered:
		h.gauge.returnScale = drop / described
	}
	h.measured("returns")
	return nil
}

// unexplainedLoss names what the gauge finds in the return beyond what the
// described parts take.
const unexplainedLoss = "unexplained loss"

// unexplained is that loss as a resistance of its own, static = k Q^2. Nobody
// knows where it sits, so it stays in the house with every option and is put on
// no described part.
func (h *house) unexplained() airpath.Part {
	return airpath.Part{Name: unexplainedLoss, Law: airpath.Power(float64(h.gauge.unexplained), float64(h.gauge.flow), ductExponent)}
}

// calibrateFilter holds the read drop against the clean law. Only a filter that
// was new says what a clean one takes; any other says how far it is loaded.
func (h *house) calibrateFilter(drop float64, q units.Flow) error {
	p, err := h.place(-1, h.Slot.Filter, h.Slot)
	if err != nil {
		return err
	}
	if entry := h.slotEntry(h.Slot); entry != nil && h.gauge.round.FilterDrop == 0 {
		drop = max(drop-entry(float64(q)), 0) // the two ports hold the slot's own loss too
	}
	if drop == 0 {
		return nil
	}
	media := float64(q) - float64(p.frames())*float64(p.seated.Leak(units.Pressure(drop)))
	if media <= 0 {
		media = float64(q) // all of it would slip past: then the gap is mistaken, not the filter
	}
	clean := float64(p.curve.Drop(units.Speed(media / p.face())))
	h.gauge.foundScale, h.gauge.cleanDrop = drop/clean, units.Pressure(clean)
	if h.gauge.round.FilterIsClean {
		h.gauge.filterScale, h.gauge.filterDepth, h.gauge.foundScale = drop/clean, p.filter.Depth, 1
	}
	return nil
}

// holdGrilleFilters holds a drop read over the filters in the grilles against
// what they take clean, the mean by the air that each carries.
func (h *house) holdGrilleFilters(drop float64, q units.Flow) error {
	a, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return err
	}
	sys, err := h.system(a)
	if err != nil {
		return err
	}
	flows := make([]float64, len(sys.Branches))
	if _, err := sys.Split(float64(q), flows); err != nil {
		return err
	}
	clean := 0.0
	for i := range flows {
		if p := a.inBranch(i); p != nil {
			clean += p.drop(flows[i]) * flows[i] / float64(q)
		}
	}
	if clean > 0 {
		h.gauge.foundScale, h.gauge.cleanDrop = drop/clean, units.Pressure(clean)
	}
	return nil
}

// kept is the gauge's factor on the grille and on the duct of a branch; 1: as
// described.
type kept struct{ grille, duct float64 }

// inherits tells what each branch of a return side keeps of the gauge's factor
// on a return that reads less than its description takes. The gauge reads that
// return as a whole, and its description is an estimate. So a grille or a duct
// that stays keeps the factor, and what an option builds or changes is taken as
// described; a second branch like one of today's is new work too. Names and the
// wall round a grille are no physics.
func (h *house) inherits(returns []Return) []kept {
	k := h.gauge.returnScale
	if k == 0 {
		return nil
	}
	out := make([]kept, len(returns))
	for i := range out {
		out[i] = kept{1, 1}
	}
	taken := make([]bool, len(h.Returns))
	matched := make([]bool, len(returns))
	for _, alike := range []struct{ grille, duct bool }{{true, true}, {false, true}, {true, false}} {
		for i := range returns {
			for t := 0; t < len(taken) && !matched[i]; t++ {
				if taken[t] || alike.grille && !sameGrille(&returns[i], &h.Returns[t]) || alike.duct && !sameDuct(&returns[i], &h.Returns[t]) {
					continue
				}
				taken[t], matched[i] = true, true
				if alike.grille {
					out[i].grille = k
				}
				if alike.duct {
					out[i].duct = k
				}
			}
		}
	}
	return out
}

func sameGrille(a, b *Return) bool {
	return a.Grille.Width == b.Grille.Width && a.Grille.Height == b.Grille.Height && reflect.DeepEqual(a.Grille, b.Grille)
}

func sameDuct(a, b *Return) bool {
	return slices.Equal(a.Runs, b.Runs) && slices.Equal(a.Fittings, b.Fittings)
}

// at is what a branch keeps; all as described where the gauge read no return.
func at(all []kept, i int) kept {
	if i < len(all) {
		return all[i]
	}
	return kept{1, 1}
}
