package forms

import (
	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Equipment is the place for what the nameplates say.
type Equipment struct{ *form.Form }

// NewEquipment makes the form.
func NewEquipment(m form.Model) *Equipment {
	return &Equipment{form.New(m, func() string { return "" }, buildEquipment)}
}

func ofEquipment[T any](field func(*sizing.Equipment) *T) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T { return field(&j.Equipment) }
}

func buildEquipment(b *form.Builder) {
	b.Heading("Equipment")
	form.BlowerLibraryButtons(b)
	form.Choice(b, "equipment.kind", "Kind", ofEquipment(func(e *sizing.Equipment) *sizing.EquipmentKind { return &e.Kind }), "not known",
		form.Item[sizing.EquipmentKind]{Value: sizing.FurnaceWithCoil, Label: "furnace with coil"},
		form.Item[sizing.EquipmentKind]{Value: sizing.Furnace, Label: "furnace alone"},
		form.Item[sizing.EquipmentKind]{Value: sizing.AirHandler, Label: "air handler"})
	form.Quantity(b, "equipment.rated_external_static", "Rated external static", ofEquipment(func(e *sizing.Equipment) *units.Pressure { return &e.RatedExternalStatic }))

	b.Heading("Cooling")
	form.Quantity(b, "equipment.cooling_capacity", "Cooling capacity", ofEquipment(func(e *sizing.Equipment) *units.Capacity { return &e.CoolingCapacity }))
	b.Percent("equipment.sensible_heat_ratio", "Sensible heat ratio", ofEquipment(func(e *sizing.Equipment) *float64 { return &e.SensibleHeatRatio }), "by the coil")
	b.Number("equipment.eer", "Outdoor unit EER, Btu/(W h)", ofEquipment(func(e *sizing.Equipment) *float64 { return &e.EER }), "11, usual")
	form.Quantity(b, "design_airflow", "Design airflow", func(j *sizing.Job) *units.Flow { return &j.DesignAirflow }, form.QuantityOptions{Hint: "by capacity"})
	form.Quantity(b, "airflow_per_capacity", "or airflow per capacity", func(j *sizing.Job) *units.FlowPerCapacity { return &j.AirflowPerCapacity })
	b.Called("airflow per capacity")

	b.Heading("Heating")
	b.Check("equipment.no_heating", "It does not heat", ofEquipment(func(e *sizing.Equipment) *bool { return &e.NoHeating }))
	form.Quantity(b, "equipment.heating_output", "Heating output", ofEquipment(func(e *sizing.Equipment) *units.HeatRate { return &e.HeatingOutput }))
	form.Choice(b, "equipment.heating_output_at", "Output holds", ofEquipment(func(e *sizing.Equipment) *sizing.OutputPlace { return &e.HeatingOutputAt }), "not known",
		form.Item[sizing.OutputPlace]{Value: sizing.OutputAtSeaLevel, Label: "at sea level"},
		form.Item[sizing.OutputPlace]{Value: sizing.OutputAtSite, Label: "at this altitude"})
	b.Percent("equipment.altitude_derate", "Output lost per 1000 ft (305 m)", ofEquipment(func(e *sizing.Equipment) *float64 { return &e.AltitudeDerate }), "4 %")
	form.Quantity(b, "equipment.rise_low", "Minimum temperature rise", ofEquipment(func(e *sizing.Equipment) *units.TemperatureDifference { return &e.RiseLow }))
	form.Quantity(b, "equipment.rise_high", "Maximum temperature rise", ofEquipment(func(e *sizing.Equipment) *units.TemperatureDifference { return &e.RiseHigh }), form.QuantityOptions{Covered: "equipment.rise_low"})
	b.Percent("equipment.coil_dry_share", "Dry-coil drop, % of wet", ofEquipment(func(e *sizing.Equipment) *float64 { return &e.CoilDryShare }), "")
	form.Quantity(b, "heating_airflow", "Heating airflow", func(j *sizing.Job) *units.Flow { return &j.HeatingAirflow })
}
