package sizing

import (
	"errors"
	"fmt"
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// Solve works out all that follows from a job. A faulty job gives FieldErrors
// with every fault and no Study.
//
// A program that solves one house again and again as it is edited keeps a
// Solver instead.
func Solve(job Job) (*Study, error) { return solve(job, nil) }

func solve(job Job, memo *lawMemo) (*Study, error) {
	if faults := job.Check(); faults != nil {
		return nil, faults
	}
	h, err := newHouse(assume(job), memo)
	if err != nil {
		return nil, err
	}
	s := &Study{
		Name:                job.Name,
		Air:                 h.airResult(),
		DesignAirflow:       h.DesignAirflow,
		HeatingAirflow:      h.HeatingAirflow,
		AirflowPerCapacity:  h.AirflowPerCapacity,
		TargetFaceVelocity:  h.TargetFaceVelocity,
		NeededFace:          units.Area(float64(h.DesignAirflow) / float64(h.TargetFaceVelocity)),
		RatedExternalStatic: h.Equipment.RatedExternalStatic,
	}
	if err := h.solveOptions(s); err != nil {
		return nil, err
	}
	s.Blower = h.blowerResult()
	if s.Taps, err = h.tapAdvice(); err != nil {
		return nil, err
	}
	if s.Sizes, s.Answer, err = h.sizes(); err != nil {
		return nil, err
	}
	s.Pieces = h.pieces(s.Today())
	s.Ducts = h.ductSizes(s.Today(), s.Pieces)
	if s.Readings, err = h.readings(s); err != nil {
		return nil, err
	}
	h.noteFilters()
	s.Assumptions = h.list
	s.AssumedShare, s.BlowerAssumed = h.assumedShare(s)
	s.Bands = h.bands(s)
	h.judge(s)
	s.house, s.sized = h, &sized{job: job.Clone()}
	return s, nil
}

func (h *house) airResult() Air {
	return Air{
		Altitude: h.Site.Altitude, Pressure: h.state.Pressure, Temperature: h.state.Temperature,
		Density: h.air.Density, DensityRatio: h.ratio,
	}
}

// solveOptions solves the house with no filter, as it is, and with each option.
func (h *house) solveOptions(s *Study) error {
	todo := append([]Option{{Name: NoFilterName}, {Name: TodayName}}, h.Options...)
	s.Options = make([]OptionResult, 0, len(todo))
	for i, o := range todo {
		kind := "option"
		switch i {
		case 0:
			kind = "no_filter"
		case 1:
			kind = "today"
		}
		r, err := h.solveOption(o, kind)
		if err != nil {
			return fmt.Errorf("%s: %w", o.Name, err)
		}
		s.Options = append(s.Options, r)
	}
	for i := range s.Options {
		h.money(&s.Options[i], s.Today())
	}
	return nil
}

func (h *house) solveOption(o Option, kind string) (OptionResult, error) {
	a, err := h.arrange(o, kind)
	if err != nil {
		return OptionResult{}, err
	}
	a.bare = kind == "no_filter"
	sys, err := h.system(a)
	if err != nil {
		return OptionResult{}, err
	}
	quick, err := h.searching(a, sys)
	if err != nil {
		return OptionResult{}, err
	}
	r := OptionResult{Name: o.Name, Kind: kind, Tap: a.tap, SpeedRatio: o.SpeedRatio, Upgrade: a.price}
	r.UpgradeKnown = a.price > 0 || !h.needsWork(o, a)
	if r.Clean, err = h.condition(a, sys); err != nil {
		return r, err
	}
	if r.SystemClean, err = h.systemCurve(quick, r.Clean.Airflow); err != nil {
		return r, err
	}
	if a.bare {
		r.Loaded, r.SystemLoaded = r.Clean, r.SystemClean
		return r, nil
	}
	h.describe(a, &r)
	if err := h.live(a, quick, &r); err != nil {
		return r, err
	}
	if r.Loaded, err = h.condition(a, sys); err != nil {
		return r, err
	}
	r.SystemLoaded, err = h.systemCurve(quick, r.Clean.Airflow)
	return r, err
}

// meet finds where the system meets a tap's curve. The search starts from where
// the house was last solved: options, sizes and loads of dust lie near each other.
func (h *house) meet(sys airpath.System, tap string, offset airpath.Law) (airpath.Point, error) {
	p, err := sys.SolveNear(h.curves[tap].Extended, offset, h.near)
	if err == nil {
		h.near = p
	}
	return p, err
}

// condition solves the arrangement with its filters in their present state, as
// they sit in their frames.
func (h *house) condition(a *arrangement, sys airpath.System) (Condition, error) {
	curve := h.curves[a.tap]
	p, err := h.meet(sys, a.tap, h.offset)
	if err != nil {
		return Condition{}, err
	}
	if !a.bare {
		if p, err = h.settle(a, sys, p); err != nil {
			return Condition{}, err
		}
	}
	c := Condition{
		Airflow:            units.Flow(p.Flow),
		AirflowPerCapacity: units.FlowPerCapacity(p.Flow / float64(h.Equipment.CoolingCapacity)),
		ExternalStatic:     units.Pressure(p.Static - h.given(p.Flow)),
		Residual:           p.Residual,
	}
	_, c.Inside = curve.Airflow(c.ExternalStatic)
	c.BlowerPower, _ = curve.Power(c.ExternalStatic)
	c.BlowerSpeed, _ = curve.Speed(c.ExternalStatic)
	c.FanEfficacy = units.FanEfficacy(float64(c.BlowerPower) / p.Flow)
	h.branchFlows(a, sys, p, &c)
	h.parts(a, sys, p, &c)
	h.velocities(a, &c)
	if !a.bare {
		h.frames(a, p, &c)
	}
	if err := h.fanAlone(a, sys, &c); err != nil {
		return c, err
	}
	if err := h.heating(a, sys, p, &c); err != nil {
		return c, err
	}
	return c, h.cooling(&c)
}

func (h *house) given(q float64) float64 {
	if h.offset == nil {
		return 0
	}
	return h.offset(q)
}

func (h *house) branchFlows(a *arrangement, sys airpath.System, p airpath.Point, c *Condition) {
	for i, b := range sys.Branches {
		q := p.Branches[i]
		f := BranchFlow{Name: b.Name, Airflow: units.Flow(q), Drop: units.Pressure(p.Return)}
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
		if g := a.returns[i].Grille; g.Width > 0 {
			f.FaceVelocity = g.FaceVelocity(f.Airflow)
		}
		f.DuctVelocity = fastest(a.returns[i].Runs, f.Airflow)
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

// Names of the test ports in the order of the air.
const (
	PortReturn = "return plenum, before the filter"
	PortInlet  = "blower inlet, after the filter"
	PortOutlet = "blower outlet, before the coil"
	PortSupply = "supply plenum, after the coil"
)

// parts lists what each part takes, so that the drops add up to the external
// static, and the static at each port.
func (h *house) parts(a *arrangement, sys airpath.System, p airpath.Point, c *Condition) {
	inBranches := 0.0
	for _, b := range c.Branches {
		inBranches += float64(b.FilterDrop) * float64(b.Airflow) / p.Flow
	}
	back, filters, after := p.Return-inBranches, inBranches, 0.0
	for i, part := range sys.Series {
		switch part.Name {
		case "return":
			back += p.Series[i]
		case "filter":
			filters += p.Series[i]
		case "slot entry":
			after += p.Series[i]
		}
	}
	rated := float64(h.Equipment.RatedExternalStatic)
	add := func(name, basis string, drop float64) {
		budget := h.budget(name)
		c.Parts = append(c.Parts, PartDrop{Name: name, Drop: units.Pressure(drop), Share: drop / rated, Basis: basis,
			Budget: budget, Over: basis != "assumed" && budget > 0 && drop > float64(budget)*1.0001})
	}
	add("return", h.basis("returns"), back)
	if !a.bare {
		add("filter", h.filterBasis(a), filters)
	}
	if after > 0 {
		add("slot entry", "typed", after)
	}
	suction := back + filters + after
	delivered := 0.0
	for i, part := range sys.Series {
		if part.Name == "coil" || part.Name == "supply" {
			add(part.Name, h.basis(part.Name), p.Series[i])
			delivered += p.Series[i]
		}
	}
	if k := h.given(p.Flow); k > 0 {
		add("in the blower table", "assumed", -k)
	}
	c.FilterDrop = units.Pressure(filters)
	c.ReturnStatic = units.Pressure(-suction)
	plenum := -p.Return
	if len(sys.Branches) == 0 {
		plenum = -back
	}
	h.ports(sys, p, plenum, delivered, c)
}

func (h *house) ports(sys airpath.System, p airpath.Point, plenum, delivered float64, c *Condition) {
	supply := p.Series[len(p.Series)-1]
	outlet := delivered
	if h.hasCoil() && h.coilIsInside() {
		outlet = supply + h.Coil.law()(p.Flow)
	}
	c.Ports = []Port{
		{PortReturn, units.Pressure(plenum)},
		{PortInlet, c.ReturnStatic},
		{PortOutlet, units.Pressure(outlet)},
		{PortSupply, units.Pressure(supply)},
	}
}

// basis says what a part's drop rests on.
func (h *house) basis(part string) string {
	if b := h.bases[part]; b != "" {
		return b
	}
	if h.assumes(part) {
		return "assumed"
	}
	if part == "returns" {
		return "geometry"
	}
	return "typed"
}

func (h *house) filterBasis(a *arrangement) string {
	for _, p := range a.places {
		switch p.law.Source {
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

func (h *house) velocities(a *arrangement, c *Condition) {
	face, media := a.areas()
	if face == 0 {
		return
	}
	through := float64(c.Airflow)
	if len(a.places) > 0 && a.central() == nil {
		through = 0
		for _, p := range a.places {
			through += float64(c.Branches[p.branch].Airflow)
		}
	}
	c.FaceVelocity = units.Speed(through / face)
	if media > 0 {
		c.MediaVelocity = units.Speed(through / media)
	}
}

// areas are the nominal face and the media of all places, m2.
func (a *arrangement) areas() (face, media float64) {
	for i := range a.places {
		p := &a.places[i]
		face += p.face()
		media += p.face() * p.law.MediaAreaRatio
	}
	return face, media
}

// heating solves the heating tap, the coil dry, and the furnace's temperature rise.
func (h *house) heating(a *arrangement, sys airpath.System, cool airpath.Point, c *Condition) error {
	if h.Equipment.NoHeating {
		return nil
	}
	tap := a.heatingTap
	p := cool
	dry, offset, changed := h.dry(sys)
	if changed || tap != a.tap {
		var err error
		if p, err = h.meet(dry, tap, offset); err != nil {
			return err
		}
	}
	c.HeatingAirflow = units.Flow(p.Flow)
	c.HeatingStatic = units.Pressure(p.Static)
	if offset != nil {
		c.HeatingStatic -= units.Pressure(offset(p.Flow))
	}
	c.HeatingPower, _ = h.curves[tap].Power(c.HeatingStatic)
	c.TemperatureRise = thermal.TemperatureRise(h.Equipment.HeatingOutput, c.HeatingAirflow, h.heated)
	return nil
}

// fanAlone is the blower with neither cooling nor heating, on its own tap.
func (h *house) fanAlone(a *arrangement, sys airpath.System, c *Condition) error {
	if c.FanPower = c.BlowerPower; a.fanTap == a.tap || h.Site.FanHours == 0 {
		return nil
	}
	p, err := h.meet(sys, a.fanTap, h.offset)
	if err != nil {
		return err
	}
	c.FanPower, _ = h.curves[a.fanTap].Power(units.Pressure(p.Static - h.given(p.Flow)))
	return nil
}

// cooling runs the coil at the airflow found.
func (h *house) cooling(c *Condition) error {
	if h.Equipment.Kind == Furnace {
		return nil
	}
	r, err := h.coil.Run(c.Airflow, h.state)
	if err != nil {
		return fmt.Errorf("cooling coil: %w", err)
	}
	c.TotalCapacity, c.SensibleCapacity = r.Total, r.Sensible
	c.CoilAirLeaving, c.ApparatusDewPt, c.Frost = r.Leaving.Temperature, r.ApparatusDewPoint, r.Frost
	return nil
}

const curvePoints = 25

// systemCurve samples the external static against airflow from zero to well
// past the operating point.
func (h *house) systemCurve(sys airpath.System, flow units.Flow) ([]CurvePoint, error) {
	top := 1.5 * math.Max(float64(flow), float64(h.DesignAirflow))
	var flows [curvePoints]float64
	for i := range flows {
		flows[i] = top * float64(i) / (curvePoints - 1)
	}
	statics, err := sys.Statics(flows[:])
	if err != nil {
		return nil, err
	}
	out := make([]CurvePoint, curvePoints)
	for i, q := range flows {
		out[i] = CurvePoint{Airflow: units.Flow(q), Static: units.Pressure(statics[i] - h.given(q))}
	}
	return out, nil
}

// blowerResult samples each tap, and those made of them by the fan laws.
func (h *house) blowerResult() BlowerResult {
	b := h.Equipment.Blower
	r := BlowerResult{Motor: b.Motor, Source: "typed table", CoolingTap: b.CoolingTap, HeatingTap: b.HeatingTap}
	if h.assumes("equipment.blower.taps") {
		r.Source = blower.GenericSource
	}
	for _, tap := range b.Taps {
		r.Taps = append(r.Taps, sampled(tap.Name, h.curves[tap.Name]))
	}
	for _, name := range h.spedTaps {
		r.Taps = append(r.Taps, sampled(name, h.curves[name]))
	}
	return r
}

// assumedShare is how much of today's external static nobody typed or measured.
func (h *house) assumedShare(s *Study) (share float64, blowerAssumed bool) {
	clean := s.Today().Clean
	for _, p := range clean.Parts {
		if p.Basis == "assumed" {
			share += float64(p.Drop)
		}
	}
	return share / float64(clean.ExternalStatic), s.Assumed("equipment.blower.taps")
}

// Cooling coils are rated at 80 F dry bulb and 67 F wet bulb return air and
// 400 cfm per ton (common practice, no source).
func (h *house) coolingCoil() (thermal.Coil, error) {
	rated, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	if err != nil {
		return thermal.Coil{}, err
	}
	capacity := h.Equipment.CoolingCapacity
	flow := units.Flow(float64(usualAirflowPerCapacity) * float64(capacity))
	coil, err := thermal.NewCoil(capacity, flow, rated, h.Equipment.SensibleHeatRatio)
	var ratio *thermal.RatioError
	if errors.As(err, &ratio) {
		return coil, FieldErrors{{Path: "equipment.sensible_heat_ratio", Given: fmt.Sprint(ratio.Ratio), Wanted: ratio.Wanted}}
	}
	return coil, err
}
