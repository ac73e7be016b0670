package sizing

import (
	"math"

	"returnbench/sizing/filter"
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

// external is the external static that the round shows.
func (h *house) external(p ports) (units.Pressure, bool) {
	after, has := p.blowerOutlet, p.hasOutlet
	if h.coilIsInside() && p.hasSupply {
		after, has = p.supplyPlenum, true
	} else if !has && !h.hasCoil() {
		after, has = p.supplyPlenum, p.hasSupply
	}
	if !has || !p.hasInlet {
		return 0, false
	}
	return units.Pressure(after + p.blowerInlet), true
}

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
	static, hasStatic := h.external(r.ports())
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
	return q, static, "blower table", inside
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
		return h.calibrate(r.ports(), q)
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
	p, err := h.place(-1, h.Slot.Filter, h.Slot.Width, h.Slot.Height, h.Slot.Depth)
	if err != nil {
		return err
	}
	media := float64(q) - h.leakAt(&p, drop)
	if media <= 0 {
		media = float64(q) // all of it would slip past: then the gap is mistaken, not the filter
	}
	k := drop / p.drop(media)
	h.gauge.foundScale = k
	if h.gauge.round.FilterIsClean || p.law.Source == "generic" || k < 1 {
		h.gauge.filterScale, h.gauge.foundScale = k, 1
	}
	return nil
}

// leakAt is what slips past today's filter at a drop that was read.
func (h *house) leakAt(p *place, drop float64) float64 {
	dp := units.Pressure(drop)
	gap := h.Slot.Gap
	if bow, err := p.filter.Bow(p.width, p.height, dp); err == nil {
		gap += max(0, bow-h.edgeCover(h.Slot))
	}
	return float64(filter.FrameCrack(p.width, p.height, h.Slot.Depth, gap, h.Slot.GapBends).Flow(dp, h.air))
}

// branchScale is the factor that the gauge puts on a branch as described.
func (g gauge) branchScale(h *house, r *Return) float64 {
	if g.returnScale == 0 || !h.sameAsToday(r) {
		return 1
	}
	return g.returnScale
}
