package sizing

import (
	"math"

	"returnbench/sizing/cost"
	"returnbench/sizing/units"
)

// Years over which costs are added up, and the price of a filter that nobody
// typed: an estimate by depth, common practice, no source.
const (
	costYears          = 10
	filterPricePerInch = 9 * units.Dollar
)

// money works out a year's cost and ten years' from the mean of clean and
// loaded watts, since a filter spends its life between the two.
func (h *house) money(r *OptionResult) {
	in := cost.AnnualInput{
		Hours:        cost.Hours{Cooling: h.Site.CoolingHours, Heating: h.Site.HeatingHours, Fan: h.Site.FanHours},
		CoolingPower: h.meanPower(r, func(c Condition) units.Power { return c.BlowerPower }, true),
		HeatingPower: h.meanPower(r, func(c Condition) units.Power { return c.HeatingPower }, false),
		Price:        h.Site.PowerPrice,
	}
	in.FanPower = in.CoolingPower
	if r.Life > 0 {
		in.FiltersPerYear = float64(units.Year) / float64(r.Life)
		in.FilterPrice = r.filterPrice
	}
	annual := cost.Annual(in)
	r.AnnualPower, r.AnnualFilter, r.AnnualCost = annual.Power, annual.Filters, annual.Total
	r.AnnualEnergy = annual.Energy
	r.FiltersPerYear = in.FiltersPerYear
	var parts cost.Parts
	r.TenYearCost, parts = cost.TenYear(annual, r.Upgrade, h.Site.DiscountRate, costYears)
	r.TenYearPower, r.TenYearFilter = parts.Power, parts.Filters
}

// meanPower is the mean over the life curve in cooling, where it is known, and
// the mean of both ends in heating.
func (h *house) meanPower(r *OptionResult, of func(Condition) units.Power, cooling bool) units.Power {
	n := len(r.LifeCurve)
	if !cooling || n < 2 {
		return (of(r.Clean) + of(r.Loaded)) / 2
	}
	var energy, time float64
	for i := 1; i < n; i++ {
		a, b := r.LifeCurve[i-1], r.LifeCurve[i]
		dt := float64(b.Time - a.Time)
		energy += dt * float64(a.Power+b.Power) / 2
		time += dt
	}
	if time == 0 {
		return of(r.Clean)
	}
	return units.Power(energy / time)
}

// payback holds an option's price against what it saves a year over today.
func (h *house) payback(r, today *OptionResult) {
	if r.Kind != "option" || r.Upgrade == 0 {
		return
	}
	years, pays := cost.Payback(r.Upgrade, today.AnnualCost-r.AnnualCost, h.Site.DiscountRate)
	r.Payback.Pays = pays
	if pays && !math.IsInf(years, 0) {
		r.Payback.Years = units.Duration(years) * units.Year
	}
}
