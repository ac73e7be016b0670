package house

import (
	"math"
	"reflect"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// gauge is what a round of readings of today's house says about its parts.
type gauge struct {
	Round       *job.Reading
	Flow        units.Flow
	Basis       string
	Inside      bool
	Static      units.Pressure
	Described   units.Pressure // what the return as described takes at flow; 0: not held against it
	ReturnScale float64        // on branches that read less than described; 0: as described
	Unexplained units.Pressure // what the return reads beyond its description, at flow
	FilterScale float64        // on today's clean filter law; 0: as it is
	filterDepth units.Length
	FoundScale  float64        // the filter as found against the clean one; 0: not read
	CleanDrop   units.Pressure // of the clean filter's own law, at flow; 0: not read
}

// PortsWithoutSlot are the ports where the filters are in the grilles: a drop
// read over one of them is no part of the way from plenum to blower.
func PortsWithoutSlot(r *job.Reading) job.Ports {
	p := r.Ports()
	read := math.Abs(float64(r.FilterDrop))
	p.FilterDrop, p.HasFD = read, read > 0
	p.ReturnPlenum, p.BlowerInlet = math.Abs(float64(r.ReturnPlenum)), math.Abs(float64(r.BlowerInlet))
	switch {
	case p.BlowerInlet == 0:
		p.BlowerInlet = p.ReturnPlenum
	case p.ReturnPlenum == 0:
		p.ReturnPlenum = p.BlowerInlet
	}
	p.HasReturn, p.HasInlet = p.ReturnPlenum > 0, p.BlowerInlet > 0
	return p
}

// PortsRead are the round's. Where no coil stands apart from the equipment,
// what is read after the blower is read in the supply, and where no filter is at
// the equipment the return plenum is the blower's inlet.
func (h *House) PortsRead(r *job.Reading) job.Ports {
	p := r.Ports()
	if h.Slot.None {
		p = PortsWithoutSlot(r)
	}
	if apart := h.HasCoil() && h.Equipment.Kind != job.AirHandler; !apart && p.HasOutlet && !p.HasSupply {
		p.SupplyPlenum, p.HasSupply = p.BlowerOutlet, true
		p.BlowerOutlet, p.HasOutlet = 0, false
	}
	if h.Equipment.Kind == job.AirHandler {
		p.BlowerOutlet, p.HasOutlet = 0, false // inside, before a coil that is no part of the house
	}
	return p
}

// external is the external static that the round shows.
func (h *House) external(p job.Ports) (units.Pressure, bool) {
	after, has := p.BlowerOutlet, p.HasOutlet
	if p.HasSupply && (h.CoilIsInside() || !has && !h.HasCoil()) {
		after, has = p.SupplyPlenum, true
	}
	if !has || !p.HasInlet {
		return 0, false
	}
	return units.Pressure(after + p.BlowerInlet), true
}

// ByTable says that an airflow was read off the blower's table.
const ByTable = "blower table"

func (h *House) ReadingTap(r *job.Reading) string {
	switch {
	case r.Tap != "":
		return r.Tap
	case r.Mode == job.Heating:
		return h.Equipment.Blower.HeatingTap
	}
	return h.Equipment.Blower.CoolingTap
}

// FlowOf is the airflow of a round: measured, or read off the blower's table
// at the measured external static, or made of the temperature rise in heating.
func (h *House) FlowOf(r *job.Reading) (q units.Flow, static units.Pressure, basis string, inside bool) {
	static, hasStatic := h.external(h.PortsRead(r))
	if r.Airflow > 0 {
		return r.Airflow, static, "measured", true
	}
	if !hasStatic {
		q, known := h.FlowByRise(r)
		return q, 0, ByRise, known
	}
	tap, err := h.tapAtSpeed(h.ReadingTap(r), h.speedRatio(r.Option))
	curve, ok := h.Curves[tap]
	if err != nil || !ok {
		return 0, static, "", false
	}
	q, inside = curve.Airflow(static)
	return q, static, ByTable, inside
}

// readGauge turns the first round on today's house into coefficients.
func (h *House) readGauge() error {
	for i := range h.Readings {
		r := &h.Readings[i]
		if !r.Sets() {
			continue
		}
		q, static, basis, inside := h.FlowOf(r)
		if q <= 0 {
			continue
		}
		h.Gauge = gauge{Round: r, Flow: q, Basis: basis, Inside: inside, Static: static}
		return h.calibrate(h.PortsRead(r), q)
	}
	return nil
}

func (h *House) calibrate(p job.Ports, q units.Flow) error {
	if p.HasSupply {
		h.Supply = job.Part{Drop: units.Pressure(p.SupplyPlenum), Airflow: q, Exponent: h.Supply.Exponent}
		h.measured("supply")
	}
	if coil := p.BlowerOutlet - p.SupplyPlenum; p.HasOutlet && p.HasSupply && coil > 0 && h.HasCoil() && !h.CoilIsInside() {
		if h.Gauge.Round.Mode == job.Heating {
			coil /= h.Equipment.CoilDryShare
		}
		h.Coil = job.Part{Drop: units.Pressure(coil), Airflow: q, Exponent: h.Coil.Exponent}
		h.measured("coil")
	}
	if p.HasReturn {
		if err := h.calibrateReturn(p.ReturnPlenum, q); err != nil {
			return err
		}
	}
	switch {
	case p.HasFD && !h.Slot.None:
		return h.calibrateFilter(p.FilterDrop, q)
	case p.HasFD:
		return h.holdGrilleFilters(p.FilterDrop, q)
	}
	return nil
}

// measured takes a part off the list of assumptions.
func (h *House) measured(part string) {
	h.bases[part] = "gauge"
	kept := h.List[:0]
	for _, a := range h.List {
		if a.Path != part {
			kept = append(kept, a)
		}
	}
	h.List = kept
}

func (h *House) calibrateReturn(drop float64, q units.Flow) error {
	if len(h.Returns) == 0 {
		h.ReturnPart = job.Part{Drop: units.Pressure(drop), Airflow: q, Exponent: assume.DuctExponent}
		h.measured("returns")
		return nil
	}
	filtered := slices.ContainsFunc(h.Returns, func(r job.Return) bool { return r.Filter != "" })
	if filtered && !h.Gauge.Round.FilterIsClean {
		return nil // the plenum then holds the filters' dust too: no one can tell them apart
	}
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return err
	}
	s, err := h.System(a)
	if err != nil {
		return err
	}
	s.Series = nil
	described, err := s.Static(float64(q))
	if err != nil {
		return err
	}
	h.Gauge.Described = units.Pressure(described)
	switch {
	case drop > described:
		h.Gauge.Unexplained = units.Pressure(drop - described)
	case !filtered:
		h.Gauge.ReturnScale = drop / described
	}
	h.measured("returns")
	return nil
}

