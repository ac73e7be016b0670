package search

import (
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// WorkCost is the sum of the known prices of some work; Unknown is true where a
// price is missing.
type WorkCost struct {
	Total   units.Money
	Unknown bool
}

// Add adds n items at a price to the cost; a price of zero is not known.
func (b *WorkCost) Add(n int, each units.Money) {
	if n > 0 {
		b.Total += units.Money(n) * each
		b.Unknown = b.Unknown || each == 0
	}
}

// TotalIfKnown is the total where every price is known, else zero.
func (b WorkCost) TotalIfKnown() units.Money {
	if b.Unknown {
		return 0
	}
	return b.Total
}

// OfSize is the cost of installing a size in a house with a number of return
// branches.
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
