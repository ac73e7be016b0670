package search

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/duct"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// DuctSizes finds the ducts of each branch at the branch's solved airflow.
func DuctSizes(h *house.House, r *study.OptionResult, pieces []study.ReturnComponent) []study.DuctSize {
	if len(r.Clean.Branches) == 0 {
		return []study.DuctSize{ductSize(h, job.ReturnName{}, r.Clean.Airflow, job.Return{})}
	}
	var out []study.DuctSize
	for i, b := range r.Clean.Branches {
		d := ductSize(h, b.Name, b.Airflow, h.Returns[i])
		d.PresentVelocity, d.PresentDrop = b.DuctVelocity, b.DuctDrop
		for _, run := range h.Returns[i].Runs {
			d.PresentFriction = max(d.PresentFriction, run.Friction(b.Airflow, h.Air))
			d.Length += run.Length
		}
		for _, p := range pieces {
			if p.Branch == b.Name {
				d.EquivalentLength += p.EquivalentLength
			}
		}
		d.Undersized = undersized(h, d.PresentVelocity, d.PresentFriction)
		out = append(out, d)
	}
	return out
}

// undersized is the rule for return duct and its fittings: the air is faster than the
// job's limit, or drops more for each length. A fitting has no friction of its own.
func undersized(h *house.House, v units.Speed, friction units.FrictionRate) bool {
	return study.Exceeds(v, h.Limits.DuctVelocity) || study.Exceeds(friction, h.Limits.DuctFriction)
}

func ductSize(h *house.House, name job.ReturnName, q units.Flow, r job.Return) study.DuctSize {
	sys := h.SizeSystem()
	round := func(run *duct.Run, d units.Length) { run.Diameter = d }
	rect := func(run *duct.Run, s stock.Size) { run.Width, run.Height = s.Height, s.Width }
	return study.DuctSize{Branch: name, Airflow: q,
		Round: ductChoice(h, duct.Round, stock.Rounds(sys), round, q, r),
		Flex:  ductChoice(h, duct.Flex, stock.Flexes(sys), round, q, r),
		Rect:  ductChoice(h, duct.Rectangular, stock.Rectangulars(sys), rect, q, r),
	}
}

// ductChoice is the first of the sizes, smallest first, that keeps both limits,
// made of what the branch's runs of that shape are made of. A new flex has the
// slack that the limits give a new one, whatever the slack of the old.
func ductChoice[T any](h *house.House, shape duct.Shape, sizes []T, resize func(*duct.Run, T), q units.Flow, r job.Return) study.DuctChoice {
	own := duct.Run{}
	for _, run := range r.Runs {
		if run.Shape == shape {
			own = run
		}
	}
	own.Compression = 0
	if shape == duct.Flex {
		own.Compression = h.Limits.FlexCompression
	}
	as := func(size T) duct.Run {
		run := duct.Run{Shape: shape, Material: own.Material, Roughness: own.Roughness, Compression: own.Compression, Length: units.Metre}
		resize(&run, size)
		return run
	}
	v := func(s duct.Run) float64 { return float64(s.Velocity(q) / h.Limits.DuctVelocity) }
	f := func(s duct.Run) float64 { return float64(s.Friction(q, h.Air) / h.Limits.DuctFriction) }
	at := slices.IndexFunc(sizes, func(size T) bool { s := as(size); return v(s) <= 1 && f(s) <= 1 })
	if at < 0 {
		return study.DuctChoice{}
	}
	run := as(sizes[at])
	c := study.DuctChoice{Diameter: run.Diameter, Width: run.Width, Height: run.Height, Compression: run.Compression,
		Velocity: run.Velocity(q), Friction: run.Friction(q, h.Air), GoverningLimit: study.ByVelocity, Run: run}
	judgeWithFittings(h, &c, q, r)
	// The size before misses one limit or both: the one missed by more decides.
	last := as(sizes[max(at-1, 0)])
	if f(last) > v(last) {
		c.GoverningLimit = study.ByFriction
	}
	return c
}

// judgeWithFittings finds the drop of a branch when all its straight duct and all
// its fittings are of the choice's size. A gauge's factor on today's duct is left
// out: new duct does not have the faults of the old.
func judgeWithFittings(h *house.House, c *study.DuctChoice, q units.Flow, r job.Return) {
	run := c.Run
	run.Length = 0
	for _, old := range r.Runs {
		run.Length += old.Length
	}
	c.Length = run.Length
	if run.Length > 0 {
		c.Drop = run.Drop(q, h.Air)
	}
	resized := job.Return{Runs: []duct.Run{run}}
	for _, f := range r.Fittings {
		f = Unsized(f)
		c.FittingsDrop += f.Drop(q, units.Area(job.Section(f, resized)), h.Air)
		c.Fittings += f.Number()
	}
	c.Drop += c.FittingsDrop
	c.OverBudget = c.Drop > h.Budget(airpath.PartReturn)
}

// Unsized is a fitting that takes the section of the duct that it is put into.
func Unsized(f duct.Fitting) duct.Fitting {
	f.Diameter, f.Width, f.Height = 0, 0, 0
	return f
}
