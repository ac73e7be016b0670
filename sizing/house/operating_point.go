package house

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/units"
)

// operatingPoint is where a tap's curve meets the system.
type operatingPoint struct {
	airpath.Point
	// External is the external static: what all parts take less what the blower
	// table already holds. Blower tables are read at it.
	External units.Pressure
	Power    units.Power
	Speed    units.Rotation
	Inside   bool // within the blower table
}

// OperatingPoint finds it on a tap; offset is what the blower table holds.
func (h *House) OperatingPoint(sys airpath.System, tap string, offset airpath.Law) (operatingPoint, error) {
	p, err := h.meet(sys, tap, offset)
	if err != nil {
		return operatingPoint{}, err
	}
	return h.readTable(p, tap, offset), nil
}

// Cooled is the operating point of an arrangement in cooling, with its filters
// as they sit in their frames.
func (h *House) Cooled(a *Arrangement, sys airpath.System) (operatingPoint, error) {
	p, err := h.meet(sys, a.Tap, h.TableIncludes)
	if err == nil && !a.NoFilters {
		p, err = h.seatFilters(a, sys, p)
	}
	if err != nil {
		return operatingPoint{}, err
	}
	return h.readTable(p, a.Tap, h.TableIncludes), nil
}

// readTable reads a tap's table at a point.
func (h *House) readTable(p airpath.Point, tap string, offset airpath.Law) operatingPoint {
	c := h.Curves[tap]
	o := operatingPoint{Point: p, External: external(p.Static, p.Flow, offset)}
	_, o.Inside = c.Airflow(o.External)
	o.Power, _ = c.Power(o.External)
	o.Speed, _ = c.Speed(o.External)
	return o
}

// external is the external static where all parts take a static at a flow.
func external(static, flow float64, offset airpath.Law) units.Pressure {
	if offset != nil {
		static -= offset(flow)
	}
	return units.Pressure(static)
}

// FilterDrop is what the filters take at a point: of filters in several branches
// the mean, each weighted with its air.
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
