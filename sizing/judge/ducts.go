package judge

import (
	"cmp"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/duct"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// judgeDucts names the ducts that are too small, the highest drop first, with the limit
// that each misses, and then every undersized piece of the return.
func judgeDucts(h *house.House, s *study.Study) []study.Finding {
	const source = "highest velocity and friction of return ducts in the job; 600 to 700 fpm (3.0 to 3.6 m/s) and 0.05 to 0.08 in. w.c. per 100 ft (0.4 to 0.65 Pa/m) are usual: " + assume.CommonPractice
	var out []study.Finding
	ducts := slices.Clone(s.Ducts)
	slices.SortStableFunc(ducts, func(a, b study.DuctSize) int { return cmp.Compare(b.PresentDrop, a.PresentDrop) })
	for _, d := range ducts {
		switch {
		case study.Exceeds(d.PresentVelocity, h.Limits.DuctVelocity):
			out = append(out, wantedDuct(h, d, study.NewFinding(study.Caution, "duct_velocity", source, "{branch}: the duct drops {drop} at {velocity}, over the {limit} allowed.",
				"branch", d.Branch, "drop", d.PresentDrop, "velocity", d.PresentVelocity, "limit", h.Limits.DuctVelocity)))
		case d.Undersized:
			out = append(out, wantedDuct(h, d, study.NewFinding(study.Caution, "duct_friction", source, "{branch}: the duct drops {drop}, {friction} at its tightest, over the {limit} allowed.",
				"branch", d.Branch, "drop", d.PresentDrop, "friction", d.PresentFriction, "limit", h.Limits.DuctFriction)))
		}
	}
	out = append(out, judgePieces(s.ReturnComponents)...)
	return append(out, judgeFlex(h)...)
}

// judgeFlex reports each flex whose slack lies outside the range of the equation for
// its drop.
func judgeFlex(h *house.House) []study.Finding {
	var out []study.Finding
	for i, r := range h.Returns {
		for _, run := range r.Runs {
			if _, inRange := run.CompressionCorrection(); !inRange {
				out = append(out, *study.Raise(study.Caution, "flex_range", "ASHRAE Handbook Fundamentals 2021 ch. 21, eqs. 22 and 23, range from memory",
					"{branch}: the {diameter} flex lies {slack} % shorter than fully stretched. The equation for its drop holds from {smallest} to {largest} and up to {most} %: here it is a guess.",
					"branch", job.NameOf(r, i), "diameter", study.Nominal(run.Diameter), "slack", message.Fixed(100*run.Compression, 0),
					"smallest", study.Nominal(6*units.Inch), "largest", study.Nominal(16*units.Inch), "most", message.Fixed(100*duct.MostCompression, 0)).
					Advise("Pull it straight, or measure the drop of this return."))
			}
		}
	}
	return out
}

// wantedDuct adds the round duct that keeps the limits.
func wantedDuct(h *house.House, d study.DuctSize, f study.Finding) study.Finding {
	args := []any{"diameter", study.Nominal(d.Round.Diameter), "drop", d.Round.Drop, "length", d.Round.Length, "count", d.Round.Fittings, "usual", h.Budget(airpath.PartReturn)}
	switch {
	case !d.Round.Found():
		return f.Then("No listed round duct carries this airflow: split it between two.")
	case d.Round.OverBudget:
		return f.Then("A round duct of {diameter} would drop {drop} with the branch's {length} and its {count} fittings at that size, still over the usual {usual} of a return: take out turns or split it between two.", args...)
	}
	return f.Then("A round duct of {diameter} would drop {drop} with the branch's {length} and its {count} fittings at that size.", args...)
}

// judgePieces lists the undersized parts of today's return in the order of the
// pieces, the highest drop first.
func judgePieces(pieces []study.ReturnComponent) []study.Finding {
	rows := message.Rows{Mark: "; "}
	for _, p := range pieces {
		if p.Undersized {
			rows.Items = append(rows.Items, message.New("{branch}, {piece}: {drop}", "branch", p.Branch, "piece", p.Name, "drop", p.Drop))
		}
	}
	if len(rows.Items) == 0 {
		return nil
	}
	return []study.Finding{study.NewFinding(study.Caution, "undersized_parts", "velocity and friction limits of the job; 500 fpm (2.5 m/s) on a return grille, from secondary text",
		"Undersized today, worst first: {pieces}.", "pieces", rows)}
}
