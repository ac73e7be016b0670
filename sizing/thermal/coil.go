package thermal

import (
	"errors"
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/root"
	"returnbench/sizing/units"
)

// Coil is a cooling coil at its rating. Make one with NewCoil or RatedCoil.
type Coil struct {
	Capacity units.Capacity // total, at the rating
	Airflow  units.Flow     // at the rating
	Entering air.State      // at the rating
	// BypassFactor and ApparatusDewPoint are those of the rating.
	BypassFactor      float64
	ApparatusDewPoint units.Temperature

	dryAir  float64 // rated mass flow of dry air, kg/s
	ntu     float64
	wetBulb units.Temperature // rated, or that of a coil just dry
}

// CoilResult is the capacity of a coil at an airflow, and the air that leaves
// it.
type CoilResult struct {
	Total    units.Capacity // W
	Sensible units.Capacity // W, the part that cools and does not dry
	Leaving  air.State
	// ApparatusDewPoint is the coil's effective surface temperature, also when
	// the surface is dry.
	ApparatusDewPoint units.Temperature
	BypassFactor      float64 // exp(-NTU), 0 to 1
	// Dry: the surface is above the air's dew point, and no water condenses.
	Dry bool
	// Frost: the surface is at or under 32 F.
	Frost bool
	// Extrapolated: the airflow or the wet bulb is outside the range of the
	// capacity factors and they were held at its end, or the apparatus dew point
	// was held at LowestSurface.
	Extrapolated bool
}

// Latent is the total less the sensible capacity, W inside.
func (r CoilResult) Latent() units.Capacity { return r.Total - r.Sensible }

// SensibleHeatRatio is the sensible over the total capacity, 0 to 1.
func (r CoilResult) SensibleHeatRatio() float64 { return float64(r.Sensible) / float64(r.Total) }

// The range of flow fraction and entering wet bulb over which the capacity
// factors hold, and the coldest surface that the model lets a coil have.
const (
	LeastFlowFraction = 0.5
	MostFlowFraction  = 1.5

	LeastWetBulb  units.Temperature = 273.15 + 12.77778 // 55 F
	MostWetBulb   units.Temperature = 273.15 + 23.88889 // 75 F
	LowestSurface units.Temperature = 273.15 - 40
)

// FlowFactor is total capacity over its value at the rated airflow,
//
//	0.8 + 0.2 f
//
// f the fraction of the rated airflow, 0.5 to 1.5; outside it is held at the
// end and extrapolated is true. Source: default direct-expansion coil of an
// open building-energy engineering reference, from memory.
func FlowFactor(f float64) (factor float64, extrapolated bool) {
	clamped := min(max(f, LeastFlowFraction), MostFlowFraction)
	return 0.8 + 0.2*clamped, clamped != f
}

// WetBulbFactor is total capacity at an entering wet bulb t (C) over that at 67
// F (19.4 C), with 95 F outdoors:
//
//	0.494291 + 0.0267877 t - 0.0000414703 t^2
//
// Range 55 to 75 F; outside it is held at the end and extrapolated is true.
// Source: the biquadratic default curve of the same reference, from memory, at
// 35 C outdoors. Its value at 67 F is 0.999.
func WetBulbFactor(wetBulb units.Temperature) (factor float64, extrapolated bool) {
	clamped := min(max(wetBulb, LeastWetBulb), MostWetBulb)
	t := units.ToCelsius(clamped)
	return 0.494291 + t*(0.0267877-0.0000414703*t), clamped != wetBulb
}

// Run solves the coil for an airflow q of the entering state. Total capacity is
// the rated one by FlowFactor and by WetBulbFactor; NTU falls as 1/f (a
// constant surface conductance per rated airflow); f is by mass of dry air, so
// that thin air counts as less. The capacity of a dry coil is that at the wet
// bulb at which its surface would just begin to condense water. The heat that
// leaves with the condensate (about 1 %) is left out: enthalpy drop times mass
// flow is Total.
func (c Coil) Run(q units.Flow, entering air.State) (CoilResult, error) {
	wetBulb, err := EnteringWetBulb(entering)
	if err != nil {
		return CoilResult{}, err
	}
	return c.RunAt(q, entering, wetBulb)
}

// RunAt is Run on air whose EnteringWetBulb is known already: finding it takes as
// long as all the rest.
func (c Coil) RunAt(q units.Flow, entering air.State, wetBulb units.Temperature) (CoilResult, error) {
	if !(c.ntu > 0) {
		return CoilResult{}, errors.New("coil: not made by NewCoil")
	}
	if err := checkAirflow(q, "coil airflow {airflow}: want one above zero"); err != nil {
		return CoilResult{}, err
	}
	m, f := float64(q)/entering.SpecificVolume(), c.FlowFraction(q, entering)
	p := pass{coil: c, entering: entering, m: m, ntu: c.ntu / f}
	p.flowFactor, p.extrapolated = FlowFactor(f)
	p.contact = -math.Expm1(-p.ntu)
	return p.wet(wetBulb), nil
}

// FlowFraction is the airflow over that of the rating, by mass of dry air.
func (c Coil) FlowFraction(q units.Flow, entering air.State) float64 {
	return float64(q) / entering.SpecificVolume() / c.dryAir
}

func checkAirflow(q units.Flow, fault message.ID) error {
	if !(q > 0) || math.IsInf(float64(q), 0) {
		return message.Errorf(fault, "airflow", q)
	}
	return nil
}

