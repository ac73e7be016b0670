package sizing

import "returnbench/sizing/units"

// WorkPrices are what changes cost on this job, each of its kind, with labour
// and material; zero is not known. Filters are priced with their make.
type WorkPrices struct {
	Cabinet units.Money `json:"cabinet,omitzero"` // a deeper filter cabinet at the equipment
	Slot    units.Money `json:"slot,omitzero"`    // a filter slot of another size there
	Grille  units.Money `json:"grille,omitzero"`  // another grille, with or without a filter behind it, each
	Return  units.Money `json:"return,omitzero"`  // one more return with grille and duct, each
	Duct    units.Money `json:"duct,omitzero"`    // a larger duct on a return that is there, each
	Visit   units.Money `json:"visit,omitzero"`   // what needs no new parts: another tap, flex pulled straight, each
}

// bill is the price of some work, as far as the prices of its lines are known.
type bill struct {
	total   units.Money
	unknown bool
}

// add puts n things of a price on the bill.
func (b *bill) add(n int, each units.Money) {
	if n > 0 {
		b.total += units.Money(n) * each
		b.unknown = b.unknown || each == 0
	}
}

// whole is the price where every line of it is known, zero elsewhere.
func (b bill) whole() units.Money {
	if b.unknown {
		return 0
	}
	return b.total
}

// ofSize is the work of putting a size into a house with so many branches.
func (p WorkPrices) ofSize(z Size, branches int) (b bill) {
	switch {
	case z.Place == InGrille && branches > 0:
		b.add(branches, p.Grille)
		b.add(z.Count-branches, p.Return)
	case z.Place == InGrille:
		b.add(z.Count, p.Grille)
	case z.Place == InCabinet:
		b.add(1, p.Cabinet)
	default:
		b.add(1, p.Slot)
	}
	return b
}

func (c *checker) workPrices() {
	p := c.job.Prices
	for _, m := range []struct {
		name  string
		price units.Money
	}{{"cabinet", p.Cabinet}, {"slot", p.Slot}, {"grille", p.Grille}, {"return", p.Return}, {"duct", p.Duct}, {"visit", p.Visit}} {
		c.price("work_prices."+m.name, m.price)
	}
}

// judgePrice holds the price of an option against the budget.
func (h *house) judgePrice(o *OptionResult) *Finding {
	if most := h.Limits.Budget; most > 0 && o.Upgrade > most {
		return finding(Caution, "over_budget", "the job's budget", "The work costs %v, over the budget of %v.", o.Upgrade, most)
	}
	return nil
}
