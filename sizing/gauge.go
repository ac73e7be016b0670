package sizing

import (
	"math"
	"reflect"
	"slices"

	"returnbench/sizing/units"
)

// gauge is what a round of readings of today's house says about its parts.
type gauge struct {
	round       *Reading
	flow        units.Flow
	basis       string
	inside      bool
	static      units.Pressure
	returnScale float64 // on the branches as described; 0: not known
	filterScale float64 // on today's clean filter law; 0: as it is
	filterDepth units.Length
	foundScale  float64 // the filter as found against the clean one; 0: not read
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

// portsRead are the round's. Where no coil stands apart from the equipment,
// what is read after the blower is read in the supply.
func (h *house) portsRead(r *Reading) ports {
	p := r.ports()
	if apart := h.hasCoil() && h.Equipment.Kind != AirHandler; !apart && p.hasOutlet && !p.hasSupply {
		p.supplyPlenum, p.hasSupply = p.blowerOutlet, true
		p.blowerOutlet, p.hasOutlet = 0, false
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

// readGauge turns the first round on today's house into coefficients.
func (h *house) readGauge() error {
	for i := range h.Readings {
		r := &h.Readings[i]
		if r.Option != "" && r.Option != TodayName {
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
	if p.hasFD && !h.Slot.None {
		return h.calibrateFilter(p.filterDrop, q)
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
	for _, r := range h.Returns {
		if r.Filter != "" {
			return nil // the plenum then holds the filters too; see the readings
		}
	}
	a, err := h.arrange(Option{Name: TodayName}, "today")
	if err != nil {
		return err
	}
	s, err := h.system(a)
	if err != nil {
		return err
	}
	s.Series = nil
	predicted, err := s.Static(float64(q))
	if err != nil {
		return err
	}
	h.gauge.returnScale = drop / predicted
	h.measured("returns")
	return nil
}

// calibrateFilter holds the read drop against the clean law. A generic law
// gives way to the gauge; a rated or made one gives way only where the filter
// was new or reads lower than clean.
func (h *house) calibrateFilter(drop float64, q units.Flow) error {
	p, err := h.place(-1, h.Slot.Filter, h.Slot)
	if err != nil {
		return err
	}
	media := float64(q - p.seated.Leak(units.Pressure(drop)))
	if media <= 0 {
		media = float64(q) // all of it would slip past: then the gap is mistaken, not the filter
	}
	k := drop / float64(p.curve.Drop(units.Speed(media/p.face())))
	h.gauge.foundScale = k
	if h.gauge.round.FilterIsClean || p.law.Source == "generic" || k < 1 {
		h.gauge.filterScale, h.gauge.filterDepth, h.gauge.foundScale = k, p.filter.Depth, 1
	}
	return nil
}

// kept is the gauge's factor on the grille and on the duct of a branch; 1: as
// described.
type kept struct{ grille, duct float64 }

// inherits tells what each branch of a return side keeps of the gauge's factor
// on today's return. The gauge reads that return as a whole, and what it takes
// beyond its description belongs to the metal that was there: a dent, a crushed
// flex, a damper nobody saw. So a grille or a duct that stays keeps the factor,
// and what an option builds or changes is taken as described; a second branch
// like one of today's is new work too. Names and the wall round a grille are no
// physics.
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
