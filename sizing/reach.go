package sizing

import (
	"context"
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/root"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

func sweepAir(altitude units.Length) (air.Properties, error) {
	s, err := air.New(altitude, units.Fahrenheit(75), 0.5)
	return s.Properties(), err
}

// Lever is one part of today's house and what it would have to drop, all else
// as it is, for the blower to move the airflow asked for.
type Lever struct {
	Part   string // "return", "filter", "coil", "supply"
	Now    units.Pressure
	Needed units.Pressure // at the airflow asked for
	// Possible is false where even a part without any drop would not do.
	Possible bool
	// Face is the filter face of today's make that drops so little, and Size
	// the smallest nominal one of it; for the filter alone.
	Face units.Area
	Size string // its name
}

// Reached says what it would take to move an airflow with clean filters.
type Reached struct {
	Target units.Flow
	Today  units.Flow // what today's house moves
	// Available is the external static that the blower has left at the airflow
	// asked for, on today's cooling tap; OffTable says that the airflow lies off
	// its table there.
	Available units.Pressure
	OffTable  bool
	Levers    []Lever

	// Ways reach it, to what a gauge tells: the fewest changes first, then the least cost of ten years.
	Ways []Way
	// Short are single changes that do not reach it, and the best that were
	// tried together where nothing does; the nearest first.
	Short []Way
	Tried int
}

// Reach tries what could be changed about today's house, alone and together:
// filters in other places and sizes that meet the job's limits, the job's other
// makes of filter, the return's ducts, grilles and branches, the blower's taps.
// Each is solved whole, with its verdict. No way holds a change that it could
// do without. done, where it is not nil, is told the share of the work done;
// the error of a ctx that ended is the ctx's own.
func Reach(ctx context.Context, job Job, target units.Flow, done func(part float64)) (*Reached, error) {
	if !(target > 0) || math.IsInf(float64(target), 0) {
		return nil, FieldErrors{{Path: "target", Given: target.String(), Wanted: "an airflow above zero"}}
	}
	study, h, err := solveWith(job, nil, &pleatStudies{})
	if err != nil {
		return nil, err
	}
	return reach(ctx, job, study, h, target, done)
}

func reach(ctx context.Context, job Job, study *Study, h *house, target units.Flow, done func(part float64)) (*Reached, error) {
	r := &Reached{Target: target, Today: study.Today().Clean.Airflow}
	if err := r.levers(h); err != nil {
		return nil, err
	}
	s, err := newSearch(job, study, h, target)
	if err != nil {
		return nil, err
	}
	if done == nil {
		done = func(float64) {}
	}
	if err := s.run(ctx, done); err != nil {
		return nil, err
	}
	r.Ways, r.Short, r.Tried = s.reach, s.nearest(), s.tried
	return r, nil
}

// levers finds, for each part of today's house, the drop that it alone would
// have to come down to.
func (r *Reached) levers(h *house) error {
	a, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return err
	}
	sys, err := h.system(a)
	if err != nil {
		return err
	}
	static, inside := h.curves[a.tap].Static(r.Target)
	r.Available, r.OffTable = static, !inside
	drops, err := h.dropsAt(a, sys, float64(r.Target))
	if err != nil {
		return err
	}
	total := 0.0
	for _, d := range drops {
		total += d.drop
	}
	for _, d := range drops {
		if d.part == PartInTable {
			continue // what the table holds is in no one's hands
		}
		l := Lever{Part: d.part, Now: units.Pressure(d.drop), Needed: units.Pressure(float64(static) - (total - d.drop))}
		l.Possible = l.Needed > 0
		if d.part == "filter" && l.Possible && len(a.places) > 0 {
			l.Face, l.Size = h.faceFor(a, r.Target, l.Needed)
		}
		r.Levers = append(r.Levers, l)
	}
	return nil
}

type partDrop struct {
	part string
	drop float64
}

// dropsAt are the drops of the parts at a flow.
func (h *house) dropsAt(a *arrangement, sys airpath.System, q float64) ([]partDrop, error) {
	p := airpath.Point{Flow: q, Branches: make([]float64, len(sys.Branches)), Series: make([]float64, len(sys.Series))}
	var err error
	if p.Return, err = sys.Split(q, p.Branches); err != nil {
		return nil, err
	}
	for i := range sys.Series {
		p.Series[i] = sys.Series[i].Law(q)
	}
	var c Condition
	h.branchFlows(a, sys, p, &c)
	h.parts(a, sys, p, &c)
	var out []partDrop
	for _, part := range c.Parts {
		out = append(out, partDrop{part.Name, float64(part.Drop)})
	}
	return out, nil
}

// faceFor is the face on which today's make of filter drops no more than asked
// at an airflow, and the smallest nominal filter of at least that face.
func (h *house) faceFor(a *arrangement, q units.Flow, drop units.Pressure) (units.Area, string) {
	p := a.places[0]
	v, err := root.Bracketed(func(v float64) float64 { return float64(p.law.Drop(units.Speed(v)) - drop) }, 1e-4, 10, 1e-10)
	if err != nil {
		return 0, ""
	}
	face := units.Area(float64(q) / v)
	for _, s := range stock.Filters() {
		if s.System == h.sizeSystem() && s.Face() >= face && s.Depth >= p.filter.Depth*0.9 && s.Depth <= p.filter.Depth*1.1 {
			return face, s.String()
		}
	}
	return face, ""
}
