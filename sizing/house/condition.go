package house

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Condition solves the arrangement with its filters in their present state, in
// or out of their seats.
func (h *House) Condition(a *Arrangement, sys airpath.System) (study.Condition, error) {
	point, err := h.CoolingOperatingPoint(a, sys)
	if err != nil {
		return study.Condition{}, err
	}
	p := point.Point
	c := study.Condition{
		Airflow:            units.Flow(p.Flow),
		AirflowPerCapacity: units.FlowPerCapacity(p.Flow / float64(h.Equipment.CoolingCapacity)),
		ExternalStatic:     point.External,
		BlowerPower:        point.Power,
		BlowerSpeed:        point.Speed,
		FanEfficacy:        units.FanEfficacy(float64(point.Power) / p.Flow),
		WithinBlowerTable:  point.WithinBlowerTable,
		Residual:           p.Residual,
	}
	h.BranchFlows(a, sys, p, &c)
	h.Parts(a, sys, p, &c)
	h.velocities(a, &c)
	if !a.NoFilters {
		h.frameResults(a, p, &c)
	}
	if err := h.otherSeasons(a, sys, p, &c); err != nil {
		return c, err
	}
	return c, h.Cooling(&c)
}

func (h *House) BranchFlows(a *Arrangement, sys airpath.System, p airpath.Point, c *study.Condition) {
	c.Branches = slices.Grow(c.Branches, len(sys.Branches))
	for i, b := range sys.Branches {
		q := p.Branches[i]
		f := study.BranchFlow{Name: job.NameOf(a.Returns[i], i), Airflow: units.Flow(q), Drop: units.Pressure(p.Return)}
		for _, part := range b.Parts {
			drop := units.Pressure(part.Law(q))
			switch part.Name {
			case airpath.PartGrille:
				f.GrilleDrop = drop
			case airpath.PartFilter:
				f.FilterDrop = drop
			case airpath.PartDuct:
				f.DuctDrop = drop
			}
		}
		if g := a.Returns[i].Grille; g.Width > 0 {
			f.FaceVelocity = g.FaceVelocity(f.Airflow)
		}
		f.DuctVelocity = fastest(a.Returns[i].Runs, f.Airflow)
		c.Branches = append(c.Branches, f)
	}
}

func fastest(runs []duct.Run, q units.Flow) units.Speed {
	v := units.Speed(0)
	for _, r := range runs {
		v = max(v, r.Velocity(q))
	}
	return v
}

func (h *House) velocities(a *Arrangement, c *study.Condition) {
	face, media := a.Areas()
	if face == 0 {
		return
	}
	through := float64(c.Airflow)
	if len(a.Places) > 0 && a.Central() == nil {
		through = 0
		for _, p := range a.Places {
			through += float64(c.Branches[p.branch].Airflow)
		}
	}
	c.FaceVelocity = units.Speed(through / face)
	if media > 0 {
		c.MediaVelocity = units.Speed(through / media)
	}
}
