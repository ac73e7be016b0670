// Package equipment is the place for what the nameplates say.
package equipment

import (
	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place.
type Screen struct{ *form.Form }

// New makes the screen.
func New(m Model) *Screen {
	return &Screen{form.New(m, func() string { return "" }, build)}
}

func plate[T any](field func(*sizing.Equipment) *T) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T { return field(&j.Equipment) }
}

func build(b *form.Builder) {
	b.Heading("Equipment")
	form.Choice(b, "equipment.kind", "Kind", plate(func(e *sizing.Equipment) *sizing.EquipmentKind { return &e.Kind }), "not known",
		form.Item[sizing.EquipmentKind]{Value: sizing.FurnaceWithCoil, Label: "furnace with coil"},
		form.Item[sizing.EquipmentKind]{Value: sizing.Furnace, Label: "furnace alone"},
		form.Item[sizing.EquipmentKind]{Value: sizing.AirHandler, Label: "air handler"})
	form.Quantity(b, "equipment.rated_external_static", "Rated external static", plate(func(e *sizing.Equipment) *units.Pressure { return &e.RatedExternalStatic }))

	b.Heading("Cooling")
	form.Quantity(b, "equipment.cooling_capacity", "Cooling capacity", plate(func(e *sizing.Equipment) *units.Capacity { return &e.CoolingCapacity }))
	b.Share("equipment.sensible_heat_ratio", "Sensible heat ratio", plate(func(e *sizing.Equipment) *float64 { return &e.SensibleHeatRatio }), "by the coil")
	b.Number("equipment.eer", "Outdoor unit's EER, Btu/(W h)", plate(func(e *sizing.Equipment) *float64 { return &e.EER }), "11")
	form.Quantity(b, "design_airflow", "Design airflow", func(j *sizing.Job) *units.Flow { return &j.DesignAirflow }, form.QuantityLook{Hint: "by capacity"})
	form.Quantity(b, "airflow_per_capacity", "or airflow per capacity", func(j *sizing.Job) *units.FlowPerCapacity { return &j.AirflowPerCapacity })

	b.Heading("Heating")
	b.Tick("equipment.no_heating", "It does not heat", plate(func(e *sizing.Equipment) *bool { return &e.NoHeating }))
	form.Quantity(b, "equipment.heating_output", "Heating output", plate(func(e *sizing.Equipment) *units.HeatRate { return &e.HeatingOutput }))
	form.Quantity(b, "equipment.rise_low", "Temperature rise, least", plate(func(e *sizing.Equipment) *units.TemperatureDifference { return &e.RiseLow }))
	form.Quantity(b, "equipment.rise_high", "Temperature rise, most", plate(func(e *sizing.Equipment) *units.TemperatureDifference { return &e.RiseHigh }), form.QuantityLook{Covered: "equipment.rise_low"})
	b.Share("equipment.coil_dry_share", "Coil's drop dry, of its drop wet", plate(func(e *sizing.Equipment) *float64 { return &e.CoilDryShare }), "")
	form.Quantity(b, "heating_airflow", "Heating airflow", func(j *sizing.Job) *units.Flow { return &j.HeatingAirflow })
}
