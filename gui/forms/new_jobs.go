package forms

import (
	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// NewJobs is the form of what every new job begins with: requirements, prices
// and accuracy.
type NewJobs struct{ *form.Form }

// NewNewJobs makes the form.
func NewNewJobs(m form.Model) *NewJobs {
	return &NewJobs{form.New(m, func() string { return m.Units().String() + form.StockShape(m.Peek()) }, func(b *form.Builder) {
		requirementFields(b)
		changeFields(b)
		priceFields(b)
		form.Quantity(b, "site.power_price", "Price of power", ofSite(func(s *sizing.Site) *units.EnergyPrice { return &s.PowerPrice }))
		b.Heading("Accuracy")
		accuracy(b)
	})}
}
