package thermal

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// The coil taken where no sensible heat ratio is given: a ratio of 0.75 at 400
// cfm a ton and return air of 80 F dry bulb and 67 F wet bulb at sea level
// (common practice, no source).
const (
	UsualSensibleHeatRatio                       = 0.75
	usualFlow              units.FlowPerCapacity = 400 * units.CFMPerTon
)

// NewCoil makes a coil from its rating: total capacity, airflow and the state
// of the air entering then, and the sensible over the total capacity. The line
// from the entering through the leaving state meets saturation at the apparatus
// dew point, and that gives the bypass factor; a ratio for which it does not is
// an error that names the nearest possible one. With a ratio of 0 the coil has
// the surface per ton of the usual one (UsualSensibleHeatRatio).
//
// Rate the coil at the state for which its capacity is printed, and pass the
// air of the house, at its altitude, to Run.
func NewCoil(ratedCapacity units.Capacity, ratedFlow units.Flow, entering air.State, sensibleHeatRatio float64) (Coil, error) {
	if !(ratedCapacity > 0) || math.IsInf(float64(ratedCapacity), 0) {
		return Coil{}, message.Errorf("rated cooling capacity {capacity}: want one above zero", "capacity", ratedCapacity)
	}
	if err := checkAirflow(ratedFlow, "rated coil airflow {airflow}: want one above zero"); err != nil {
		return Coil{}, err
	}
	wetBulb, err := enteringWetBulb(entering, "rated air entering the coil at {temperature}: want 32 °F (0 °C) to 140 °F (60 °C)", "rated air entering the coil: {why}")
	if err != nil {
		return Coil{}, err
	}
	c := Coil{Capacity: ratedCapacity, Airflow: ratedFlow, Entering: entering, wetBulb: wetBulb}
	c.dryAir = float64(ratedFlow) / entering.SpecificVolume()
	drop := float64(ratedCapacity) / c.dryAir
	if coldest := saturated(LowestSurface, entering.Pressure); entering.Enthalpy()-drop <= coldest.Enthalpy() {
		return Coil{}, message.Errorf("rated airflow {airflow} is too little for a cooling capacity of {capacity}: the air would leave under {lowest}",
			"airflow", ratedFlow, "capacity", ratedCapacity, "lowest", LowestSurface)
	}
	if sensibleHeatRatio == 0 {
		if c.ntu, err = usualTransferUnits(drop); err != nil {
			return Coil{}, err
		}
	} else if c.ntu, err = transferUnits(drop, entering, sensibleHeatRatio); err != nil {
		return Coil{}, err
	}
	return c.ratedSurface()
}

// ratedSurface finds the surface and the wet bulb at the rating.
func (c Coil) ratedSurface() (Coil, error) {
	contact := -math.Expm1(-c.ntu)
	surface := air.SaturatedAtEnthalpy(c.Entering.Enthalpy()-float64(c.Capacity)/(c.dryAir*contact), c.Entering.Pressure)
	c.ApparatusDewPoint = surface.Temperature
	if surface.HumidityRatio >= c.Entering.HumidityRatio {
		in := c.Entering
		rate := c.dryAir * in.SpecificHeat() * (1 + in.HumidityRatio) // W/K
		c.ApparatusDewPoint = units.Warmer(in.Temperature, units.TemperatureDifference(-float64(c.Capacity)/(rate*contact)))
		c.wetBulb = justDryWetBulb(in, c.ApparatusDewPoint)
	}
	if c.ApparatusDewPoint < LowestSurface {
		return Coil{}, message.Errorf("rated airflow {airflow} is too little for a cooling capacity of {capacity}: the coil would be under {lowest}",
			"airflow", c.Airflow, "capacity", c.Capacity, "lowest", LowestSurface)
	}
	c.BypassFactor = math.Exp(-c.ntu)
	return c, nil
}

// RatedCoil is a coil as coils are rated: at 400 cfm a ton and return air of 80 F
// dry bulb and 67 F wet bulb at sea level (common practice, no source).
func RatedCoil(capacity units.Capacity, sensibleHeatRatio float64) (Coil, error) {
	entering, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	if err != nil {
		return Coil{}, err
	}
	return NewCoil(capacity, units.Flow(float64(usualFlow)*float64(capacity)), entering, sensibleHeatRatio)
}

