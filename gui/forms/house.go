package forms

import (
	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// House is the place for the house itself: its name, where it stands,
// the air indoors, what power costs and how dusty it is.
type House struct{ *form.Form }

// NewHouse makes the form.
func NewHouse(m form.Model) *House {
	return &House{form.New(m, func() string { return "" }, buildHouse)}
}

func ofSite[T any](field func(*sizing.Site) *T) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T { return field(&j.Site) }
}

func buildHouse(b *form.Builder) {
	b.Heading("The house")
	b.Text("name", "Name of the job", func(j *sizing.Job) *string { return &j.Name }, "Hill house")
	b.Long("notes", "Notes", func(j *sizing.Job) *string { return &j.Notes })
	form.Measured(b, "site.altitude", "Altitude", ofSite(func(s *sizing.Site) *units.Length { return &s.Altitude }), "ft", "m", form.QuantityOptions{Hint: "sea level", Negated: true})

	customerFields(b)

	b.Heading("Air indoors")
	form.Quantity(b, "site.indoor_dry_bulb", "Cooling, dry bulb", ofSite(func(s *sizing.Site) *units.Temperature { return &s.IndoorDryBulb }))
	form.Quantity(b, "site.indoor_wet_bulb", "Cooling, wet bulb", ofSite(func(s *sizing.Site) *units.Temperature { return &s.IndoorWetBulb }), form.QuantityOptions{Covered: "site.indoor_dry_bulb"})
	form.Quantity(b, "site.heating_indoor", "Heating, return air", ofSite(func(s *sizing.Site) *units.Temperature { return &s.HeatingIndoor }))

	b.Heading("Running it")
	form.Quantity(b, "site.power_price", "Price of power", ofSite(func(s *sizing.Site) *units.EnergyPrice { return &s.PowerPrice }))
	form.Measured(b, "site.cooling_hours", "Cooling hours a year", ofSite(func(s *sizing.Site) *units.Duration { return &s.CoolingHours }), "h", "h")
	form.Measured(b, "site.heating_hours", "Heating hours a year", ofSite(func(s *sizing.Site) *units.Duration { return &s.HeatingHours }), "h", "h", form.QuantityOptions{Covered: "site.cooling_hours"})
	form.Measured(b, "site.fan_hours", "Fan alone, hours a year", ofSite(func(s *sizing.Site) *units.Duration { return &s.FanHours }), "h", "h", form.QuantityOptions{Hint: "none"})
	form.Choice(b, "site.dust", "Dust in the house", ofSite(func(s *sizing.Site) *sizing.DustPreset { return &s.Dust }), "not known",
		form.Item[sizing.DustPreset]{Value: sizing.DustLow, Label: "little"}, form.Item[sizing.DustPreset]{Value: sizing.DustOrdinary, Label: "ordinary"},
		form.Item[sizing.DustPreset]{Value: sizing.DustPets, Label: "pets"}, form.Item[sizing.DustPreset]{Value: sizing.DustWorks, Label: "building works"})
	form.Quantity(b, "site.dust_rate", "Dust a running day", ofSite(func(s *sizing.Site) *units.MassRate { return &s.DustRate }), form.QuantityOptions{Hint: "by preset"})
	b.Advanced("site.discount_rate", func() {
		b.Percent("site.discount_rate", "Discount rate a year", ofSite(func(s *sizing.Site) *float64 { return &s.DiscountRate }), "")
	})

	b.Heading("Accuracy")
	b.Advanced("uncertainty", func() { accuracy(b) })
}

// accuracy is how well the inputs are known.
func accuracy(b *form.Builder) {
	b.Note("One standard deviation of each; 0 % means exactly known.")
	usual := sizing.UsualDeviations()
	known := func(path string, label message.ID, usual float64, field func(*sizing.Uncertainty) **float64) {
		b.Deviation("uncertainty."+path, label, func(j *sizing.Job) **float64 { return field(&j.Uncertainty) }, "{percent}: usual", "percent", message.Fixed(100*usual, 0))
	}
	known("gauge", "Pressure reading", usual.Gauge, func(u *sizing.Uncertainty) **float64 { return &u.Gauge })
	known("blower_table", "Blower table airflow", usual.BlowerTable, func(u *sizing.Uncertainty) **float64 { return &u.BlowerTable })
	known("rating", "Catalog pressure drop", usual.Rating, func(u *sizing.Uncertainty) **float64 { return &u.Rating })
	known("geometry", "Drop calculated from ducts", usual.Geometry, func(u *sizing.Uncertainty) **float64 { return &u.Geometry })
	known("assumed", "Assumed values", usual.Assumed, func(u *sizing.Uncertainty) **float64 { return &u.Assumed })
}
