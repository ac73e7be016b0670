package upgrade

import (
	"context"

	"returnbench/sizing/airpath"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/root"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// RequiredDrop is one part of today's house and what it would have to drop, all else
// as it is, for the blower to move the target airflow.
type RequiredDrop struct {
	Part   airpath.PartName
	Now    units.Pressure // at the target airflow, as the part is
	Needed units.Pressure // at the target airflow
	// Possible is false where the target is out of reach even if the part had
	// no drop.
	Possible bool
	// Face is the filter face, m2, at which today's make has that drop, and
	// Size the smallest nominal one with that face; for the filter alone.
	Face units.Area
	Size string // its name
}

// UpgradeSearch is the result of a search for changes that reach a target
// airflow with clean filters.
type UpgradeSearch struct {
	Target units.Flow
	Today  units.Flow // what today's house moves
	// Available is the external static against which the blower moves the target
	// airflow, on today's cooling tap; OffTable is true where that airflow is
	// outside the tap's table.
	Available     units.Pressure
	OffTable      bool
	RequiredDrops []RequiredDrop

	// Upgrades reach the target (study.Short): the least cost of ten years first; those
	// whose cost is not known come last, the fewest changes first.
	Upgrades []Upgrade
	// FallShort are single changes that do not reach it and, where nothing
	// does, the best combinations; the nearest first.
	FallShort []Upgrade
	Tried     int
}

// Find is sizing.FindUpgrades on a Study and its solved house.
func Find(ctx context.Context, j job.Job, st *study.Study, h *house.House, target units.Flow, done func(part float64)) (*UpgradeSearch, error) {
	r := &UpgradeSearch{Target: target, Today: st.Today().Clean.Airflow}
	if err := r.findRequiredDrops(h); err != nil {
		return nil, err
	}
	s, err := newSearch(j, st, h, target)
	if err != nil {
		return nil, err
	}
	if done == nil {
		done = func(float64) {}
	}
	if err := s.run(ctx, done); err != nil {
		return nil, err
	}
	r.Upgrades, r.FallShort, r.Tried = s.reach, s.nearest(), s.tried
	return r, nil
}

// findRequiredDrops finds, for each part of today's house, the drop that it would need
// to have, alone, to reach the target.
func (r *UpgradeSearch) findRequiredDrops(h *house.House) error {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	if err != nil {
		return err
	}
	sys, err := h.System(a)
	if err != nil {
		return err
	}
	static, inside := h.Curves[a.Tap].Static(r.Target)
	r.Available, r.OffTable = static, !inside
	drops, err := dropsAt(h, a, sys, float64(r.Target))
	if err != nil {
		return err
	}
	total := 0.0
	for _, d := range drops {
		total += d.drop
	}
	for _, d := range drops {
		if d.part == airpath.PartInTable {
			continue // a part that the blower table includes cannot be changed
		}
		l := RequiredDrop{Part: d.part, Now: units.Pressure(d.drop), Needed: units.Pressure(float64(static) - (total - d.drop))}
		l.Possible = l.Needed > 0
		if d.part == airpath.PartFilter && l.Possible && len(a.Places) > 0 {
			l.Face, l.Size = faceFor(h, a, r.Target, l.Needed)
		}
		r.RequiredDrops = append(r.RequiredDrops, l)
	}
	return nil
}

type partDrop struct {
	part airpath.PartName
	drop float64
}

// dropsAt are the drops of the parts at a flow in m3/s.
func dropsAt(h *house.House, a *house.Arrangement, sys airpath.System, q float64) ([]partDrop, error) {
	p := airpath.Point{Flow: q, Branches: make([]float64, len(sys.Branches)), Series: make([]float64, len(sys.Series))}
	var err error
	if p.Return, err = sys.Split(q, p.Branches); err != nil {
		return nil, err
	}
	for i := range sys.Series {
		p.Series[i] = sys.Series[i].Law(q)
	}
	var c study.Condition
	h.BranchFlows(a, sys, p, &c)
	h.Parts(a, sys, p, &c)
	var out []partDrop
	for _, part := range c.Parts {
		out = append(out, partDrop{part.Name, float64(part.Drop)})
	}
	return out, nil
}

// faceFor is the face on which today's make of filter drops no more than asked
// at an airflow, and the smallest nominal filter of at least that face.
func faceFor(h *house.House, a *house.Arrangement, q units.Flow, drop units.Pressure) (units.Area, string) {
	p := a.Places[0]
	v, err := root.Bracketed(func(v float64) float64 { return float64(p.Law.Drop(units.Speed(v)) - drop) }, 1e-4, 10, 1e-10)
	if err != nil {
		return 0, ""
	}
	face := units.Area(float64(q) / v)
	for _, s := range search.FilterSizes(h) {
		if s.Face() >= face && s.Depth >= p.Filter.Depth*0.9 && s.Depth <= p.Filter.Depth*1.1 {
			return face, s.String()
		}
	}
	return face, ""
}
