package house

import (
	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// tableFilter is the clean throw-away filter that blower tables "with filter"
// are usually measured with.
var tableFilter = filter.Filter{Name: "filter of the blower table", Depth: units.Inch, MERV: 4}

// readTableIncludes reads what the blower table already includes. A wet coil in the
// table is left out of the external parts; for a filter in it, a usual throw-away
// filter's drop is credited.
func (h *House) readTableIncludes() error {
	for _, in := range h.Equipment.Blower.Includes {
		switch in {
		case blower.IncludesWetCoil:
			h.Note("coil", "the blower table", "the blower table was measured with a wet coil: its drop is inside the table")
		case blower.IncludesFilter:
			w, hh := assume.UsualSlot(h.DesignAirflow)
			law, err := tableFilter.Law(w, hh, h.Air)
			if err != nil {
				return err
			}
			face := float64(w) * float64(hh)
			h.TableIncludes = func(q float64) float64 { return float64(law.Drop(units.Speed(q / face))) }
			h.Note("equipment.blower.includes", assume.CommonPractice, "the blower table was measured with a clean throw-away filter of {width} by {height} in place", "width", w, "height", hh)
		}
	}
	return nil
}

// TableCredit is the drop of the parts that the blower table includes, Pa, at a
// flow in m3/s.
func (h *House) TableCredit(q float64) float64 {
	if h.TableIncludes == nil {
		return 0
	}
	return h.TableIncludes(q)
}
