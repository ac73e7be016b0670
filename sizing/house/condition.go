package house

import (
	"errors"
	"fmt"
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

func (h *House) AirResult() study.Air {
	return study.Air{
		Altitude: h.Site.Altitude, Pressure: h.State.Pressure, Temperature: h.State.Temperature,
		Density: h.Air.Density, DensityRatio: h.ratio,
	}
}

// meet finds where the system meets a tap's curve. The search starts from where
// the house was last solved on it: options, sizes and loads of dust lie near each
// other, and the coil wet near the coil wet.
func (h *House) meet(sys airpath.System, tap string, offset airpath.Law) (airpath.Point, error) {
	last := h.lastMet(tap, len(sys.Branches))
	p, err := sys.SolveNear(h.Curves[tap].Extended, offset, last.point)
	if err == nil {
		last.point = p
	}
	return p, err
}

// lastMet is where a tap was last met by a system of so many branches; there are
// few of either.
func (h *House) lastMet(tap string, branches int) *met {
	for i := range h.met {
		if m := &h.met[i]; m.tap == tap && m.branches == branches {
			return m
		}
	}
	first := met{tap: tap, branches: branches}
	if n := len(h.met); n > 0 {
		first.point = h.met[n-1].point
	}
	h.met = append(h.met, first)
	return &h.met[len(h.met)-1]
}

type met struct {
	tap      string
	branches int
	point    airpath.Point
}

// Condition solves the arrangement with its filters in their present state, as
// they sit in their frames.
func (h *House) Condition(a *Arrangement, sys airpath.System) (study.Condition, error) {
	point, err := h.Cooled(a, sys)
	if err != nil {
		return study.Condition{}, err
	}
	p := point.Point
	c := study.Condition{
		Airflow:            units.Flow(p.Flow),
		AirflowPerCapacity: units.FlowPerCapacity(p.Flow / float64(h.Equipment.CoolingCapacity)),
		ExternalStatic:     point.External,
		BlowerPower:        point.Power,
		BlowerSpeed:        point.Speed,
		FanEfficacy:        units.FanEfficacy(float64(point.Power) / p.Flow),
		Inside:             point.Inside,
		Residual:           p.Residual,
	}
	h.BranchFlows(a, sys, p, &c)
	h.Parts(a, sys, p, &c)
	h.velocities(a, &c)
	if !a.NoFilters {
		h.frameResults(a, p, &c)
	}
	if err := h.otherSeasons(a, sys, p, &c); err != nil {
		return c, err
	}
	return c, h.Cooling(&c)
}

func (h *House) TableCredit(q float64) float64 {
	if h.TableIncludes == nil {
		return 0
	}
	return h.TableIncludes(q)
}

func (h *House) BranchFlows(a *Arrangement, sys airpath.System, p airpath.Point, c *study.Condition) {
	for i, b := range sys.Branches {
		q := p.Branches[i]
		f := study.BranchFlow{Name: b.Name, Airflow: units.Flow(q), Drop: units.Pressure(p.Return)}
		for _, part := range b.Parts {
			drop := units.Pressure(part.Law(q))
			switch part.Name {
			case "grille":
				f.GrilleDrop = drop
			case "filter":
				f.FilterDrop = drop
			case "duct":
				f.DuctDrop = drop
			}
		}
		if g := a.Returns[i].Grille; g.Width > 0 {
			f.FaceVelocity = g.FaceVelocity(f.Airflow)
		}
		f.DuctVelocity = fastest(a.Returns[i].Runs, f.Airflow)
		c.Branches = append(c.Branches, f)
	}
}

func fastest(runs []duct.Run, q units.Flow) units.Speed {
	v := units.Speed(0)
	for _, r := range runs {
		v = max(v, r.Velocity(q))
	}
	return v
}

// PartInTable names what the blower table already holds, among the parts: a
// credit and nothing that one could change.
const PartInTable = "in the blower table"

// Names of the test ports in the order of the air.
const (
	PortReturn = "return plenum, before the filter"
	PortInlet  = "blower inlet, after the filter"
	PortOutlet = "blower outlet, before the coil"
	PortSupply = "supply plenum, after the coil"
)

// Parts lists what each part takes, so that the drops add up to the external
// static, and the static at each port.
func (h *House) Parts(a *Arrangement, sys airpath.System, p airpath.Point, c *study.Condition) {
	inBranches := 0.0
	for _, b := range c.Branches {
		inBranches += float64(b.FilterDrop) * float64(b.Airflow) / p.Flow
	}
	back, filters, after, lost := p.Return-inBranches, FilterDrop(sys, p), 0.0, 0.0
	for i, part := range sys.Series {
		switch part.Name {
		case "return":
			back += p.Series[i]
		case "slot entry":
			after += p.Series[i]
		case UnexplainedLoss:
			lost += p.Series[i]
		}
	}
	rated := float64(h.Equipment.RatedExternalStatic)
	add := func(name, basis string, drop float64) {
		budget := h.Budget(name)
		c.Parts = append(c.Parts, study.PartDrop{Name: name, Drop: units.Pressure(drop), Share: drop / rated, Basis: basis,
			Budget: budget, Over: basis != "assumed" && budget > 0 && study.Exceeds(drop, float64(budget))})
	}
	add("return", h.Basis("returns"), back)
	if lost > 0 {
		add(UnexplainedLoss, "gauge", lost)
	}
	if !a.NoFilters {
		add("filter", h.FilterBasis(a), filters)
	}
	if after > 0 {
		add("slot entry", "typed", after)
	}
	suction := back + lost + filters + after
	delivered := 0.0
	for i, part := range sys.Series {
		if part.Name == "coil" || part.Name == "supply" {
			add(part.Name, h.Basis(part.Name), p.Series[i])
			delivered += p.Series[i]
		}
	}
	if k := h.TableCredit(p.Flow); k > 0 {
		add(PartInTable, "assumed", -k)
	}
	c.FilterDrop = units.Pressure(filters)
	c.ReturnStatic = units.Pressure(-suction)
	plenum := -p.Return
	if len(sys.Branches) == 0 {
		plenum = -back
	}
	if a.Slot.AtGrilles && !a.NoFilters {
		plenum -= filters
	}
	h.ports(sys, p, plenum-lost, delivered, c)
}

func (h *House) ports(sys airpath.System, p airpath.Point, plenum, delivered float64, c *study.Condition) {
	supply := p.Series[len(p.Series)-1]
	outlet := delivered
	if h.HasCoil() && h.CoilIsInside() {
		outlet = supply + law(h.Coil)(p.Flow)
	}
	c.Ports = []study.Port{
		{Name: PortReturn, Static: units.Pressure(plenum)},
		{Name: PortInlet, Static: c.ReturnStatic},
		{Name: PortOutlet, Static: units.Pressure(outlet)},
		{Name: PortSupply, Static: units.Pressure(supply)},
	}
}

// Basis says what a part's drop rests on.
func (h *House) Basis(part string) string {
	if b := h.bases[part]; b != "" {
		return b
	}
	if h.Assumes(part) {
		return "assumed"
	}
	if part == "returns" {
		return "geometry"
	}
	return "typed"
}

func (h *House) FilterBasis(a *Arrangement) string {
	for _, p := range a.Places {
		switch p.Law.Source {
		case "generic":
			return "assumed"
		case "gauge":
			return "gauge"
		case "make":
			return "geometry"
		}
	}
	return "typed"
}

func (h *House) velocities(a *Arrangement, c *study.Condition) {
	face, media := a.Areas()
	if face == 0 {
		return
	}
	through := float64(c.Airflow)
	if len(a.Places) > 0 && a.Central() == nil {
		through = 0
		for _, p := range a.Places {
			through += float64(c.Branches[p.branch].Airflow)
		}
	}
	c.FaceVelocity = units.Speed(through / face)
	if media > 0 {
		c.MediaVelocity = units.Speed(through / media)
	}
}

// Areas are the nominal face and the media of all places, m2.
func (a *Arrangement) Areas() (face, media float64) {
	for i := range a.Places {
		p := &a.Places[i]
		face += p.face()
		media += p.face() * p.Law.MediaAreaRatio
	}
	return face, media
}

// otherSeasons solves the heating tap, with the furnace's temperature rise, and
// the blower alone, each with the coil dry.
func (h *House) otherSeasons(a *Arrangement, sys airpath.System, cool airpath.Point, c *study.Condition) error {
	p, err := h.heating(a, sys, cool)
	if err != nil {
		return err
	}
	if !h.Equipment.NoHeating {
		c.HeatingAirflow, c.HeatingStatic, c.HeatingPower = units.Flow(p.Flow), p.External, p.Power
		c.TemperatureRise = h.Rise(c.HeatingPower, c.HeatingAirflow)
	}
	c.FanPower, err = h.fanAlone(a, sys, cool, p)
	return err
}

// heating is the operating point of the heating tap, the coil dry; zero where
// nothing heats.
func (h *House) heating(a *Arrangement, sys airpath.System, cool airpath.Point) (operatingPoint, error) {
	if h.Equipment.NoHeating {
		return operatingPoint{}, nil
	}
	return h.dryPoint(a, sys, cool, a.heatingTap)
}

// fanAlone is the watts of the blower with neither cooling nor heating, on its
// own tap: no water stands on the coil then. Without such hours they count for
// nothing, and are those of cooling.
func (h *House) fanAlone(a *Arrangement, sys airpath.System, cool airpath.Point, heating operatingPoint) (units.Power, error) {
	switch {
	case h.Site.FanHours == 0:
		return h.readTable(cool, a.Tap, h.TableIncludes).Power, nil
	case !h.Equipment.NoHeating && a.fanTap == a.heatingTap:
		return heating.Power, nil
	}
	p, err := h.dryPoint(a, sys, cool, a.fanTap)
	return p.Power, err
}

// dryPoint is the operating point of a tap with the coil dry.
func (h *House) dryPoint(a *Arrangement, sys airpath.System, cool airpath.Point, tap string) (operatingPoint, error) {
	dry, offset, changed := h.DryCoil(sys)
	if !changed && tap == a.Tap {
		return h.readTable(cool, tap, offset), nil
	}
	return h.OperatingPoint(dry, tap, offset)
}

// Cooling runs the coil at the airflow found.
func (h *House) Cooling(c *study.Condition) error {
	if h.Equipment.Kind == job.Furnace {
		return nil
	}
	if h.wetBulb == 0 {
		var err error
		if h.wetBulb, err = thermal.EnteringWetBulb(h.State); err != nil {
			return fmt.Errorf("cooling coil: %w", err)
		}
	}
	r, err := h.CoolingCoil.RunAt(c.Airflow, h.State, h.wetBulb)
	if err != nil {
		return fmt.Errorf("cooling coil: %w", err)
	}
	c.TotalCapacity, c.SensibleCapacity = r.Total, r.Sensible
	c.CoilAirLeaving, c.ApparatusDewPt = r.Leaving.Temperature, r.ApparatusDewPoint
	c.SupplyAir = units.Warmer(c.CoilAirLeaving, h.BlowerHeat(c.BlowerPower, c.Airflow))
	c.Frost = Freezes(c)
	return nil
}

const curvePoints = 25

// SystemCurve samples the external static against airflow from zero to well
// past the operating point.
func (h *House) SystemCurve(sys airpath.System, flow units.Flow) ([]study.CurvePoint, error) {
	top := 1.5 * math.Max(float64(flow), float64(h.DesignAirflow))
	var flows [curvePoints]float64
	for i := range flows {
		flows[i] = top * float64(i) / (curvePoints - 1)
	}
	statics, err := sys.Statics(flows[:])
	if err != nil {
		return nil, err
	}
	out := make([]study.CurvePoint, curvePoints)
	for i, q := range flows {
		out[i] = study.CurvePoint{Airflow: units.Flow(q), Static: external(statics[i], q, h.TableIncludes)}
	}
	return out, nil
}

func (h *House) coolingCoil() (thermal.Coil, error) {
	coil, err := thermal.RatedCoil(h.Equipment.CoolingCapacity, h.Equipment.SensibleHeatRatio)
	var ratio *thermal.RatioError
	if errors.As(err, &ratio) {
		return coil, job.FieldErrors{{Path: "equipment.sensible_heat_ratio", Given: fmt.Sprint(ratio.Ratio), Wanted: ratio.Wanted}}
	}
	return coil, err
}
