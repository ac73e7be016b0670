package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

// Piece is one part of the return side of today's house and what it costs.
type Piece struct {
	Branch string         `json:"branch"`
	Name   string         `json:"name"`
	Drop   units.Pressure `json:"drop"` // of all its like, at the branch's airflow
	// Velocity at the piece's section: face velocity of a grille or filter.
	Velocity units.Speed `json:"velocity"`
	// EquivalentLength is the straight duct of the piece's own section that
	// drops as much; zero for grilles and filters.
	EquivalentLength units.Length `json:"equivalent_length,omitzero"`
	Undersized       bool         `json:"undersized"`
}

// pieces takes today's return side apart, the dearest piece first.
func (h *house) pieces(r *OptionResult) []Piece {
	var out []Piece
	gauged := h.inherits(h.Returns)
	for i, b := range r.Clean.Branches {
		ret := h.Returns[i]
		k := at(gauged, i).duct
		if b.GrilleDrop > 0 {
			out = append(out, Piece{Branch: b.Name, Name: "grille " + h.plainSize(ret.Grille.Width, ret.Grille.Height), Drop: b.GrilleDrop,
				Velocity: b.FaceVelocity, Undersized: exceeds(b.FaceVelocity, grilleVelocity)})
		}
		if b.FilterDrop > 0 {
			out = append(out, Piece{Branch: b.Name, Name: "filter " + ret.Filter, Drop: b.FilterDrop, Velocity: b.FaceVelocity,
				Undersized: exceeds(b.FaceVelocity, h.TargetFaceVelocity)})
		}
		for _, run := range ret.Runs {
			v := run.Velocity(b.Airflow)
			out = append(out, Piece{Branch: b.Name, Name: h.runName(run), Drop: run.Drop(b.Airflow, h.air) * units.Pressure(k), Velocity: v,
				EquivalentLength: run.Length, Undersized: exceeds(v, h.Limits.DuctVelocity) || exceeds(run.Friction(b.Airflow, h.air), h.Limits.DuctFriction)})
		}
		for _, f := range ret.Fittings {
			out = append(out, h.fittingPiece(b, ret, f, k))
		}
	}
	slices.SortStableFunc(out, func(a, b Piece) int { return cmp.Compare(b.Drop, a.Drop) })
	return out
}

// grilleVelocity is the highest usual face velocity of a return grille, from
// secondary text.
const grilleVelocity = 500 * units.FPM

func (h *house) fittingPiece(b BranchFlow, r Return, f duct.Fitting, scale float64) Piece {
	area := section(f, r)
	v := units.Speed(float64(b.Airflow) / area)
	drop := float64(f.Drop(b.Airflow, units.Area(area), h.air))
	p := Piece{Branch: b.Name, Name: fittingName(f), Drop: units.Pressure(drop * scale), Velocity: v, Undersized: exceeds(v, h.Limits.DuctVelocity)}
	d := math.Sqrt(4 * area / math.Pi)
	along := duct.Run{Shape: duct.Round, Diameter: units.Length(d), Length: units.Metre}
	if perMetre := float64(along.Drop(b.Airflow, h.air)); perMetre > 0 {
		p.EquivalentLength = units.Length(drop / perMetre)
	}
	return p
}

// plainSize names a size as the house's nominal sizes do: in inches or in
// whole millimetres.
func (h *house) plainSize(sides ...units.Length) string {
	unit, scale, digits := "in", units.Inch, 100.0
	if h.Limits.NominalSizes == MetricSizes {
		unit, scale, digits = "mm", units.Millimetre, 1
	}
	words := make([]string, len(sides))
	for i, v := range sides {
		words[i] = fmt.Sprint(math.Round(v.In(scale)*digits) / digits)
	}
	return strings.Join(words, "x") + " " + unit
}

func (h *house) runName(r duct.Run) string {
	if r.Shape == duct.Rectangular {
		return fmt.Sprintf("%s duct %s", r.Shape, h.plainSize(r.Width, r.Height))
	}
	return fmt.Sprintf("%s duct %s", r.Shape, h.plainSize(r.Diameter))
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
