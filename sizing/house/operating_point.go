package house

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/units"
)

// operatingPoint is where a tap's curve crosses that of the system.
type operatingPoint struct {
	airpath.Point
	// External is the external static: the drop of all parts less what the blower
	// table already includes. Blower tables are read at it.
	External          units.Pressure
	Power             units.Power
	Speed             units.Rotation
	WithinBlowerTable bool // within the blower table
}

// solvePoint finds the operating point of a system on a tap. It starts from the last
// one solved on it: options, sizes and dust loads lie near each other, and a wet coil
// near a wet coil.
func (h *House) solvePoint(sys airpath.System, tap TapSpeed, offset airpath.Law) (airpath.Point, error) {
	last := h.lastPoint(tap, len(sys.Branches))
	p, err := sys.SolveNear(last.fan, offset, last.point, &h.points)
	if err == nil {
		last.point = p
	}
	return p, err
}

// tapPoint is the last operating point of a system with so many branches on a tap.
type tapPoint struct {
	tap      TapSpeed
	branches int
	fan      airpath.Fan
	point    airpath.Point
}

// lastPoint finds it; there are few taps and few numbers of branches.
func (h *House) lastPoint(tap TapSpeed, branches int) *tapPoint {
	for i := range h.lastPoints {
		if p := &h.lastPoints[i]; p.tap == tap && p.branches == branches {
			return p
		}
	}
	curve := h.Curves[tap]
	first := tapPoint{tap: tap, branches: branches, fan: curve.Extended}
	if n := len(h.lastPoints); n > 0 {
		first.point = h.lastPoints[n-1].point
	}
	h.lastPoints = append(h.lastPoints, first)
	return &h.lastPoints[len(h.lastPoints)-1]
}

// OperatingPoint finds where the air path and a tap of the blower meet; offset is what
// the blower table includes.
func (h *House) OperatingPoint(sys airpath.System, tap TapSpeed, offset airpath.Law) (operatingPoint, error) {
	p, err := h.solvePoint(sys, tap, offset)
	if err != nil {
		return operatingPoint{}, err
	}
	return h.readTable(p, tap, offset), nil
}

// CoolingOperatingPoint is the operating point of an arrangement in cooling, with its filters
// in or out of their seats.
func (h *House) CoolingOperatingPoint(a *Arrangement, sys airpath.System) (operatingPoint, error) {
	p, err := h.solvePoint(sys, a.Tap, h.TableIncludes)
	if err == nil && !a.NoFilters {
		p, err = h.seatFilters(a, sys, p)
	}
	if err != nil {
		return operatingPoint{}, err
	}
	return h.readTable(p, a.Tap, h.TableIncludes), nil
}

// readTable reads a tap's table at a point.
func (h *House) readTable(p airpath.Point, tap TapSpeed, offset airpath.Law) operatingPoint {
	c := h.Curves[tap]
	o := operatingPoint{Point: p, External: external(p.Static, p.Flow, offset)}
	_, o.WithinBlowerTable = c.Airflow(o.External)
	o.Power, _ = c.Power(o.External)
	o.Speed, _ = c.Speed(o.External)
	return o
}

// external is the external static, from the drop of all parts at a flow.
func external(static, flow float64, offset airpath.Law) units.Pressure {
	if offset != nil {
		static -= offset(flow)
	}
	return units.Pressure(static)
}

// FilterDrop is the drop of the filters at a point: for filters in several branches
// the mean, weighted by airflow.
func FilterDrop(sys airpath.System, p airpath.Point) float64 {
	sum := 0.0
	for i, b := range sys.Branches {
		for _, part := range b.Parts {
			if part.Name == airpath.PartFilter {
				sum += part.Law(p.Branches[i]) * p.Branches[i] / p.Flow
			}
		}
	}
	for i, part := range sys.Series {
		if part.Name == airpath.PartFilter {
			sum += p.Series[i]
		}
	}
	return sum
}
