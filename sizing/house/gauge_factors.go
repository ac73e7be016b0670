package house

import (
	"reflect"
	"slices"

	"returnbench/sizing/job"
)

// GaugeFactors is the gauge's factor on the grille and on the duct of a branch; 1: as
// described.
type GaugeFactors struct{ Grille, Duct float64 }

// RetainedFactors is the gauge's factor that each branch of a return side retains,
// where the return reads less than the drop of its description. The gauge reads the
// return as a whole, and its description is an estimate. So a grille or a duct that
// stays retains the factor, and what an option adds or changes is as described; a
// second branch like one of today's is new work too. Names and the wall opening of
// a grille are no physics.
func (h *House) RetainedFactors(returns []job.Return) []GaugeFactors {
	k := h.Gauge.ReturnScale
	if k == 0 {
		return nil
	}
	out := make([]GaugeFactors, len(returns))
	for i := range out {
		out[i] = GaugeFactors{1, 1}
	}
	taken := make([]bool, len(h.Returns))
	matched := make([]bool, len(returns))
	for _, alike := range []struct{ grille, duct bool }{{true, true}, {false, true}, {true, false}} {
		for i := range returns {
			for t := 0; t < len(taken) && !matched[i]; t++ {
				if taken[t] || alike.grille && !sameGrille(&returns[i], &h.Returns[t]) || alike.duct && !sameDuct(&returns[i], &h.Returns[t]) {
					continue
				}
				taken[t], matched[i] = true, true
				if alike.grille {
					out[i].Grille = k
				}
				if alike.duct {
					out[i].Duct = k
				}
			}
		}
	}
	return out
}

func sameGrille(a, b *job.Return) bool {
	return a.Grille.Width == b.Grille.Width && a.Grille.Height == b.Grille.Height && reflect.DeepEqual(a.Grille, b.Grille)
}

func sameDuct(a, b *job.Return) bool {
	return slices.Equal(a.Runs, b.Runs) && slices.Equal(a.Fittings, b.Fittings)
}

// FactorsAt are the factors of a branch; 1 where the gauge read no return.
func FactorsAt(all []GaugeFactors, i int) GaugeFactors {
	if i < len(all) {
		return all[i]
	}
	return GaugeFactors{1, 1}
}
