package money

import (
	"math"

	"returnbench/sizing/cost"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// CostYears are the years over which costs are added up.
const CostYears = 10

// AddCosts works out a year's cost and ten years' at today's sensible cooling: the
// hours of cooling scale with today's capacity over the option's. Power is the
// mean over the filter's life, in which the filter goes from clean to loaded.
func AddCosts(h *house.House, r, today *study.OptionResult) {
	in, cools := AnnualInput(h, r, today)
	r.CoolingHours = in.Hours.Cooling
	r.AnnualKnown = cools || h.Equipment.Kind == job.Furnace
	filters := units.Money(0)
	r.FiltersPerYear = 0
	for k := range r.Places {
		p := &r.Places[k]
		r.FiltersPerYear += p.PerYear
		filters += units.Money(p.PerYear) * p.Price
		// A filter that is over its limit when new has a life of zero: the
		// number of changes a year is not finite.
		r.AnnualKnown = r.AnnualKnown && p.Life > 0
	}
	in.FiltersPerYear, in.FilterPrice = 1, filters
	annual := cost.Annual(in)
	total, parts := cost.TenYear(annual, r.Upgrade, h.Site.DiscountRate, CostYears)
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
	AddPayback(h, r, today)
}

// AnnualInput is what a year of running needs, without the filters; cools reports
// whether the hours of cooling follow from the heat balance.
func AnnualInput(h *house.House, r, today *study.OptionResult) (in cost.AnnualInput, cools bool) {
	share, cools := coolingTime(r, today)
	in = cost.AnnualInput{
		Hours:        cost.Hours{Cooling: h.Site.CoolingHours, Heating: h.Site.HeatingHours, Fan: h.Site.FanHours},
		CoolingPower: units.Power(meanOverLife(r, func(p *study.LifePoint) float64 { return float64(p.Power) })),
		HeatingPower: units.Power(meanOverLife(r, func(p *study.LifePoint) float64 { return float64(p.HeatingPower) })),
		FanPower:     units.Power(meanOverLife(r, func(p *study.LifePoint) float64 { return float64(p.FanPower) })),
		Price:        h.Site.PowerPrice,
	}
	if cools {
		in.Hours.Cooling *= units.Duration(share)
		in.OutdoorPower = OutdoorPower(h, r)
	}
	return in, cools
}

// TenYearsOfKnown is the present value of the known parts of an option's cost,
// to order options whose work has no price.
func TenYearsOfKnown(o *study.OptionResult) units.Money {
	return o.Upgrade + o.TenYearPower + o.TenYearOutdoor + o.TenYearFilter
}

// OutdoorPower is the power of the outdoor unit at the coil's mass flow,
// averaged over the filter's life; see cost.OutdoorPower.
func OutdoorPower(h *house.House, r *study.OptionResult) units.Power {
	return units.Power(meanOverLife(r, func(p *study.LifePoint) float64 {
		return float64(cost.OutdoorPower(h.Equipment.CoolingCapacity, h.Equipment.EER, h.CoolingCoil.FlowFraction(p.Airflow, h.CoolingAir)))
	}))
}

// meanOverLife is the mean over the time from a change of the filter to the
// next, by straight lines between the points of the life.
func meanOverLife(r *study.OptionResult, of func(*study.LifePoint) float64) float64 {
	points := life(r)
	var sum, time float64
	for i := 1; i < len(points); i++ {
		a, b := &points[i-1], &points[i]
		dt := float64(b.Time - a.Time)
		sum += dt * (of(a) + of(b)) / 2
		time += dt
	}
	return sum / time
}

// life is an option's life curve, or the line from clean to loaded where there is
// none.
func life(r *study.OptionResult) []study.LifePoint {
	if n := len(r.LifeCurve); n > 1 && r.LifeCurve[n-1].Time > 0 {
		return r.LifeCurve
	}
	at := func(c *study.Condition) study.LifePoint {
		return study.LifePoint{Airflow: c.Airflow, Power: c.BlowerPower, HeatingPower: c.HeatingPower, FanPower: c.FanPower, SensibleCapacity: c.SensibleCapacity}
	}
	from, to := at(&r.Clean), at(&r.Loaded)
	to.Time = units.Year
	return []study.LifePoint{from, to}
}

// NeedsWork reports whether an option needs more than other filters and taps.
func NeedsWork(h *house.House, o job.Option, a *house.Arrangement) bool {
	now := h.Slot
	return !a.KeepsReturns || o.SpeedRatio != 0 && o.SpeedRatio != 1 || !a.Slot.SameSize(now)
}

// AddPayback compares an option's price with what it saves a year over today.
func AddPayback(h *house.House, r, today *study.OptionResult) {
	if r.Kind != study.KindOption || r.UpgradeKnown && r.Upgrade == 0 {
		return
	}
	r.Payback = study.Payback{MERV: r.Efficiency.InstalledMERV, TodayMERV: today.Efficiency.InstalledMERV}
	if !r.TenYearKnown || !today.AnnualKnown || r.WattsAssumed != today.WattsAssumed {
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
// each the mean over the filter's life: the blower's power ends as heat in the
// air. A heat balance, derived here, for a cooler that the thermostat switches on
// and off. The result is false where nothing cools.
func CoolingTime(s *study.Study, o *study.OptionResult) (share float64, known bool) {
	return coolingTime(o, s.Today())
}

func coolingTime(o, today *study.OptionResult) (share float64, known bool) {
	now, then := NetSensible(today), NetSensible(o)
	if now <= 0 || then <= 0 {
		return 1, false
	}
	return now / then, true
}

// NetSensible is the mean sensible capacity over the filter's life less the
// blower's power, W; zero where nothing cools.
func NetSensible(o *study.OptionResult) float64 {
	cools := true
	net := meanOverLife(o, func(p *study.LifePoint) float64 {
		cools = cools && p.SensibleCapacity > 0
		return p.SensibleCapacity.SI() - p.Power.SI()
	})
	if !cools {
		return 0
	}
	return net
}
