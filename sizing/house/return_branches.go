package house

import (
	"fmt"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
)

// branches compiles the return branches of an arrangement. Today's branches without
// filters are compiled once, for all options and sizes that leave them unchanged.
func (h *House) branches(a *Arrangement) ([]airpath.Branch, error) {
	unfiltered := a.KeepsReturns && !slices.ContainsFunc(a.Places, func(p place) bool { return p.branch >= 0 })
	if unfiltered && h.todayBranches != nil {
		return h.todayBranches, nil
	}
	out := make([]airpath.Branch, 0, len(a.Returns))
	for i := range a.Returns {
		b, err := h.branch(a, i)
		if err != nil {
			return nil, err
		}
		out = append(out, h.Perturbation.PerturbBranch(b, a.Returns[i].Grille))
	}
	if unfiltered {
		h.todayBranches = out
	}
	return out, nil
}

// branch compiles one return branch of an arrangement.
func (h *House) branch(a *Arrangement, i int) (airpath.Branch, error) {
	r := a.Returns[i]
	ducts, err := h.ducts(r)
	if err != nil {
		return airpath.Branch{}, job.FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: message.OfError(err)}}
	}
	if p := a.inBranch(i); p != nil && !a.NoFilters {
		return h.branchOf(r, i, FactorsAt(a.factors, i), &airpath.Part{Name: airpath.PartFilter, Law: p.drop}, ducts)
	}
	return h.branchOf(r, i, FactorsAt(a.factors, i), nil, ducts)
}

// branchOf joins grille, filter and duct in the order of the air; filter and ducts
// may be nil.
func (h *House) branchOf(r job.Return, i int, factors GaugeFactors, filters *airpath.Part, ducts airpath.Law) (airpath.Branch, error) {
	b := airpath.Branch{Name: job.NameOf(r, i).String(), Parts: make([]airpath.Part, 0, 3)}
	if r.Grille.Width > 0 {
		linear, quadratic, err := r.Grille.Coefficients(h.Air)
		if err != nil {
			return b, job.FieldErrors{{Path: fmt.Sprintf("returns[%d].grille", i), Given: r.Name, Wanted: message.OfError(err)}}
		}
		if linear == 0 && quadratic == 0 && ducts == nil {
			quadratic = h.openHole(r.Grille)
		}
		b.Parts = append(b.Parts, airpath.Part{Name: airpath.PartGrille, Law: func(q float64) float64 {
			return factors.Grille * (linear*q + quadratic*q*absolute(q))
		}})
	}
	if filters != nil {
		b.Parts = append(b.Parts, *filters)
	}
	if ducts != nil {
		if factors.Duct != 1 {
			ducts = ducts.Scale(factors.Duct)
		}
		b.Parts = append(b.Parts, airpath.Part{Name: airpath.PartDuct, Law: ducts})
	}
	if len(b.Parts) == 0 {
		return b, job.FieldErrors{{Path: fmt.Sprintf("returns[%d]", i), Given: r.Name, Wanted: message.New("a grille, a filter or a duct run")}}
	}
	return b, nil
}

// openHole is the k of k Q^2 of a grille that is all free area and has no duct: the
// air through it loses its velocity pressure in the plenum (Borda and Carnot).
// Without it such a return would carry any airflow at no drop.
func (h *House) openHole(g duct.Grille) float64 {
	face := float64(g.Width) * float64(g.Height)
	return float64(h.Air.Density) / 2 / (face * face)
}

// ducts joins runs and fittings of a branch; nil where it has neither.
func (h *House) ducts(r job.Return) (airpath.Law, error) {
	if len(r.Runs) == 0 && len(r.Fittings) == 0 {
		return nil, nil
	}
	key := ductKey{first(r.Runs), len(r.Runs), first(r.Fittings), len(r.Fittings)}
	if law := h.ductLaws[key]; law != nil {
		return law, nil
	}
	law, err := h.compileDucts(r)
	h.ductLaws[key] = law
	return law, err
}

// ductKey identifies the ducts of a branch by the lists that hold them: sizes in
// the search put another grille before today's ducts, in the same lists.
type ductKey struct {
	runs     *duct.Run
	n        int
	fittings *duct.Fitting
	m        int
}

func first[T any](list []T) *T {
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}

func (h *House) compileDucts(r job.Return) (airpath.Law, error) {
	runs := make([]duct.Resistance, len(r.Runs))
	for i := range r.Runs {
		runs[i] = r.Runs[i].Resistance(h.Air)
	}
	minor := 0.0 // Pa s2/m6
	for _, f := range r.Fittings {
		zeta := f.Coefficient
		if zeta == 0 {
			z, err := f.Loss()
			if err != nil {
				return nil, err
			}
			zeta = z
		}
		s := job.Section(f, r)
		minor += float64(max(f.Count, 1)) * zeta * float64(h.Air.Density) / 2 / (s * s)
	}
	return func(q float64) float64 {
		p := minor * q * absolute(q)
		for i := range runs {
			p += runs[i].Drop(q)
		}
		return p
	}, nil
}
