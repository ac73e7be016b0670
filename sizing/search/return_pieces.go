package search

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/duct"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Pieces lists the pieces of today's return side, the highest drop first.
func Pieces(h *house.House, r *study.OptionResult) []study.Piece {
	var out []study.Piece
	gauged := h.RetainedFactors(h.Returns)
	for i, b := range r.Clean.Branches {
		ret := h.Returns[i]
		k := house.FactorsAt(gauged, i).Duct
		if b.GrilleDrop > 0 {
			out = append(out, study.Piece{Branch: b.Name, Name: "grille " + plainSize(h, ret.Grille.Width, ret.Grille.Height), Drop: b.GrilleDrop,
				Velocity: b.FaceVelocity, Undersized: study.Exceeds(b.FaceVelocity, GrilleVelocity)})
		}
		if b.FilterDrop > 0 {
			out = append(out, study.Piece{Branch: b.Name, Name: "filter " + ret.Filter, Drop: b.FilterDrop, Velocity: b.FaceVelocity,
				Undersized: study.Exceeds(b.FaceVelocity, h.TargetFaceVelocity)})
		}
		for _, run := range ret.Runs {
			v := run.Velocity(b.Airflow)
			out = append(out, study.Piece{Branch: b.Name, Name: runName(h, run), Drop: run.Drop(b.Airflow, h.Air) * units.Pressure(k), Velocity: v,
				EquivalentLength: run.Length, Undersized: study.Exceeds(v, h.Limits.DuctVelocity) || study.Exceeds(run.Friction(b.Airflow, h.Air), h.Limits.DuctFriction)})
		}
		for _, f := range ret.Fittings {
			out = append(out, fittingPiece(h, b, ret, f, k))
		}
	}
	slices.SortStableFunc(out, func(a, b study.Piece) int { return cmp.Compare(b.Drop, a.Drop) })
	return out
}

// GrilleVelocity is the highest usual face velocity of a return grille, from
// secondary text.
const GrilleVelocity = 500 * units.FPM

func fittingPiece(h *house.House, b study.BranchFlow, r job.Return, f duct.Fitting, scale float64) study.Piece {
	area := job.Section(f, r)
	v := units.Speed(float64(b.Airflow) / area)
	drop := float64(f.Drop(b.Airflow, units.Area(area), h.Air))
	p := study.Piece{Branch: b.Name, Name: fittingName(f), Drop: units.Pressure(drop * scale), Velocity: v, Undersized: study.Exceeds(v, h.Limits.DuctVelocity)}
	d := math.Sqrt(4 * area / math.Pi)
	along := duct.Run{Shape: duct.Round, Diameter: units.Length(d), Length: units.Metre}
	if perMetre := float64(along.Drop(b.Airflow, h.Air)); perMetre > 0 {
		p.EquivalentLength = units.Length(drop / perMetre)
	}
	return p
}

// plainSize names a size as the house's nominal sizes do: in inches or in
// whole millimetres.
func plainSize(h *house.House, sides ...units.Length) string {
	unit, scale, digits := "in", units.Inch, 100.0
	if h.Limits.NominalSizes == job.MetricSizes {
		unit, scale, digits = "mm", units.Millimetre, 1
	}
	words := make([]string, len(sides))
	for i, v := range sides {
		words[i] = fmt.Sprint(math.Round(v.In(scale)*digits) / digits)
	}
	return strings.Join(words, "x") + " " + unit
}

func runName(h *house.House, r duct.Run) string {
	if r.Shape == duct.Rectangular {
		return fmt.Sprintf("%s duct %s", r.Shape, plainSize(h, r.Width, r.Height))
	}
	return fmt.Sprintf("%s duct %s", r.Shape, plainSize(h, r.Diameter))
}

func fittingName(f duct.Fitting) string {
	name := strings.ReplaceAll(string(f.Kind), "_", " ")
	if name == "" {
		name = "fitting"
	}
	if f.Count > 1 {
		return fmt.Sprintf("%d x %s", f.Count, name)
	}
	return name
}
