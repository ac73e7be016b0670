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
	coil := law(h.Coil)
	if slices.Contains(h.Equipment.Blower.Includes, blower.IncludesWetCoil) {
		return sys, func(q float64) float64 { return h.TableCredit(q) + (1-share)*coil(q) }, true
	}
	at := slices.IndexFunc(sys.Series, func(p airpath.Part) bool { return p.Name == airpath.PartCoil })
	if at < 0 {
		return sys, h.TableIncludes, false
	}
	sys.Series = slices.Clone(sys.Series)
	sys.Series[at].Law = coil.Scale(share)
	return sys, h.TableIncludes, true
}