// UnexplainedLoss names what the gauge finds in the return beyond what the
// described parts take.
const UnexplainedLoss = "unexplained loss"

// unexplained is that loss as a resistance of its own, static = k Q^2. Nobody
// knows where it sits, so it stays in the house with every option and is put on
// no described part.
func (h *House) unexplained() airpath.Part {
	return airpath.Part{Name: UnexplainedLoss, Law: airpath.Power(float64(h.Gauge.Unexplained), float64(h.Gauge.Flow), assume.DuctExponent)}
}

// calibrateFilter holds the read drop against the clean law. Only a filter that
// was new says what a clean one takes; any other says how far it is loaded.
func (h *House) calibrateFilter(drop float64, q units.Flow) error {
	p, err := h.place(-1, h.Slot.Filter, h.Slot)
	if err != nil {
		return err
	}
	p.count = h.Slot.Filters()
	if entry := h.slotEntry(h.Slot); entry != nil && h.Gauge.Round.FilterDrop == 0 {
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
	h.Gauge.FoundScale, h.Gauge.CleanDrop = drop/clean, units.Pressure(clean)
	if h.Gauge.Round.FilterIsClean {
		h.Gauge.FilterScale, h.Gauge.filterDepth, h.Gauge.FoundScale = drop/clean, p.Filter.Depth, 1
	}
	return nil
}

// holdGrilleFilters holds a drop read over the filters in the grilles against
// what they take clean, the mean by the air that each carries.
func (h *House) holdGrilleFilters(drop float64, q units.Flow) error {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return err
	}
	sys, err := h.System(a)
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
		h.Gauge.FoundScale, h.Gauge.CleanDrop = drop/clean, units.Pressure(clean)
	}
	return nil
}

