package cost

import (
	"math"

	"returnbench/sizing/units"
)

// PresentWorthFactor is what one unit of money at the end of each of n years is
// worth today, the annuity factor of engineering economics:
//
//	(1 - (1+i)^-n) / i,    n where i = 0
//
// Range: i above -1; at or below that it is NaN.
func PresentWorthFactor(discount float64, years int) float64 {
	switch {
	case discount <= -1 || math.IsNaN(discount):
		return math.NaN()
	case discount == 0:
		return float64(years)
	}
	// -expm1(-n log1p(i)) loses no digits where i is small.
	return -math.Expm1(-float64(years)*math.Log1p(discount)) / discount
}

// PresentValue is the worth today of the same sum of money at the end of each
// year: the sum times PresentWorthFactor.
func PresentValue(yearly units.Money, discount float64, years int) units.Money {
	return yearly * units.Money(PresentWorthFactor(discount, years))
}

// Parts are the parts of a cost over years, as present values.
type Parts struct {
	Upgrade units.Money // the work, paid at once
	Power   units.Money // of the blower
	Outdoor units.Money // of the outdoor unit
	Filters units.Money
}

// Total is the sum of the parts.
func (p Parts) Total() units.Money { return p.Upgrade + p.Power + p.Outdoor + p.Filters }

// TenYear is the present value of the upgrade and of running it for a number of
// years, each part by PresentValue.
func TenYear(annual AnnualCost, upgrade units.Money, discount float64, years int) (total units.Money, byPart Parts) {
	byPart = Parts{
		Upgrade: upgrade,
		Power:   PresentValue(annual.Power, discount, years),
		Outdoor: PresentValue(annual.Outdoor, discount, years),
		Filters: PresentValue(annual.Filters, discount, years),
	}
	return byPart.Total(), byPart
}

// Payback is the years until the savings' present value reaches the upgrade,
//
//	n = -ln(1 - i U/S) / ln(1+i),    U/S where i = 0
//
// pays is false, and years +Inf, where it never does: nothing is saved, or the
// savings' present value never reaches the upgrade (i U/S >= 1). An upgrade
// that costs nothing pays at once, unless it loses money each year.
func Payback(upgrade, yearlySaving units.Money, discount float64) (years float64, pays bool) {
	never := math.Inf(1)
	u, s := upgrade.SI(), yearlySaving.SI()
	switch {
	case math.IsNaN(u) || math.IsNaN(s) || !(discount > -1):
		return never, false
	case u <= 0 && s >= 0:
		return 0, true
	case s <= 0 || discount*u/s >= 1:
		return never, false
	case discount == 0:
		return u / s, true
	}
	return -math.Log1p(-discount*u/s) / math.Log1p(discount), true
}