// RatioError: no coil can have that sensible heat ratio.
type RatioError struct {
	Ratio  float64
	Wanted message.Message
}

func (e *RatioError) Error() string { return e.In(units.IP) }

// In writes the fault for a reader.
func (e *RatioError) In(l units.Locale) string {
	return message.Text(l, "sensible heat ratio {ratio}: want {wanted}", "ratio", message.Fixed(e.Ratio, 2), "wanted", e.Wanted)
}

// usualTransferUnits is NTU of the usual coil where each kilogram of dry air
// loses drop joules: the surface goes with capacity, so NTU goes with the drop.
func usualTransferUnits(drop float64) (float64, error) {
	entering, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	if err != nil {
		return 0, err
	}
	usualDrop := entering.SpecificVolume() / float64(usualFlow) // J/kg
	ntu, err := transferUnits(usualDrop, entering, UsualSensibleHeatRatio)
	return ntu * drop / usualDrop, err
}

// transferUnits is NTU = -ln BF of the coil that takes drop joules from each
// kilogram of dry air at a sensible heat ratio.
func transferUnits(drop float64, entering air.State, ratio float64) (float64, error) {
	if !(ratio > 0 && ratio <= 1) {
		return 0, &RatioError{ratio, message.New("one above 0 and at most 1")}
	}
	reach, ok := conditionLine{entering, drop, ratio}.toSaturation()
	if ok {
		// BF = (h_out - h_adp)/(h_in - h_adp) = 1 - 1/reach
		return min(-math.Log1p(-1/reach), maxTransferUnits), nil
	}
	for step := 1; step < 100; step++ {
		for _, near := range []float64{ratio - float64(step)/100, ratio + float64(step)/100} {
			if near <= 0 || near > 1 {
				continue
			}
			if _, ok := (conditionLine{entering, drop, near}).toSaturation(); ok {
				return 0, &RatioError{ratio, message.New("another: no coil does that at the rated airflow and entering air; the nearest possible is {ratio}", "ratio", message.Fixed(near, 2))}
			}
		}
	}
	return 0, &RatioError{ratio, message.New("more rated airflow: no coil takes that capacity from it at any ratio")}
}

// maxTransferUnits bounds NTU where the leaving air is all but saturated.
const maxTransferUnits = 20

// conditionLine is the line of states from the entering air through the leaving
// air and on towards the coil's surface.
type conditionLine struct {
	entering air.State
	drop     float64 // enthalpy from entering to leaving, J/kg
	ratio    float64 // sensible share of it
}

// at is the state after s drops: s = 1 is the leaving air. The latent share is
// taken out at the entering temperature.
func (l conditionLine) at(s float64) air.State {
	dry, vapour, out := l.entering, l.entering, l.entering
	dry.HumidityRatio, vapour.HumidityRatio = 0, 1
	out.HumidityRatio -= s * (1 - l.ratio) * l.drop / (vapour.Enthalpy() - dry.Enthalpy())
	return out.AtEnthalpy(l.entering.Enthalpy() - s*l.drop)
}

// room is how much more water the air could hold at s.
func (l conditionLine) room(s float64) float64 {
	state := l.at(s)
	return air.SaturationHumidityRatio(state.Temperature, state.Pressure) - state.HumidityRatio
}

// toSaturation follows the line from the leaving air, 0.1 K a step, to the
// point where it crosses saturation: reach drops from the entering air. It is
// false where the leaving air would be fog or the line misses saturation.
func (l conditionLine) toSaturation() (reach float64, ok bool) {
	if l.room(1) < 0 {
		return 0, false
	}
	step := 0.1 / float64(l.entering.Temperature-l.at(1).Temperature)
	dry, s := 1.0, 1.0
	for {
		s += step
		state := l.at(s)
		if state.HumidityRatio < 0 || state.Temperature < LowestSurface {
			return 0, false
		}
		if l.room(s) <= 0 {
			break
		}
		dry = s
	}
	wet := s
	for range 60 {
		s = (dry + wet) / 2
		if l.room(s) > 0 {
			dry = s
		} else {
			wet = s
		}
	}
	return s, true
}
