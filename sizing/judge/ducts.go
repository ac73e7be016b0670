package judge

import (
	"cmp"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/study"
)

// judgeDucts names the ducts that are too small, the highest drop first, with the limit
// that each misses, and then every undersized piece of the return.
func judgeDucts(h *house.House, s *study.Study) []study.Finding {
	const source = "highest velocity and friction of return ducts in the job; 600 to 700 fpm and 0.05 to 0.08 in. w.c. per 100 ft are usual: " + assume.CommonPractice
	var out []study.Finding
	ducts := slices.Clone(s.Ducts)
	slices.SortStableFunc(ducts, func(a, b study.DuctSize) int { return cmp.Compare(b.NowDrop, a.NowDrop) })
	for _, d := range ducts {
		wanted := "No listed round duct carries this airflow: split it between two"
		args := []any{d.Branch, d.NowDrop}
		if d.Round.Found() {
			wanted = "A round duct of %v would drop %v with the branch's %v and its %d fittings at that size"
			args = append(args, study.Nominal(d.Round.Diameter), d.Round.Drop, d.Round.Length, d.Round.Fittings)
			if d.Round.Over {
				wanted += ", still over the usual %v of a return: take out turns or split it between two"
				args = append(args, h.Budget(airpath.PartReturn))
			}
		}
		switch {
		case study.Exceeds(d.Now, h.Limits.DuctVelocity):
			out = append(out, study.NewFinding(study.Caution, "duct_velocity", source, "%s: the duct drops %v at %v, over the %v allowed. "+wanted+".",
				slices.Insert(args, 2, any(d.Now), any(h.Limits.DuctVelocity))...))
		case d.Undersized:
			out = append(out, study.NewFinding(study.Caution, "duct_friction", source, "%s: the duct drops %v, %v at its tightest, over the %v allowed. "+wanted+".",
				slices.Insert(args, 2, any(d.NowFriction), any(h.Limits.DuctFriction))...))
		}
	}
	return append(out, judgePieces(s.Pieces)...)
}

// judgePieces lists the undersized parts of today's return in order of what
// each costs; the pieces come so.
func judgePieces(pieces []study.Piece) []study.Finding {
	text, args := "", []any{}
	for _, p := range pieces {
		if !p.Undersized {
			continue
		}
		if text != "" {
			text += "; "
		}
		text += "%s, %s: %v"
		args = append(args, p.Branch, p.Name, p.Drop)
	}
	if text == "" {
		return nil
	}
	return []study.Finding{study.NewFinding(study.Caution, "undersized_parts", "velocity and friction limits of the job; 500 fpm on a return grille, from secondary text",
		"Undersized today, worst first: "+text+".", args...)}
}