// EnteringWetBulb is the wet bulb of air entering a coil (air.State.WetBulb); a
// dry bulb outside 32 to 140 F is an error.
func EnteringWetBulb(s air.State) (units.Temperature, error) {
	return enteringWetBulb(s, "air entering the coil at {temperature}: want 32 °F (0 °C) to 140 °F (60 °C)", "air entering the coil: {why}")
}

func enteringWetBulb(s air.State, outside, failed message.ID) (units.Temperature, error) {
	if t := units.ToFahrenheit(s.Temperature); !(t >= 32 && t <= 140) {
		return 0, message.Errorf(outside, "temperature", s.Temperature)
	}
	wetBulb, err := s.WetBulb()
	if err != nil {
		return 0, message.Errorf(failed, "why", err)
	}
	return wetBulb, nil
}

// pass is one airflow going through the coil.
type pass struct {
	coil         Coil
	entering     air.State
	m            float64 // dry air, kg/s
	ntu          float64
	contact      float64 // 1 - BF
	flowFactor   float64
	extrapolated bool
}

// capacity is the total capacity, W, at a wet bulb.
func (p *pass) capacity(wetBulb units.Temperature) (watts float64, extrapolated bool) {
	now, outside := WetBulbFactor(wetBulb)
	rated, _ := WetBulbFactor(p.coil.wetBulb)
	return float64(p.coil.Capacity) * p.flowFactor * now / rated, outside
}

// wet is the coil with a wet surface: the apparatus dew point is the saturated
// air at h_in - Q/(m (1 - BF)), and the air leaves on the straight line to it.
// Where that line would pass through fog the air leaves saturated.
func (p *pass) wet(wetBulb units.Temperature) CoilResult {
	watts, outside := p.capacity(wetBulb)
	in := p.entering
	h := in.Enthalpy() - watts/(p.m*p.contact)
	surface := air.SaturatedAtEnthalpy(h, in.Pressure)
	clamped := surface.Temperature < LowestSurface
	if clamped {
		surface = saturated(LowestSurface, in.Pressure)
		watts = (in.Enthalpy() - surface.Enthalpy()) * p.m * p.contact
	}
	if surface.HumidityRatio >= in.HumidityRatio {
		return p.dry()
	}
	leaving := in
	leaving.HumidityRatio += p.contact * (surface.HumidityRatio - in.HumidityRatio)
	leaving = leaving.AtEnthalpy(in.Enthalpy() - watts/p.m)
	if leaving.RelativeHumidity() > 1 {
		leaving = air.SaturatedAtEnthalpy(leaving.Enthalpy(), in.Pressure)
	}
	return p.result(watts, surface.Temperature, leaving, outside || clamped)
}

// dry is the coil above the air's dew point. Its capacity is that at the wet
// bulb of air which at the same dry bulb is so moist that the surface just
// stays dry: the surface temperature x at which
//
//	Q(wet bulb of saturation at x) = m (1 - BF) cp (T - x)
//
// The left side rises with x, the right side falls.
func (p *pass) dry() CoilResult {
	in := p.entering
	rate := p.m * in.SpecificHeat() * (1 + in.HumidityRatio) // W/K
	excess := func(x float64) float64 {
		watts, _ := p.capacity(justDryWetBulb(in, units.Temperature(x)))
		return watts - rate*p.contact*(float64(in.Temperature)-x)
	}
	low := max(float64(in.DewPoint()), float64(LowestSurface))
	surface := units.Temperature(root.Rising(excess, low, float64(in.Temperature), 1e-9))
	_, outside := p.capacity(justDryWetBulb(in, surface))
	watts := rate * p.contact * float64(in.Temperature-surface)
	leaving := in
	leaving.Temperature = units.Warmer(leaving.Temperature, units.TemperatureDifference(-watts/rate))
	r := p.result(watts, surface, leaving, outside || surface <= LowestSurface)
	r.Sensible, r.Dry = r.Total, true
	return r
}

// justDryWetBulb is the wet bulb of air with the dry bulb of s and its dew point
// at the surface temperature.
func justDryWetBulb(s air.State, surface units.Temperature) units.Temperature {
	s.HumidityRatio = air.SaturationHumidityRatio(min(surface, s.Temperature), s.Pressure)
	wetBulb, err := s.WetBulb()
	if err != nil {
		return s.Temperature // saturated to the last digit
	}
	return wetBulb
}

func (p *pass) result(watts float64, surface units.Temperature, leaving air.State, outside bool) CoilResult {
	// Sensible heat: the fall in temperature at the leaving humidity.
	warm := leaving
	warm.Temperature = p.entering.Temperature
	return CoilResult{
		Total:             units.Capacity(watts),
		Sensible:          units.Capacity(p.m * (warm.Enthalpy() - leaving.Enthalpy())),
		Leaving:           leaving,
		ApparatusDewPoint: surface,
		BypassFactor:      math.Exp(-p.ntu),
		Frost:             surface <= freezing,
		Extrapolated:      outside || p.extrapolated,
	}
}

const freezing units.Temperature = 273.15

func saturated(t units.Temperature, p units.Pressure) air.State {
	return air.State{Temperature: t, Pressure: p, HumidityRatio: air.SaturationHumidityRatio(t, p)}
}
