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
// loaded watts, since a filter spends its life between the two. The hours are
// the same for every option; CoolingTime says how much shorter it would run.
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
	if r.Kind != KindOption || r.Upgrade == 0 {
		return
	}
	years, pays := cost.Payback(r.Upgrade, today.AnnualCost-r.AnnualCost, h.Site.DiscountRate)
	r.Payback.Pays = pays
	if pays && !math.IsInf(years, 0) {
		r.Payback.Years = units.Duration(years) * units.Year
	}
}

// CoolingTime is how long the house with an option runs for the same sensible
// cooling, as a share of today's time:
//
//	(sensible capacity - blower watts) today / the same with the option
//
// each the mean of clean and loaded: what the blower draws ends as heat in the
// air it moves. It is for a cooler that the thermostat switches on and off; no
// cost holds it, since the outdoor unit's power, the larger part, is not
// modelled. False where nothing cools.
func (s *Study) CoolingTime(o *OptionResult) (share float64, known bool) {
	now, then := netSensible(s.Today()), netSensible(o)
	if now <= 0 || then <= 0 {
		return 1, false
	}
	return now / then, true
}

// netSensible is in W; zero where nothing cools.
func netSensible(o *OptionResult) float64 {
	net := 0.0
	for _, c := range []*Condition{&o.Clean, &o.Loaded} {
		if c.SensibleCapacity <= 0 {
			return 0
		}
		net += (c.SensibleCapacity.SI() - c.BlowerPower.SI()) / 2
	}
	return net
}
