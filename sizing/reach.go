package sizing

import (
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
	Size string
}

// Reach says what it would take to move an airflow: the static that the blower
// has left at that airflow on its cooling tap, and for each part the drop that
// it would have to come down to. off says that the airflow lies off the table.
func Reach(job Job, target units.Flow) (levers []Lever, available units.Pressure, off bool, err error) {
	if faults := job.Check(); faults != nil {
		return nil, 0, false, faults
	}
	h, err := newHouse(assume(job), nil)
	if err != nil {
		return nil, 0, false, err
	}
	a, err := h.arrange(Option{Name: TodayName}, "today")
	if err != nil {
		return nil, 0, false, err
	}
	sys, err := h.system(a)
	if err != nil {
		return nil, 0, false, err
	}
	static, inside := h.curves[a.tap].Static(target)
	drops, err := h.dropsAt(a, sys, float64(target))
	if err != nil {
		return nil, 0, false, err
	}
	total := 0.0
	for _, d := range drops {
		total += d.drop
	}
	for _, d := range drops {
		l := Lever{Part: d.part, Now: units.Pressure(d.drop), Needed: units.Pressure(float64(static) - (total - d.drop))}
		l.Possible = l.Needed > 0
		if d.part == "filter" && l.Possible && len(a.places) > 0 {
			l.Face, l.Size = h.faceFor(a, target, l.Needed)
		}
		levers = append(levers, l)
	}
	return levers, static, !inside, nil
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
