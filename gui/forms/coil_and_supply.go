package forms

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// CoilAndSupply is the place for the coil and the supply, each known by its
// drop at one airflow.
type CoilAndSupply struct{ *form.Form }

// NewCoilAndSupply makes the form.
func NewCoilAndSupply(m form.Model) *CoilAndSupply {
	inside := func() bool { return m.Peek().Equipment.Kind == sizing.AirHandler }
	return &CoilAndSupply{form.New(m, func() string { return fmt.Sprint(inside()) }, func(b *form.Builder) {
		b.Heading("Cooling coil")
		if inside() {
			b.Note("The coil is inside the air handler: its drop is within the rated external static, so there is nothing to type.")
		} else {
			buildPart(b, "coil", func(j *sizing.Job) *sizing.Part { return &j.Coil })
		}
		b.Heading("Supply ducts and registers")
		buildPart(b, "supply", func(j *sizing.Job) *sizing.Part { return &j.Supply })
		b.Note("A drop measured between two test ports belongs under Readings and replaces what is entered here.")
	})}
}

func buildPart(b *form.Builder, path string, at func(*sizing.Job) *sizing.Part) {
	b.Drop(path, "Drop", at)
	form.Quantity(b, path+".airflow", "at an airflow of", form.Of(at, func(p *sizing.Part) *units.Flow { return &p.Airflow }), form.QuantityOptions{Hint: "design"})
	b.Advanced(path, func() {
		b.Number(path+".exponent", "Exponent on airflow", form.Of(at, func(p *sizing.Part) *float64 { return &p.Exponent }), "usual for the part")
	})
}
