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

// money works out a year's cost and ten years' at today's sensible cooling: the
// hours of cooling scale with today's capacity over the option's. Watts are the
// mean over the filter's life, since it spends its life between clean and loaded.
func (h *house) money(r, today *OptionResult) {
	in, cools := h.annualInput(r, today)
	r.CoolingHours = in.Hours.Cooling
	r.AnnualKnown = cools || h.Equipment.Kind == Furnace
	filters := units.Money(0)
	r.FiltersPerYear = 0
	for k := range r.Places {
		p := &r.Places[k]
		r.FiltersPerYear += p.PerYear
		filters += units.Money(p.PerYear) * p.Price
		// A filter that is over its limit when new is changed without end.
		r.AnnualKnown = r.AnnualKnown && p.Life > 0
	}
	in.FiltersPerYear, in.FilterPrice = 1, filters
	annual := cost.Annual(in)
	total, parts := cost.TenYear(annual, r.Upgrade, h.Site.DiscountRate, costYears)
	r.AnnualPower, r.AnnualOutdoor = annual.Power, annual.Outdoor
	r.AnnualEnergy, r.OutdoorEnergy = annual.Energy, annual.OutdoorEnergy
	r.TenYearPower, r.TenYearOutdoor = parts.Power, parts.Outdoor
	r.AnnualFilter, r.TenYearFilter = annual.Filters, parts.Filters
	r.AnnualCost, r.TenYearCost = 0, 0
	if r.TenYearKnown = r.AnnualKnown && r.UpgradeKnown; r.TenYearKnown {
		r.TenYearCost = total
	}
	if r.AnnualKnown {
		r.AnnualCost = annual.Total
	}
	h.payback(r, today)
}

// annualInput is what a year of running takes, without the filters; cools tells
// whether the hours of cooling follow from the heat balance.
func (h *house) annualInput(r, today *OptionResult) (in cost.AnnualInput, cools bool) {
	share, cools := coolingTime(r, today)
	in = cost.AnnualInput{
		Hours:        cost.Hours{Cooling: h.Site.CoolingHours, Heating: h.Site.HeatingHours, Fan: h.Site.FanHours},
		CoolingPower: meanPower(r, func(c *Condition) units.Power { return c.BlowerPower }, true),
		HeatingPower: meanPower(r, func(c *Condition) units.Power { return c.HeatingPower }, false),
		FanPower:     meanPower(r, func(c *Condition) units.Power { return c.FanPower }, h.Equipment.Blower.FanTap == h.Equipment.Blower.CoolingTap),
		Price:        h.Site.PowerPrice,
	}
	if cools {
		in.Hours.Cooling *= units.Duration(share)
		in.OutdoorPower = h.outdoorPower(r)
	}
	return in, cools
}

// tenYearsOfKnown is the present value of what is known of an option's cost, to
// order options whose work is not priced.
func (o *OptionResult) tenYearsOfKnown() units.Money {
	return o.Upgrade + o.TenYearPower + o.TenYearOutdoor + o.TenYearFilter
}

// outdoorPower is that of the outdoor unit, the mean of clean and loaded.
func (h *house) outdoorPower(r *OptionResult) units.Power {
	sum := units.Power(0)
	for _, c := range []*Condition{&r.Clean, &r.Loaded} {
		sum += cost.OutdoorPower(h.Equipment.CoolingCapacity, h.Equipment.EER, float64(c.Airflow)/float64(h.coil.Airflow)) / 2
	}
	return sum
}

// meanPower is the mean over the life curve on the cooling tap, where it is
// known, and the mean of both ends on another.
func meanPower(r *OptionResult, of func(*Condition) units.Power, cooling bool) units.Power {
	n := len(r.LifeCurve)
	if !cooling || n < 2 {
		return (of(&r.Clean) + of(&r.Loaded)) / 2
	}
	var energy, time float64
	for i := 1; i < n; i++ {
		a, b := r.LifeCurve[i-1], r.LifeCurve[i]
		dt := float64(b.Time - a.Time)
		energy += dt * float64(a.Power+b.Power) / 2
		time += dt
	}
	return units.Power(energy / time)
}

// needsWork tells whether an option asks for more than other filters and taps.
func (h *house) needsWork(o Option, a *arrangement) bool {
	now := h.Slot
	return !a.keepsReturns || o.SpeedRatio != 0 && o.SpeedRatio != 1 || !a.slot.sameSize(now)
}

// payback holds an option's price against what it saves a year over today.
func (h *house) payback(r, today *OptionResult) {
	if r.Kind != KindOption || r.UpgradeKnown && r.Upgrade == 0 {
		return
	}
	r.Payback = Payback{MERV: r.Efficiency.InstalledMERV, TodayMERV: today.Efficiency.InstalledMERV}
	if !r.TenYearKnown || !today.AnnualKnown {
		return
	}
	years, pays := cost.Payback(r.Upgrade, today.AnnualCost-r.AnnualCost, h.Site.DiscountRate)
	r.Payback.Known, r.Payback.Pays = true, pays
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
// air it moves. It is for a cooler that the thermostat switches on and off. False
// where nothing cools.
func (s *Study) CoolingTime(o *OptionResult) (share float64, known bool) {
	return coolingTime(o, s.Today())
}

func coolingTime(o, today *OptionResult) (share float64, known bool) {
	now, then := netSensible(today), netSensible(o)
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
