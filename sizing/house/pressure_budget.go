package house

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

const filterBudget = 0.20 // of the rated external static

// Budget is the drop allowed for a part: its usual share of the rated external static
// (common practice, no source), or the job's own limit for the filter.
func (h *House) Budget(part airpath.PartName) units.Pressure {
	if part == airpath.PartFilter && h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop
	}
	share := 0.0
	switch part {
	case airpath.PartFilter:
		share = filterBudget
	case airpath.PartReturn:
		share = assume.ReturnShare
	case airpath.PartCoil:
		share = assume.CoilShare
	case airpath.PartSupply:
		share = assume.SupplyShare
	}
	return units.Pressure(share) * h.Equipment.RatedExternalStatic
}

// DropLimit is the drop allowed for a clean filter at the operating point, and
// the source of that limit; see Budget.
func (h *House) DropLimit() (most units.Pressure, source message.ID) {
	if h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop, "the job's limit"
	}
	return h.Budget(airpath.PartFilter), "20 % of the rated external static for the filter: " + assume.CommonPractice
}
