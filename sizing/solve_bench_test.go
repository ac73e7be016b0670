package sizing

import (
	"testing"

	"returnbench/sizing/assume"
	"returnbench/sizing/units"
)

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		job  Job
	}{{"least", least()}, {"two_returns", twoReturns()}, {"pleated", pleated()}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(c.job); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(c.name+"_again", func(b *testing.B) {
			solver := NewSolver()
			for b.Loop() {
				if _, err := solver.Solve(c.job); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// pleated is a house whose filter is known by its make.
func pleated() Job {
	j := least()
	f := assume.GenericFilter()
	f.Name, f.Width, f.Height, f.Pleats, f.MediaResistance = "own", 16*units.Inch, 25*units.Inch, 24, 60
	j.Filters = append(j.Filters, f)
	j.Slot.Filter = "own"
	return j
}
