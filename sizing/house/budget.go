package house

import (
	"returnbench/sizing/assume"
	"returnbench/sizing/units"
)

const filterBudget = 0.20 // of the rated external static

// Budget is what a part may take: its usual share of the rated external static
// (common practice, no source), or the job's own limit for the filter.
func (h *House) Budget(part string) units.Pressure {
	if part == "filter" && h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop
	}
	share := map[string]float64{"filter": filterBudget, "return": assume.ReturnShare, "coil": assume.CoilShare, "supply": assume.SupplyShare}[part]
	return units.Pressure(share) * h.Equipment.RatedExternalStatic
}

// DropLimit is what a clean filter may take, and who says so.
func (h *House) DropLimit() (most units.Pressure, source string) {
	if h.Limits.MaxFilterDrop > 0 {
		return h.Limits.MaxFilterDrop, "the job's limit"
	}
	return h.Budget("filter"), "20 % of the rated external static for the filter: " + assume.CommonPractice
}
