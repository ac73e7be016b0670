package forms

import (
	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// Limits is the place for what the house and its owner allow.
type Limits struct {
	*form.Form
	lines form.List[quote.Line]
}

// NewLimits makes the form.
func NewLimits(m form.Model) *Limits {
	s := &Limits{lines: quoteLines()}
	s.Form = form.New(m, func() string { return s.lines.Shape(m.Peek()) + form.StockShape(m.Peek()) }, s.build)
	return s
}

func ofLimits[T any](field func(*sizing.Limits) *T) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T { return field(&j.Limits) }
}

// Show leads to a field of the form.
func (s *Limits) Show(path string) {
	if s.lines.Select(path, "quote.lines[%d]") {
		s.Refresh()
	}
	s.Form.Show(path)
}

func (s *Limits) build(b *form.Builder) {
	free := form.QuantityOptions{Hint: "no limit"}
	length := func(path string, label message.ID, field func(*sizing.Limits) *units.Length) {
		form.Quantity(b, "limits."+path, label, ofLimits(field), free)
	}
	b.Heading("Space for a grille")
	length("wall_width", "Wall opening, width", func(l *sizing.Limits) *units.Length { return &l.WallWidth })
	length("wall_height", "Wall opening, height", func(l *sizing.Limits) *units.Length { return &l.WallHeight })
	length("stud_bay", "Clear between studs", func(l *sizing.Limits) *units.Length { return &l.StudBay })
	b.Integer("limits.max_openings", "Max. openings", "", ofLimits(func(l *sizing.Limits) *int { return &l.MaxOpenings }), 1, 6)

	b.Heading("Space at the equipment")
	length("cabinet_width", "Cabinet, width", func(l *sizing.Limits) *units.Length { return &l.CabinetWidth })
	length("cabinet_height", "Cabinet, height", func(l *sizing.Limits) *units.Length { return &l.CabinetHeight })
	length("cabinet_depth", "Cabinet, depth", func(l *sizing.Limits) *units.Length { return &l.CabinetDepth })

	form.Quantity(b, "limits.casing_face", "Casing wider and taller than its filters by", ofLimits(func(l *sizing.Limits) *units.Length { return &l.CasingFace }))
	form.Quantity(b, "limits.casing_depth", "Casing deeper than its filter by", ofLimits(func(l *sizing.Limits) *units.Length { return &l.CasingDepth }))

	requirementFields(b)
	priceFields(b)
	form.Quantity(b, "limits.budget", "Budget for the work", ofLimits(func(l *sizing.Limits) *units.Money { return &l.Budget }), free)

	quoteFields(b, &s.lines)
	changeFields(b)

	b.Heading("Published limits to check")
	form.CheckInList(b, "limits.checks[0]", "California Energy Code, Title 24 part 6", ofLimits(func(l *sizing.Limits) *[]sizing.CheckSet { return &l.Checks }), sizing.Title24)
}

// requirementFields are what the house must keep.
func requirementFields(b *form.Builder) {
	b.Heading("Requirements")
	form.Quantity(b, "target_face_velocity", "Target face velocity", func(j *sizing.Job) *units.Speed { return &j.TargetFaceVelocity })
	form.Quantity(b, "limits.max_filter_drop", "Max. clean filter drop", ofLimits(func(l *sizing.Limits) *units.Pressure { return &l.MaxFilterDrop }), form.QuantityOptions{Hint: "no limit"})
	b.Integer("limits.min_merv", "Min. MERV", "", ofLimits(func(l *sizing.Limits) *int { return &l.MinMERV }), 1, 16)
	form.Quantity(b, "limits.duct_velocity", "Max. duct velocity", ofLimits(func(l *sizing.Limits) *units.Speed { return &l.DuctVelocity }))
	form.Quantity(b, "limits.duct_friction", "Max. duct friction", ofLimits(func(l *sizing.Limits) *units.FrictionRate { return &l.DuctFriction }))
	b.Percent("limits.flex_compression", "Flex slack, new", ofLimits(func(l *sizing.Limits) *float64 { return &l.FlexCompression }), "")
	form.Choice(b, "limits.nominal_sizes", "Nominal sizes", ofLimits(func(l *sizing.Limits) *sizing.SizeSeries { return &l.NominalSizes }), "inch series, usual",
		form.Item[sizing.SizeSeries]{Value: sizing.InchSizes, Label: "inch series"}, form.Item[sizing.SizeSeries]{Value: sizing.MetricSizes, Label: "metric series"})
	form.StockSizes(b)
}

// priceFields are what changes cost.
func priceFields(b *form.Builder) {
	b.Heading("Prices of work, installed")
	form.PriceLibraryButtons(b)
	for _, w := range []struct {
		name  string
		label message.ID
		field func(*sizing.WorkPrices) *units.Money
	}{
		{"cabinet", "Filter cabinet", func(p *sizing.WorkPrices) *units.Money { return &p.Cabinet }},
		{"slot", "Filter slot", func(p *sizing.WorkPrices) *units.Money { return &p.Slot }},
		{"grille", "Grille, each", func(p *sizing.WorkPrices) *units.Money { return &p.Grille }},
		{"return", "Added return, each", func(p *sizing.WorkPrices) *units.Money { return &p.Return }},
		{"duct", "Larger duct, each", func(p *sizing.WorkPrices) *units.Money { return &p.Duct }},
		{"visit", "Visit without parts", func(p *sizing.WorkPrices) *units.Money { return &p.Visit }},
	} {
		form.Quantity(b, "work_prices."+w.name, w.label, func(j *sizing.Job) *units.Money { return w.field(&j.Prices) }, form.QuantityOptions{Hint: "not known"})
	}
}

// changeFields are when a filter is changed.
func changeFields(b *form.Builder) {
	b.Heading("Filter change, whichever comes first")
	form.Quantity(b, "limits.change_drop", "Change at a drop of", ofLimits(func(l *sizing.Limits) *units.Pressure { return &l.ChangeDrop }), form.QuantityOptions{Hint: "no limit"})
	b.Percent("limits.change_airflow_loss", "Change at an airflow loss of", ofLimits(func(l *sizing.Limits) *float64 { return &l.ChangeAirflowLoss }), "")
	form.Quantity(b, "limits.change_months", "Change after", ofLimits(func(l *sizing.Limits) *units.Duration { return &l.ChangeMonths }))
}