// GaugeFactors is the gauge's factor on the grille and on the duct of a branch; 1: as
// described.
type GaugeFactors struct{ Grille, Duct float64 }

// RetainedFactors tells what each branch of a return side keeps of the gauge's factor
// on a return that reads less than its description takes. The gauge reads that
// return as a whole, and its description is an estimate. So a grille or a duct
// that stays keeps the factor, and what an option builds or changes is taken as
// described; a second branch like one of today's is new work too. Names and the
// wall round a grille are no physics.
func (h *House) RetainedFactors(returns []job.Return) []GaugeFactors {
	k := h.Gauge.ReturnScale
	if k == 0 {
		return nil
	}
	out := make([]GaugeFactors, len(returns))
	for i := range out {
		out[i] = GaugeFactors{1, 1}
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
					out[i].Grille = k
				}
				if alike.duct {
					out[i].Duct = k
				}
			}
		}
	}
	return out
}

func sameGrille(a, b *job.Return) bool {
	return a.Grille.Width == b.Grille.Width && a.Grille.Height == b.Grille.Height && reflect.DeepEqual(a.Grille, b.Grille)
}

func sameDuct(a, b *job.Return) bool {
	return slices.Equal(a.Runs, b.Runs) && slices.Equal(a.Fittings, b.Fittings)
}

// At is what a branch keeps; all as described where the gauge read no return.
func At(all []GaugeFactors, i int) GaugeFactors {
	if i < len(all) {
		return all[i]
	}
	return GaugeFactors{1, 1}
}

const ByRise = "temperature rise"

// Change is how much warmer the air left in heating, or colder in cooling, where
// both temperatures were read.
func Change(r *job.Reading) (units.TemperatureDifference, bool) {
	if r.ReturnTemperature == 0 || r.SupplyTemperature == 0 {
		return 0, false
	}
	d := units.Rise(r.ReturnTemperature, r.SupplyTemperature)
	if r.Mode != job.Heating {
		d = -d
	}
	return d, d > 0
}

// FlowByRise is the airflow that warms by the rise read, taking up the heating
// output of the nameplate and the blower's watts, as read or of its table; false
// where rise or output is not known.
func (h *House) FlowByRise(r *job.Reading) (units.Flow, bool) {
	rise, read := Change(r)
	if !read || r.Mode != job.Heating || h.Equipment.HeatingOutput == 0 || h.Assumes("equipment.heating_output") {
		return 0, false
	}
	entering := h.Heated
	entering.Temperature = r.ReturnTemperature
	flow := func(watts units.Power) units.Flow {
		return thermal.AirflowForRise(h.Delivered()+units.HeatRate(watts), rise, entering)
	}
	q := flow(r.BlowerPower)
	tap, err := h.tapAtSpeed(h.ReadingTap(r), h.speedRatio(r.Option))
	curve, ok := h.Curves[tap]
	if r.BlowerPower > 0 || err != nil || !ok {
		return q, true
	}
	// The watts are a few hundredths of the output, so this settles at once.
	for range riseRounds {
		static, _ := curve.Static(q)
		watts, _ := curve.Power(static)
		q = flow(watts)
	}
	return q, true
}

// riseRounds is how often the airflow and the blower's watts that go with it
// are brought to agree.
const riseRounds = 20
