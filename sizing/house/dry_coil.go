package house

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
)

// DryCoil is the system in heating, when the coil is dry, and what the blower table
// then includes: one measured with a wet coil is credited with the extra drop of the
// water. changed is false for a house without a coil, and for an air handler, whose
// table does not list its own coil.
func (h *House) DryCoil(sys airpath.System) (heating airpath.System, offset airpath.Law, changed bool) {
	share := h.Equipment.CoilDryShare
	if !h.HasCoil() || share == 1 {
		return sys, h.TableIncludes, false
	}
	// While filters load, every step asks for the dry coil of the same system.
	series := &sys.Series[0]
	if h.dry.of != series {
		h.dry.of = series
		h.dry.series, h.dry.offset, h.dry.changed = h.dryCoil(sys, share)
	}
	sys.Series = h.dry.series
	return sys, h.dry.offset, h.dry.changed
}

// dryCoil is the last dry system that was asked for, by the series of the wet one.
type dryCoil struct {
	of      *airpath.Part
	series  []airpath.Part
	offset  airpath.Law
	changed bool
}

func (h *House) dryCoil(sys airpath.System, share float64) (series []airpath.Part, offset airpath.Law, changed bool) {
	coil := law(h.Coil)
	if slices.Contains(h.Equipment.Blower.Includes, blower.IncludesWetCoil) {
		return sys.Series, func(q float64) float64 { return h.TableCredit(q) + (1-share)*coil(q) }, true
	}
	at := slices.IndexFunc(sys.Series, func(p airpath.Part) bool { return p.Name == airpath.PartCoil })
	if at < 0 {
		return sys.Series, h.TableIncludes, false
	}
	series = slices.Clone(sys.Series)
	series[at].Law = coil.Scale(share)
	return series, h.TableIncludes, true
}
