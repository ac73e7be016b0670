package job

import "returnbench/sizing/units"

// WorkPrices are what changes cost on this job, each of its kind, with labour
// and material; zero is not known. Filters are priced with their make.
type WorkPrices struct {
	Cabinet units.Money `json:"cabinet,omitzero"` // a deeper filter cabinet at the equipment
	Slot    units.Money `json:"slot,omitzero"`    // a filter slot of another size there
	Grille  units.Money `json:"grille,omitzero"`  // another grille, with or without a filter behind it, each
	Return  units.Money `json:"return,omitzero"`  // one more return with grille and duct, each
	Duct    units.Money `json:"duct,omitzero"`    // a larger duct on a return that is there, each
	Visit   units.Money `json:"visit,omitzero"`   // a visit without new parts: another tap, flex pulled straight, each
}

func (c *checker) workPrices() {
	p := c.job.Prices
	for _, m := range []struct {
		name  string
		price units.Money
	}{{"cabinet", p.Cabinet}, {"slot", p.Slot}, {"grille", p.Grille}, {"return", p.Return}, {"duct", p.Duct}, {"visit", p.Visit}} {
		c.price(c.field("work_prices", m.name), m.price)
	}
}
