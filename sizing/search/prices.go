package search

import (
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// WorkCost is the price of some work, as far as the prices of its lines are known.
type WorkCost struct {
	Total   units.Money
	Unknown bool
}

// Add adds n items of a price to the cost.
func (b *WorkCost) Add(n int, each units.Money) {
	if n > 0 {
		b.Total += units.Money(n) * each
		b.Unknown = b.Unknown || each == 0
	}
}

// TotalIfKnown is the price where every line of it is known, zero elsewhere.
func (b WorkCost) TotalIfKnown() units.Money {
	if b.Unknown {
		return 0
	}
	return b.Total
}

// OfSize is the work of putting a size into a house with so many branches.
func OfSize(p job.WorkPrices, z study.Size, branches int) (b WorkCost) {
	switch {
	case z.Place == job.InGrille && branches > 0:
		b.Add(branches, p.Grille)
		b.Add(z.Count-branches, p.Return)
	case z.Place == job.InGrille:
		b.Add(z.Count, p.Grille)
	case z.Place == job.InCabinet:
		b.Add(1, p.Cabinet)
	default:
		b.Add(1, p.Slot)
	}
	return b
}
