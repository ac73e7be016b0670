package cost

import "returnbench/sizing/units"

// Hours is how long the blower runs in a year, by season. Fan is the blower
// alone, with neither cooling nor heating.
type Hours struct{ Cooling, Heating, Fan units.Duration }

// AnnualInput is what a year of running depends on.
type AnnualInput struct {
	Hours Hours // of the blower in the year, s inside
	// Watts of the blower at the season's operating point.
	CoolingPower, HeatingPower, FanPower units.Power
	OutdoorPower                         units.Power // of the outdoor unit, while it cools

	Price          units.EnergyPrice // of electricity, money/J inside
	FiltersPerYear float64           // changes a year
	FilterPrice    units.Money       // of all the filters of one change
}

// AnnualCost is a year of running, by part.
type AnnualCost struct {
	CoolingEnergy, HeatingEnergy, FanEnergy units.Energy // of the blower by season, J inside
	Energy                                  units.Energy // their sum
	OutdoorEnergy                           units.Energy // of the outdoor unit, J inside

	Power   units.Money // for the blower's energy
	Outdoor units.Money // for the outdoor unit's
	Filters units.Money // for the filters of a year
	Total   units.Money // power, outdoor and filters
}

// Annual is the cost of a year:
//
//	energy = watts x hours, summed over the seasons
//	total  = (blower + outdoor energy) x price + filters a year x price of a change
//
// It accepts any sign and size of input: the job's check refuses unreasonable
// prices.
func Annual(in AnnualInput) AnnualCost {
	a := AnnualCost{
		CoolingEnergy: energy(in.CoolingPower, in.Hours.Cooling),
		HeatingEnergy: energy(in.HeatingPower, in.Hours.Heating),
		FanEnergy:     energy(in.FanPower, in.Hours.Fan),
		Filters:       units.Money(in.FiltersPerYear) * in.FilterPrice,
	}
	a.Energy = a.CoolingEnergy + a.HeatingEnergy + a.FanEnergy
	a.Power = units.Money(a.Energy.SI() * in.Price.SI()) // J x money/J
	a.OutdoorEnergy = energy(in.OutdoorPower, in.Hours.Cooling)
	a.Outdoor = units.Money(a.OutdoorEnergy.SI() * in.Price.SI())
	a.Total = a.Power + a.Outdoor + a.Filters
	return a
}

// energy is power x time.
func energy(p units.Power, t units.Duration) units.Energy {
	return units.Energy(p.SI() * t.SI()) // W s
}

// EER is in Btu/(W h).
const btuPerWattHour = 3.412141633

// OutdoorPower is what the outdoor unit draws at a fraction f of the rated
// airflow over the indoor coil:
//
//	rated capacity / EER x EIR(f),   EIR(f) = 1.1552 - 0.1808 f + 0.0256 f^2
//
// EER in Btu/(W h). The factor is the default flow-fraction curve of a
// direct-expansion coil in an open building-energy reference, from memory, for f
// of 0.5 to 1.5; outside it is held at the nearer end. A rated EER contains some
// of the indoor blower's watts; with those counted separately too, the result is
// somewhat high.
func OutdoorPower(capacity units.Capacity, eer, f float64) units.Power {
	if !(eer > 0) {
		return 0
	}
	return units.Power(capacity.SI() / (eer / btuPerWattHour) * FlowEIR(f))
}

// FlowEIR is the factor EIR(f) of OutdoorPower, with its source and range.
func FlowEIR(f float64) float64 {
	f = min(max(f, 0.5), 1.5)
	return 1.1552 - 0.1808*f + 0.0256*f*f
}
