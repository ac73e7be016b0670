package cost

import "returnbench/sizing/units"

// Hours is how long the blower runs in a year, by season. Fan is the blower
// alone, with neither cooling nor heating.
type Hours struct{ Cooling, Heating, Fan units.Duration }

// AnnualInput is what a year of running depends on.
type AnnualInput struct {
	Hours Hours
	// Watts of the blower at the season's operating point.
	CoolingPower, HeatingPower, FanPower units.Power

	Price          units.EnergyPrice
	FiltersPerYear float64
	FilterPrice    units.Money // of all the filters of one change
}

// AnnualCost is a year of running, by part.
type AnnualCost struct {
	CoolingEnergy, HeatingEnergy, FanEnergy units.Energy
	Energy                                  units.Energy // their sum

	Power   units.Money // for the energy
	Filters units.Money
	Total   units.Money
}

// Annual is the cost of a year:
//
//	energy = watts x hours, summed over the seasons
//	total  = energy x price + filters a year x price of a change
//
// It holds for any sign and size of its input; what a filter's change or the
// power may not cost is for the job's checks.
func Annual(in AnnualInput) AnnualCost {
	a := AnnualCost{
		CoolingEnergy: energy(in.CoolingPower, in.Hours.Cooling),
		HeatingEnergy: energy(in.HeatingPower, in.Hours.Heating),
		FanEnergy:     energy(in.FanPower, in.Hours.Fan),
		Filters:       units.Money(in.FiltersPerYear) * in.FilterPrice,
	}
	a.Energy = a.CoolingEnergy + a.HeatingEnergy + a.FanEnergy
	a.Power = units.Money(a.Energy.SI() * in.Price.SI()) // J x money/J
	a.Total = a.Power + a.Filters
	return a
}

// energy is power x time.
func energy(p units.Power, t units.Duration) units.Energy {
	return units.Energy(p.SI() * t.SI()) // W s
}
