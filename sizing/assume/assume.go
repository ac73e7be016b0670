package assume

import (
	"cmp"
	"fmt"
	"slices"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/perturb"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// CommonPractice is the source of values that are usual in the trade.
const CommonPractice message.ID = "common practice, no source"

// GenericFilterName is the filter that is assumed where the job names none.
const GenericFilterName = "generic MERV 8"

// CompleteJob is a job in which nothing is left open, and what was assumed for it.
type CompleteJob struct {
	job.Job
	// ReturnPart is the whole return where no branch is described.
	ReturnPart   job.Part
	List         []study.Assumption
	TypedMERV    int                   // the lowest MERV that the person typed
	Perturbation *perturb.Perturbation // changes assumed values in a sample; nil outside of sampling
	// WattsAssumed are the typed taps of the blower whose watts, or a part of them, are
	// the usual ones.
	WattsAssumed []string
}

// Note adds an assumption to the list.
func (a *CompleteJob) Note(path string, source, text message.ID, args ...any) {
	a.List = append(a.List, study.Assumption{Path: path, Source: source, Text: message.New(text, args...)})
}

// Value notes an assumption that puts one quantity into its field.
func (a *CompleteJob) Value(path string, source message.ID, q units.Quantity, text message.ID, args ...any) {
	a.Note(path, source, text, args...)
	a.List[len(a.List)-1].Value = q
}

// Assumes reports whether a field was neither typed nor measured.
func (a *CompleteJob) Assumes(path string) bool {
	return slices.ContainsFunc(a.List, func(n study.Assumption) bool { return n.Path == path })
}

// fillOpen sets a field that was left open and notes it.
func fillOpen[T interface {
	comparable
	units.Quantity
}](a *CompleteJob, field *T, value T, path string, source, text message.ID) {
	var zero T
	if *field != zero {
		return
	}
	*field = value
	a.Value(path, source, value, text, "value", any(value))
}

// Job fills what the job leaves open with usual values.
func Job(j job.Job) *CompleteJob { return JobWith(j, nil) }

// JobWith is Job for a sample: s changes the assumed values too; nil: it changes
// none.
func JobWith(j job.Job, s *perturb.Perturbation) *CompleteJob {
	a := &CompleteJob{Job: j.Clone(), Perturbation: s}
	a.site()
	a.airflow()
	a.equipment()
	a.heatingAirflow()
	a.filterPlaces()
	a.parts()
	a.limits()
	a.returnSide()
	a.seats()
	return a
}

func (a *CompleteJob) site() {
	s := &a.Site
	fillOpen(a, &s.IndoorDryBulb, max(job.UsualDryBulb, s.IndoorWetBulb), "site.indoor_dry_bulb", CommonPractice, "return air dry bulb in cooling: {value}")
	fillOpen(a, &s.IndoorWetBulb, s.IndoorDryBulb-job.UsualDepression, "site.indoor_wet_bulb", CommonPractice, "return air wet bulb in cooling: {value}")
	fillOpen(a, &s.HeatingIndoor, units.Fahrenheit(68), "site.heating_indoor", CommonPractice, "return air in heating: {value}")
	fillOpen(a, &s.PowerPrice, 0.17*units.MoneyPerKilowattHour, "site.power_price", CommonPractice, "price of power: {value}")
	if a.Equipment.NoHeating {
		s.HeatingHours = 0
	}
	switch none := s.CoolingHours == 0 && s.HeatingHours == 0 && s.FanHours == 0; {
	case none && a.Equipment.NoHeating:
		s.CoolingHours = 1000 * units.Hour
		a.Value("site.cooling_hours", CommonPractice, s.CoolingHours, "the blower runs 1000 h a year in cooling")
	case none:
		s.CoolingHours, s.HeatingHours = 1000*units.Hour, 1000*units.Hour
		a.Note("site.cooling_hours", CommonPractice, "the blower runs 1000 h a year in cooling and 1000 h in heating")
	}
	if s.DiscountRate == 0 {
		s.DiscountRate = 0.03
		a.Note("site.discount_rate", CommonPractice, "money a year later counts 3 % less")
	}
	if s.DustRate == 0 {
		if s.Dust == "" {
			s.Dust = job.DustOrdinary
			a.Value("site.dust", "invented preset", dustRates[job.DustOrdinary], "an ordinary household's dust: {rate} of running", "rate", dustRates[job.DustOrdinary])
		}
		s.DustRate = dustRates[s.Dust]
	}
}

// dustRates are invented: mass of dust that reaches the filter in a day of
// running.
var dustRates = map[job.DustPreset]units.MassRate{
	job.DustLow:      0.6 * units.GramPerDay,
	job.DustOrdinary: 1.2 * units.GramPerDay,
	job.DustPets:     2.4 * units.GramPerDay,
	job.DustWorks:    10 * units.GramPerDay,
}

// UsualAirflowPerCapacity is the design airflow where none is typed (common
// practice, no source).
const UsualAirflowPerCapacity = 400 * units.CFMPerTon

func (a *CompleteJob) airflow() {
	e := &a.Equipment
	switch {
	case a.DesignAirflow == 0:
		fillOpen(a, &a.AirflowPerCapacity, UsualAirflowPerCapacity, "airflow_per_capacity", CommonPractice, "airflow per cooling capacity: {value}")
		a.DesignAirflow = units.Flow(float64(a.AirflowPerCapacity) * float64(e.CoolingCapacity))
	case e.CoolingCapacity == 0:
		fillOpen(a, &a.AirflowPerCapacity, UsualAirflowPerCapacity, "airflow_per_capacity", CommonPractice, "airflow per cooling capacity: {value}")
		fillOpen(a, &e.CoolingCapacity, units.Capacity(float64(a.DesignAirflow)/float64(a.AirflowPerCapacity)), "equipment.cooling_capacity", "from the design airflow", "cooling capacity: {value}")
	}
	// Where both are typed the airflow is used.
	a.AirflowPerCapacity = units.FlowPerCapacity(float64(a.DesignAirflow) / float64(e.CoolingCapacity))
	fillOpen(a, &a.TargetFaceVelocity, 300*units.FPM, "target_face_velocity", CommonPractice, "target face velocity: {value}")
}

func (a *CompleteJob) equipment() {
	e := &a.Equipment
	if e.Kind == "" {
		e.Kind = job.FurnaceWithCoil
		a.Note("equipment.kind", CommonPractice, "a furnace with a cooling coil on it: filter, coil and ducts are external")
	}
	a.heating()
	if e.EER == 0 && e.Kind != job.Furnace {
		e.EER = usualEER * a.Perturbation.Assumed("equipment.eer")
		a.Note("equipment.eer", CommonPractice, "the outdoor unit's EER: {ratio} Btu/(W h)", "ratio", message.Fixed(usualEER, 0))
	}
	fillOpen(a, &e.RatedExternalStatic, 0.5*units.InchWater, "equipment.rated_external_static", CommonPractice, "rated external static: {value}")
	a.blower(&e.Blower)
	a.fanTap(&e.Blower)
	a.watts(&e.Blower)
}

// usualEER is that of an ordinary split system, Btu/(W h).
const usualEER = 11.0

// heating is the output and the range of rise, where the equipment heats.
func (a *CompleteJob) heating() {
	e := &a.Equipment
	if e.NoHeating {
		e.HeatingOutput, e.RiseLow, e.RiseHigh = 0, 0, 0
		return
	}
	if e.HeatingOutput == 0 {
		perCapacity := 20000.0 / 12000
		if e.Kind == job.AirHandler {
			perCapacity = 1
		}
		e.HeatingOutput = units.HeatRate(perCapacity * float64(e.CoolingCapacity))
		a.Value("equipment.heating_output", CommonPractice, e.HeatingOutput, "heating output: {output}", "output", e.HeatingOutput)
	}
	a.altitude()
	low, high := 30*units.FahrenheitDegree, 60*units.FahrenheitDegree
	switch {
	case e.RiseLow != 0:
		high = e.RiseLow + 30*units.FahrenheitDegree
	case e.RiseHigh != 0:
		low = e.RiseHigh - 30*units.FahrenheitDegree
	case e.Kind == job.AirHandler:
		low, high = 15*units.FahrenheitDegree, 45*units.FahrenheitDegree
	}
	fillOpen(a, &e.RiseLow, low, "equipment.rise_low", CommonPractice, "minimum temperature rise of the nameplate: {value}")
	fillOpen(a, &e.RiseHigh, high, "equipment.rise_high", CommonPractice, "maximum temperature rise of the nameplate: {value}")
}

func (a *CompleteJob) blower(b *blower.Table) {
	if b.Motor == "" {
		b.Motor = blower.PSC
		if len(b.Taps) == 0 {
			a.Note("equipment.blower.motor", CommonPractice, "a PSC motor")
		}
	}
	if len(b.Taps) == 0 {
		generic := blower.Generic(b.Motor, a.DesignAirflow, a.Equipment.RatedExternalStatic)
		generic.Includes = b.Includes
		perturb.ScaleTaps(generic.Taps, a.Perturbation.Assumed("blower"))
		*b = generic
		a.Note("equipment.blower.taps", blower.GenericSource, "a generic blower table that gives {airflow} at {static}", "airflow", a.DesignAirflow, "static", a.Equipment.RatedExternalStatic)
		a.Note("equipment.blower.cooling_tap", blower.GenericSource, "cooling runs at {tap} of the generic table", "tap", blower.GenericTap(b.CoolingTap))
		if !a.Equipment.NoHeating {
			a.Note("equipment.blower.heating_tap", blower.GenericSource, "heating runs at {tap} of the generic table", "tap", blower.GenericTap(b.HeatingTap))
		}
		return
	}
	// The tap with the most airflow is the cooling tap unless another is named.
	if b.CoolingTap == "" {
		b.CoolingTap = strongest(b.Taps)
		if len(b.Taps) > 1 {
			a.Note("equipment.blower.cooling_tap", CommonPractice, "cooling runs at {tap}", "tap", job.TapName(b.CoolingTap))
		}
	}
	if b.HeatingTap == "" {
		b.HeatingTap = b.CoolingTap
		if len(b.Taps) > 1 && !a.Equipment.NoHeating {
			a.Note("equipment.blower.heating_tap", CommonPractice, "heating runs at {tap}", "tap", job.TapName(b.HeatingTap))
		}
	}
}

// fanTap is the tap of the blower alone.
func (a *CompleteJob) fanTap(b *blower.Table) {
	if b.FanTap != "" {
		return
	}
	b.FanTap = b.CoolingTap
	if a.Site.FanHours > 0 {
		name := job.TapName(b.FanTap)
		if a.Assumes("equipment.blower.taps") {
			name = blower.GenericTap(b.FanTap)
		}
		a.Note("equipment.blower.fan_tap", CommonPractice, "the fan alone runs at the cooling tap, {tap}", "tap", name)
	}
}

// watts fills what a typed table does not tell of the blower's watts: left at zero
// they would make every cost too low.
func (a *CompleteJob) watts(b *blower.Table) {
	noWatts := func(p blower.Point) bool { return p.Power == 0 }
	if !slices.ContainsFunc(b.Taps, func(t blower.Tap) bool { return slices.ContainsFunc(t.Points, noWatts) }) {
		return // nor is the strongest tap looked for, which takes a curve of each
	}
	rated := a.Equipment.RatedExternalStatic
	strongest, moved := b.StrongestAt(rated), units.Power(a.Perturbation.Assumed("equipment.blower.watts"))
	for i := range b.Taps {
		typed := b.Taps[i]
		full, filled := blower.WithUsualWatts(b.Motor, typed, strongest, rated)
		if !filled {
			continue
		}
		none := !slices.ContainsFunc(typed.Points, func(p blower.Point) bool { return p.Power > 0 })
		efficacy := blower.GenericEfficacy(b.Motor, typed, strongest, rated)
		for k := range full.Points {
			if p := &full.Points[k]; !hasWatts(typed, p.ExternalStatic) {
				p.Power *= moved
			}
		}
		b.Taps[i] = full
		a.WattsAssumed = append(a.WattsAssumed, typed.Name)
		path := fmt.Sprintf("equipment.blower.taps[%d].points", i)
		if none {
			a.Note(path, study.UsualWatts, "watts of {tap}: {efficacy} at the rated static, good to about {share} %",
				"tap", job.TapName(typed.Name), "efficacy", efficacy, "share", message.Fixed(100*a.Uncertainty.Deviations().Assumed, 0))
			continue
		}
		a.Note(path, study.UsualWatts, "watts of {tap} beyond the rows that give them: as many per cfm as in the nearest of these", "tap", job.TapName(typed.Name))
	}
}

func hasWatts(t blower.Tap, static units.Pressure) bool {
	return slices.ContainsFunc(t.Points, func(p blower.Point) bool { return p.ExternalStatic == static && p.Power > 0 })
}

func strongest(taps []blower.Tap) string {
	best, most := "", units.Flow(-1)
	for _, t := range taps {
		for _, p := range t.Points {
			if p.Airflow > most {
				best, most = t.Name, p.Airflow
			}
		}
	}
	return best
}

// filterPlaces completes the places of today's filters and their makes.
func (a *CompleteJob) filterPlaces() {
	s := &a.Slot
	if inGrilles := a.Job.FilteredReturns(); *s == (job.Slot{}) && len(inGrilles) > 0 {
		s.None = true
		a.Note("slot.none", CommonPractice, "no filter at the unit, since one is in the grille of {names}", "names", inGrilles)
	}
	if s.None {
		return
	}
	if s.Width == 0 {
		if f, ok := a.Filter(s.Filter); ok && f.Width > 0 {
			s.Width, s.Height = f.Width, f.Height
		} else {
			s.Width, s.Height = UsualSlot(a.DesignAirflow)
			a.Note("slot.width", CommonPractice, "a filter slot of {width} by {height}", "width", s.Width, "height", s.Height)
		}
	}
	if s.Depth == 0 {
		if f, ok := a.Filter(s.Filter); ok && f.Depth > 0 {
			s.Depth = f.Depth
		} else {
			s.Depth = units.Inch
			a.Note("slot.depth", CommonPractice, "the slot takes a filter {depth} deep", "depth", s.Depth)
		}
	}
	if s.Filter == "" {
		a.genericFilter(s)
	}
}

func (a *CompleteJob) genericFilter(s *job.Slot) {
	s.Filter = GenericFilterName
	if _, ok := a.Filter(GenericFilterName); !ok {
		f := GenericFilter()
		f.Depth = s.Depth
		a.Filters = append(a.Filters, f)
	}
	a.Note("slot.filter", "invented generic filter", "a pleated MERV 8 filter")
}

// GenericFilter is an invented everyday filter.
func GenericFilter() filter.Filter {
	return filter.Filter{Name: GenericFilterName, Depth: units.Inch, MERV: 8}
}

// UsualSlot is the nominal filter size that is common at a furnace of that
// airflow (common practice, no source); above the largest row it is the
// largest.
func UsualSlot(q units.Flow) (width, height units.Length) {
	switch {
	case q <= 900*units.CFM:
		return 16 * units.Inch, 20 * units.Inch
	case q <= 1400*units.CFM:
		return 16 * units.Inch, 25 * units.Inch
	default:
		return 20 * units.Inch, 25 * units.Inch
	}
}

// Shares of the rated external static that the parts of a usual house drop.
const (
	ReturnShare = 0.20
	CoilShare   = 0.40
	SupplyShare = 0.20

	DuctExponent = 2.0 // the reference system of furnace fan tests, static = k Q^2
	coilExponent = 1.8 // common practice, no source
)

func (a *CompleteJob) parts() {
	rated := a.Equipment.RatedExternalStatic
	a.part(&a.Supply, "supply", "supply ducts drop {drop} at the design airflow", SupplyShare*rated, DuctExponent)
	switch a.Equipment.Kind {
	case job.FurnaceWithCoil:
		a.part(&a.Coil, "coil", "cooling coil drop {drop} at the design airflow", CoilShare*rated, coilExponent)
	case job.AirHandler:
		if a.Coil != (job.Part{}) {
			a.Coil = job.Part{}
			a.Note("coil", "the kind of equipment", "the coil is inside the air handler: its drop is within the rated external static, so what is typed of it is not counted")
		}
	default:
		if a.Coil.Drop != 0 {
			a.part(&a.Coil, "coil", "cooling coil drop {drop} at the design airflow", 0, coilExponent)
		}
	}
	if a.Coil.Drop != 0 && a.Equipment.CoilDryShare == 0 {
		a.Equipment.CoilDryShare = UsualDryShare
		if !a.Equipment.NoHeating {
			a.Note("equipment.coil_dry_share", CommonPractice, "the coil drops 20 % less dry, in heating, than wet")
		}
	}
	if len(a.Returns) == 0 {
		a.part(&a.ReturnPart, "returns", "return ducts and grille drop {drop} at the design airflow", ReturnShare*rated, DuctExponent)
	}
}

func (a *CompleteJob) part(p *job.Part, path string, text message.ID, drop units.Pressure, exponent float64) {
	if p.Drop == 0 {
		p.Drop = drop * units.Pressure(a.Perturbation.Assumed(path))
		a.Value(path, CommonPractice, drop, text, "drop", drop)
	}
	if p.Airflow == 0 {
		p.Airflow = a.DesignAirflow
	}
	if p.Exponent == 0 {
		p.Exponent = exponent
	}
}

// usualCompression is that of a flex pulled straight with care
// (common practice, no source).
const usualCompression = 0.04

func (a *CompleteJob) limits() {
	l := &a.Limits
	if l.MaxOpenings == 0 {
		l.MaxOpenings = 3
	}
	fillOpen(a, &l.DuctVelocity, 700*units.FPM, "limits.duct_velocity", CommonPractice, "highest velocity in return ducts: {value}")
	fillOpen(a, &l.DuctFriction, 0.08*units.InchWaterPer100Feet, "limits.duct_friction", CommonPractice, "highest friction in return ducts: {value}")
	if l.FlexCompression == 0 {
		l.FlexCompression = usualCompression
		a.Note("limits.flex_compression", CommonPractice, "a new flex has 4 % slack")
	}
	a.casing()
	a.TypedMERV = l.MinMERV
	if l.MinMERV == 0 {
		l.MinMERV = a.todayMERV()
	}
	if l.ChangeMonths == 0 {
		l.ChangeMonths = units.Year
		a.Value("limits.change_months", CommonPractice, l.ChangeMonths, "a filter is changed after 12 months at the latest")
	}
	if l.ChangeAirflowLoss == 0 {
		l.ChangeAirflowLoss = 0.10
		a.Note("limits.change_airflow_loss", CommonPractice, "a filter is changed when the airflow has fallen by 10 %")
	}
}

// casing completes the allowance of a casing around its filters. It is listed as
// assumed only where the room at the equipment has a limit.
func (a *CompleteJob) casing() {
	l := &a.Limits
	usual := stock.UsualCasing(a.SizeSystem())
	if l.CabinetWidth == 0 && l.CabinetHeight == 0 && l.CabinetDepth == 0 {
		l.CasingFace, l.CasingDepth = cmp.Or(l.CasingFace, usual.Face), cmp.Or(l.CasingDepth, usual.Depth)
		return
	}
	fillOpen(a, &l.CasingFace, usual.Face, "limits.casing_face", CommonPractice, "a casing is wider and taller than its filters by {value}")
	fillOpen(a, &l.CasingDepth, usual.Depth, "limits.casing_depth", CommonPractice, "a casing is deeper than its filter by {value}")
}

func (a *CompleteJob) todayMERV() int {
	name := a.Slot.Filter
	for _, r := range a.Returns {
		if name == "" {
			name = r.Filter
		}
	}
	if f, ok := a.Filter(name); ok && f.MERV > 0 {
		return f.MERV
	}
	return 8
}

// UsualDryShare is the drop of a coil dry over its drop wet: water that runs
// down between the fins raises the drop by a quarter (common practice, no
// source).
const UsualDryShare = 0.8

// UsualEdgeCover is how far a filter track overlaps the frame, where left
// open: common practice, no source.
const UsualEdgeCover = 0.5 * units.Inch
