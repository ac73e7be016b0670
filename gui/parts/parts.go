// Package parts is the place for the coil and the supply, each known by its
// drop at one airflow.
package parts

import (
	"fmt"

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
	inside := func() bool { return m.Peek().Equipment.Kind == sizing.AirHandler }
	return &Screen{form.New(m, func() string { return fmt.Sprint(inside()) }, func(b *form.Builder) {
		b.Heading("Cooling coil")
		if inside() {
			b.Note("The coil is inside the air handler: its drop is within the rated external static, so there is nothing to type.")
		} else {
			part(b, "coil", func(j *sizing.Job) *sizing.Part { return &j.Coil })
		}
		b.Heading("Supply ducts and registers")
		part(b, "supply", func(j *sizing.Job) *sizing.Part { return &j.Supply })
		b.Note("A drop measured between two test ports belongs to Gauge: it replaces what is typed here.")
	})}
}

func part(b *form.Builder, path string, at func(*sizing.Job) *sizing.Part) {
	b.Drop(path, "Drop", at)
	form.Quantity(b, path+".airflow", "at an airflow of", form.Of(at, func(p *sizing.Part) *units.Flow { return &p.Airflow }), form.QuantityLook{Hint: "design"})
	b.Number(path+".exponent", "Exponent on airflow", form.Of(at, func(p *sizing.Part) *float64 { return &p.Exponent }), "usual for the part")
}
