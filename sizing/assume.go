package sizing

import (
	"slices"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

const commonPractice = "common practice, no source"

// GenericFilterName is the filter that stands in where the job names none.
const GenericFilterName = "generic MERV 8"

// assumed is a job in which nothing is left open, and what was assumed for it.
type assumed struct {
	Job
	// returnPart stands for the whole return where no branch is described.
	returnPart Part
	list       []Assumption
	scatter    *scatter // moves what is assumed; nil outside of sampling
}

func (a *assumed) note(path, source, format string, args ...any) {
	n := Assumption{Path: path, Source: source, format: format, args: args}
	n.Text = n.In(units.IP)
	a.list = append(a.list, n)
}

// value notes an assumption that puts one quantity into its field.
func (a *assumed) value(path, source string, q units.Quantity, format string, args ...any) {
	a.note(path, source, format, args...)
	a.list[len(a.list)-1].Value = q
}

// assumes tells whether nobody typed or measured a field.
func (a *assumed) assumes(path string) bool {
	return slices.ContainsFunc(a.list, func(n Assumption) bool { return n.Path == path })
}

// open sets a field that was left open and notes it.
func open[T interface {
	comparable
	units.Quantity
}](a *assumed, field *T, value T, path, source, text string) {
	var zero T
	if *field != zero {
		return
	}
	*field = value
	a.value(path, source, value, text+": %v", any(value))
}

// assume fills what the job leaves open with usual values.
func assume(job Job) *assumed { return assumeWith(job, nil) }

func assumeWith(job Job, s *scatter) *assumed {
	a := &assumed{Job: job.Clone(), scatter: s}
	a.site()
	a.airflow()
	a.equipment()
	a.filterPlaces()
	a.parts()
	a.limits()
	return a
}

func (a *assumed) site() {
	s := &a.Site
	open(a, &s.IndoorDryBulb, max(units.Fahrenheit(75), s.IndoorWetBulb), "site.indoor_dry_bulb", commonPractice, "return air dry bulb in cooling")
	open(a, &s.IndoorWetBulb, s.IndoorDryBulb-units.Temperature(12*5.0/9), "site.indoor_wet_bulb", commonPractice, "return air wet bulb in cooling")
	open(a, &s.HeatingIndoor, units.Fahrenheit(68), "site.heating_indoor", commonPractice, "return air in heating")
	open(a, &s.PowerPrice, 0.17*units.MoneyPerKilowattHour, "site.power_price", commonPractice, "price of power")
	if a.Equipment.NoHeating {
		s.HeatingHours = 0
	}
	switch none := s.CoolingHours == 0 && s.HeatingHours == 0 && s.FanHours == 0; {
	case none && a.Equipment.NoHeating:
		s.CoolingHours = 1000 * units.Hour
		a.value("site.cooling_hours", commonPractice, s.CoolingHours, "the blower runs 1000 h a year in cooling")
	case none:
		s.CoolingHours, s.HeatingHours = 1000*units.Hour, 1000*units.Hour
		a.note("site.cooling_hours", commonPractice, "the blower runs 1000 h a year in cooling and 1000 h in heating")
	}
	if s.DiscountRate == 0 {
		s.DiscountRate = 0.03
		a.note("site.discount_rate", commonPractice, "money a year later counts 3 %% less")
	}
	if s.DustRate == 0 {
		if s.Dust == "" {
			s.Dust = DustOrdinary
			a.value("site.dust", "invented preset", dustRates[DustOrdinary], "an ordinary household's dust: %v of running", dustRates[DustOrdinary])
		}
		s.DustRate = dustRates[s.Dust]
	}
}

// dustRates are invented: grams that reach the filter in a day of running.
var dustRates = map[DustPreset]units.MassRate{
	DustLow:      0.6 * units.GramPerDay,
	DustOrdinary: 1.2 * units.GramPerDay,
	DustPets:     2.4 * units.GramPerDay,
	DustWorks:    10 * units.GramPerDay,
}

const usualAirflowPerCapacity = 400 * units.CFMPerTon

func (a *assumed) airflow() {
	e := &a.Equipment
	switch {
	case a.DesignAirflow == 0:
		open(a, &a.AirflowPerCapacity, usualAirflowPerCapacity, "airflow_per_capacity", commonPractice, "airflow per cooling capacity")
		a.DesignAirflow = units.Flow(float64(a.AirflowPerCapacity) * float64(e.CoolingCapacity))
	case e.CoolingCapacity == 0:
		open(a, &a.AirflowPerCapacity, usualAirflowPerCapacity, "airflow_per_capacity", commonPractice, "airflow per cooling capacity")
		open(a, &e.CoolingCapacity, units.Capacity(float64(a.DesignAirflow)/float64(a.AirflowPerCapacity)), "equipment.cooling_capacity", "from the design airflow", "cooling capacity")
	}
	// Where both are typed the airflow rules.
	a.AirflowPerCapacity = units.FlowPerCapacity(float64(a.DesignAirflow) / float64(e.CoolingCapacity))
	if e.NoHeating {
		a.HeatingAirflow = 0
	} else {
		open(a, &a.HeatingAirflow, a.DesignAirflow, "heating_airflow", commonPractice, "heating airflow as in cooling")
	}
	open(a, &a.TargetFaceVelocity, 300*units.FPM, "target_face_velocity", commonPractice, "target face velocity")
}

func (a *assumed) equipment() {
	e := &a.Equipment
	if e.Kind == "" {
		e.Kind = FurnaceWithCoil
		a.note("equipment.kind", commonPractice, "a furnace with a cooling coil on it: filter, coil and ducts are external")
	}
	a.heating()
	if e.EER == 0 && e.Kind != Furnace {
		e.EER = usualEER * a.scatter.assumed("equipment.eer")
		a.note("equipment.eer", commonPractice, "the outdoor unit's EER: %.0f Btu/(W h)", usualEER)
	}
	open(a, &e.RatedExternalStatic, 0.5*units.InchWater, "equipment.rated_external_static", commonPractice, "rated external static")
	a.blower(&e.Blower)
	a.fanTap(&e.Blower)
}

// usualEER is that of an ordinary split system, Btu/(W h).
const usualEER = 11.0

// heating is the output and the range of rise, where the equipment heats.
func (a *assumed) heating() {
	e := &a.Equipment
	if e.NoHeating {
		e.HeatingOutput, e.RiseLow, e.RiseHigh = 0, 0, 0
		return
	}
	if e.HeatingOutput == 0 {
		perCapacity := 20000.0 / 12000
		if e.Kind == AirHandler {
			perCapacity = 1
		}
		e.HeatingOutput = units.HeatRate(perCapacity * float64(e.CoolingCapacity))
		a.value("equipment.heating_output", commonPractice, e.HeatingOutput, "heating output: %v", e.HeatingOutput)
	}
	low, high := 30*units.FahrenheitDegree, 60*units.FahrenheitDegree
	switch {
	case e.RiseLow != 0:
		high = e.RiseLow + 30*units.FahrenheitDegree
	case e.RiseHigh != 0:
		low = e.RiseHigh - 30*units.FahrenheitDegree
	case e.Kind == AirHandler:
		low, high = 15*units.FahrenheitDegree, 45*units.FahrenheitDegree
	}
	open(a, &e.RiseLow, low, "equipment.rise_low", commonPractice, "least temperature rise of the nameplate")
	open(a, &e.RiseHigh, high, "equipment.rise_high", commonPractice, "most temperature rise of the nameplate")
}

func (a *assumed) blower(b *blower.Table) {
	if b.Motor == "" {
		b.Motor = blower.PSC
		if len(b.Taps) == 0 {
			a.note("equipment.blower.motor", commonPractice, "a PSC motor")
		}
	}
	if len(b.Taps) == 0 {
		generic := blower.Generic(b.Motor, a.DesignAirflow, a.Equipment.RatedExternalStatic)
		generic.Includes = b.Includes
		scaleTaps(generic.Taps, a.scatter.assumed("blower"))
		*b = generic
		a.note("equipment.blower.taps", blower.GenericSource, "a generic blower table that gives %v at %v", a.DesignAirflow, a.Equipment.RatedExternalStatic)
		a.note("equipment.blower.cooling_tap", blower.GenericSource, "cooling runs at %s of the generic table", TapName(b.CoolingTap))
		if !a.Equipment.NoHeating {
			a.note("equipment.blower.heating_tap", blower.GenericSource, "heating runs at %s of the generic table", TapName(b.HeatingTap))
		}
		return
	}
	// The strongest tap cools unless another is named.
	if b.CoolingTap == "" {
		b.CoolingTap = strongest(b.Taps)
		if len(b.Taps) > 1 {
			a.note("equipment.blower.cooling_tap", commonPractice, "cooling runs at %s", TapName(b.CoolingTap))
		}
	}
	if b.HeatingTap == "" {
		b.HeatingTap = b.CoolingTap
		if len(b.Taps) > 1 && !a.Equipment.NoHeating {
			a.note("equipment.blower.heating_tap", commonPractice, "heating runs at %s", TapName(b.HeatingTap))
		}
	}
}

// fanTap is the tap of the blower alone.
func (a *assumed) fanTap(b *blower.Table) {
	if b.FanTap != "" {
		return
	}
	b.FanTap = b.CoolingTap
	if a.Site.FanHours > 0 {
		a.note("equipment.blower.fan_tap", commonPractice, "the fan alone runs at the cooling tap, %s", TapName(b.FanTap))
	}
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

// filterPlaces settles where the filters of today sit and what they are.
func (a *assumed) filterPlaces() {
	s := &a.Slot
	inGrilles := false
	for _, r := range a.Returns {
		inGrilles = inGrilles || r.Filter != ""
	}
	if *s == (Slot{}) && inGrilles {
		s.None = true
	}
	if s.None {
		return
	}
	if s.Width == 0 {
		if f, ok := a.filter(s.Filter); ok && f.Width > 0 {
			s.Width, s.Height = f.Width, f.Height
		} else {
			s.Width, s.Height = usualSlot(a.DesignAirflow)
			a.note("slot.width", commonPractice, "a filter slot of %v by %v", s.Width, s.Height)
		}
	}
	if s.Depth == 0 {
		if f, ok := a.filter(s.Filter); ok && f.Depth > 0 {
			s.Depth = f.Depth
		} else {
			s.Depth = units.Inch
			a.note("slot.depth", commonPractice, "the slot takes a filter %v deep", s.Depth)
		}
	}
	if s.Filter == "" {
		a.genericFilter(s)
	}
}

func (a *assumed) genericFilter(s *Slot) {
	s.Filter = GenericFilterName
	if _, ok := a.filter(GenericFilterName); !ok {
		f := genericFilter()
		f.Depth = s.Depth
		a.Filters = append(a.Filters, f)
	}
	a.note("slot.filter", "invented generic filter", "a pleated MERV 8 filter")
}

// genericFilter is an invented everyday filter.
func genericFilter() filter.Filter {
	return filter.Filter{Name: GenericFilterName, Depth: units.Inch, MERV: 8}
}

// usualSlot is the slot often found under a furnace of an airflow.
func usualSlot(q units.Flow) (width, height units.Length) {
	switch {
	case q <= 900*units.CFM:
		return 16 * units.Inch, 20 * units.Inch
	case q <= 1400*units.CFM:
		return 16 * units.Inch, 25 * units.Inch
	default:
		return 20 * units.Inch, 25 * units.Inch
	}
}

// Shares of the rated external static that a usual house spends by part.
const (
	returnShare = 0.20
	coilShare   = 0.40
	supplyShare = 0.20

	ductExponent = 2.0 // the reference system of furnace fan tests, static = k Q^2
	coilExponent = 1.8 // common practice, no source
)

func (a *assumed) parts() {
	rated := a.Equipment.RatedExternalStatic
	a.part(&a.Supply, "supply", "supply ducts", supplyShare*rated, ductExponent)
	switch a.Equipment.Kind {
	case FurnaceWithCoil:
		a.part(&a.Coil, "coil", "cooling coil", coilShare*rated, coilExponent)
	default:
		if a.Coil.Drop != 0 {
			a.part(&a.Coil, "coil", "cooling coil", 0, coilExponent)
		}
	}
	if a.Coil.Drop != 0 && a.Equipment.CoilDryShare == 0 {
		a.Equipment.CoilDryShare = usualDryShare
		if !a.Equipment.NoHeating {
			a.note("equipment.coil_dry_share", commonPractice, "the coil drops 20 %% less dry, in heating, than wet")
		}
	}
	if len(a.Returns) == 0 {
		a.part(&a.returnPart, "returns", "return ducts and grille", returnShare*rated, ductExponent)
	}
}

func (a *assumed) part(p *Part, path, name string, drop units.Pressure, exponent float64) {
	if p.Drop == 0 {
		p.Drop = drop * units.Pressure(a.scatter.assumed(path))
		a.value(path, commonPractice, drop, name+" drop %v at the design airflow", drop)
	}
	if p.Airflow == 0 {
		p.Airflow = a.DesignAirflow
	}
	if p.Exponent == 0 {
		p.Exponent = exponent
	}
}

// usualCompression is that of a flex pulled straight by a careful hand.
const usualCompression = 0.04

func (a *assumed) limits() {
	l := &a.Limits
	if l.MaxOpenings == 0 {
		l.MaxOpenings = 3
	}
	open(a, &l.DuctVelocity, 700*units.FPM, "limits.duct_velocity", commonPractice, "highest velocity in return ducts")
	open(a, &l.DuctFriction, 0.08*units.InchWaterPer100Feet, "limits.duct_friction", commonPractice, "highest friction in return ducts")
	if l.FlexCompression == 0 {
		l.FlexCompression = usualCompression
		a.note("limits.flex_compression", commonPractice, "a new flex lies 4 %% shorter than fully stretched")
	}
	if l.MinMERV == 0 {
		l.MinMERV = a.todayMERV()
	}
	if l.ChangeMonths == 0 {
		l.ChangeMonths = units.Year
		a.value("limits.change_months", commonPractice, l.ChangeMonths, "a filter is changed after 12 months at the latest")
	}
	if l.ChangeAirflowLoss == 0 {
		l.ChangeAirflowLoss = 0.10
		a.note("limits.change_airflow_loss", commonPractice, "a filter is changed when the airflow has fallen by 10 %%")
	}
}

func (a *assumed) todayMERV() int {
	name := a.Slot.Filter
	for _, r := range a.Returns {
		if name == "" {
			name = r.Filter
		}
	}
	if f, ok := a.filter(name); ok && f.MERV > 0 {
		return f.MERV
	}
	return 8
}
