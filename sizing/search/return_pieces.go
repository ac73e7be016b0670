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
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// ReturnComponents lists the pieces of today's return side, the highest drop first.
func ReturnComponents(h *house.House, r *study.OptionResult) []study.ReturnComponent {
	var out []study.ReturnComponent
	gauged := h.RetainedFactors(h.Returns)
	for i, b := range r.Clean.Branches {
		ret := h.Returns[i]
		k := house.FactorsAt(gauged, i).Duct
		if b.GrilleDrop > 0 {
			out = append(out, study.ReturnComponent{Branch: b.Name, Name: message.New("grille {size}", "size", plainSize(h, ret.Grille.Width, ret.Grille.Height)), Drop: b.GrilleDrop,
				Velocity: b.FaceVelocity, Undersized: SmallGrille(ret, b.Airflow)})
		}
		if b.FilterDrop > 0 {
			out = append(out, study.ReturnComponent{Branch: b.Name, Name: message.New("filter {name}", "name", study.FilterName(ret.Filter)), Drop: b.FilterDrop, Velocity: b.FaceVelocity,
				Undersized: study.Exceeds(b.FaceVelocity, h.TargetFaceVelocity)})
		}
		for _, run := range ret.Runs {
			v := run.Velocity(b.Airflow)
			out = append(out, study.ReturnComponent{Branch: b.Name, Name: runName(h, run), Drop: run.Drop(b.Airflow, h.Air) * units.Pressure(k), Velocity: v,
				EquivalentLength: run.Length, Undersized: undersized(h, v, run.Friction(b.Airflow, h.Air))})
		}
		for _, f := range ret.Fittings {
			out = append(out, fittingComponent(h, b, ret, f, k))
		}
	}
	slices.SortStableFunc(out, func(a, b study.ReturnComponent) int { return cmp.Compare(b.Drop, a.Drop) })
	return out
}

// grilleVelocity is the highest usual face velocity of a return grille, from
// secondary text.
const grilleVelocity = 500 * units.FPM

// GrilleFace is the gross face, m2 inside, that a return's grille needs at an airflow:
// at most 500 fpm over the face and, where it holds no filter, no more through its net
// free area than a stamped face has at 500 fpm. A face with less free area is larger
// by that (an engineering choice: the limit in print is of the face).
func GrilleFace(r job.Return, q units.Flow) units.Area {
	face := units.Area(float64(q) / float64(grilleVelocity))
	if r.Filter != "" {
		return face
	}
	share, _, _ := r.Grille.FreeAreaShare()
	stamped, _, _ := duct.Grille{Style: duct.Stamped}.FreeAreaShare()
	return max(face, face*units.Area(stamped/share))
}

// SmallGrille reports whether a return has a grille with less face than it needs.
func SmallGrille(r job.Return, q units.Flow) bool {
	return r.Grille.Width > 0 && study.Exceeds(GrilleFace(r, q), r.Grille.GrossArea())
}

func fittingComponent(h *house.House, b study.BranchFlow, r job.Return, f duct.Fitting, scale float64) study.ReturnComponent {
	area := job.Section(f, r)
	v := units.Speed(float64(b.Airflow) / area)
	drop := float64(f.Drop(b.Airflow, units.Area(area), h.Air))
	return study.ReturnComponent{Branch: b.Name, Name: fittingName(f), Drop: units.Pressure(drop * scale), Velocity: v,
		EquivalentLength: f.EquivalentLength(b.Airflow, units.Area(area), h.Air), Undersized: undersized(h, v, 0)}
}

// nominalSize is a size in the series of the house's nominal sizes: in inches
// or in whole millimeters.
type nominalSize struct {
	sides  []units.Length
	metric bool
}

func plainSize(h *house.House, sides ...units.Length) nominalSize {
	return nominalSize{sides, h.Limits.NominalSizes == job.MetricSizes}
}

// Show writes the sides and their unit.
func (n nominalSize) Show(l units.Locale) string {
	unit, scale, digits := "in", units.Inch, 100.0
	if n.metric {
		unit, scale, digits = "mm", units.Millimetre, 1
	}
	words := make([]string, len(n.sides))
	for i, v := range n.sides {
		words[i] = l.Mark(fmt.Sprint(math.Round(v.In(scale)*digits) / digits))
	}
	return strings.Join(words, "x") + " " + unit
}

var ductNames = map[duct.Shape]message.ID{
	duct.Round: "round duct {size}", duct.Flex: "flex duct {size}", duct.Rectangular: "rectangular duct {size}",
}

func runName(h *house.House, r duct.Run) message.Message {
	size := plainSize(h, r.Diameter)
	if r.Shape == duct.Rectangular {
		size = plainSize(h, r.Width, r.Height)
	}
	return message.New(ductNames[r.Shape], "size", size)
}

var fittingNames = map[duct.FittingKind]message.ID{
	"":                       "fitting",
	duct.BellmouthEntry:      "bellmouth entry",
	duct.FlushEntry:          "flush entry",
	duct.ReentrantEntry:      "reentrant entry",
	duct.PlenumTakeoff:       "plenum takeoff",
	duct.DischargeIntoPlenum: "discharge into plenum",
	duct.TeeBranch:           "tee branch",
	duct.WyeBranch:           "wye branch",
	duct.ElbowSmooth:         "elbow smooth",
	duct.ElbowFiveGore:       "elbow five gore",
	duct.ElbowThreeGore:      "elbow three gore",
	duct.ElbowMitredRound:    "elbow mitred round",
	duct.ElbowRectangular:    "elbow rectangular",
	duct.ElbowSplitterVane:   "elbow splitter vane",
	duct.ElbowMitred:         "elbow mitred",
	duct.ElbowMitredVanes:    "elbow mitred vanes",
	duct.AbruptContraction:   "abrupt contraction",
	duct.GradualContraction:  "gradual contraction",
	duct.AbruptExpansion:     "abrupt expansion",
	duct.GradualExpansion:    "gradual expansion",
	duct.CabinetTurn:         "cabinet turn",
	duct.CabinetTurnVanes:    "cabinet turn vanes",
	duct.BootStraight:        "boot straight",
	duct.BootSide:            "boot side",
	duct.ButterflyDamper:     "butterfly damper",
}

func fittingName(f duct.Fitting) message.Message {
	name := fittingNames[f.Kind]
	if f.Count > 1 {
		return message.New("{fittings} x {fitting}", "fittings", f.Count, "fitting", name)
	}
	return message.New(name)
}
