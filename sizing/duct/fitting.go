package duct

import (
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// The library of fittings. Coefficients apply to the velocity pressure at the
// fitting's section; for a change of area that is the smaller section.
const (
	BellmouthEntry      FittingKind = "bellmouth_entry"
	FlushEntry          FittingKind = "flush_entry"
	ReentrantEntry      FittingKind = "reentrant_entry"
	PlenumTakeoff       FittingKind = "plenum_takeoff"
	DischargeIntoPlenum FittingKind = "discharge_into_plenum"
	TeeBranch           FittingKind = "tee_branch"
	WyeBranch           FittingKind = "wye_branch"
	ElbowSmooth         FittingKind = "elbow_smooth"
	ElbowFiveGore       FittingKind = "elbow_five_gore"
	ElbowThreeGore      FittingKind = "elbow_three_gore"
	ElbowMitredRound    FittingKind = "elbow_mitred_round"
	ElbowRectangular    FittingKind = "elbow_rectangular"
	ElbowSplitterVane   FittingKind = "elbow_splitter_vane"
	ElbowMitred         FittingKind = "elbow_mitred"
	ElbowMitredVanes    FittingKind = "elbow_mitred_vanes"
	AbruptContraction   FittingKind = "abrupt_contraction"
	GradualContraction  FittingKind = "gradual_contraction"
	AbruptExpansion     FittingKind = "abrupt_expansion"
	GradualExpansion    FittingKind = "gradual_expansion"
	CabinetTurn         FittingKind = "cabinet_turn"
	CabinetTurnVanes    FittingKind = "cabinet_turn_vanes"
	BootStraight        FittingKind = "boot_straight"
	BootSide            FittingKind = "boot_side"
	ButterflyDamper     FittingKind = "butterfly_damper"
)

// squareSection is the aspect of a rectangular fitting that gives no sides.
const squareSection = 1.0

// FittingGroup gathers kinds for lists.
type FittingGroup string

const (
	Entries     FittingGroup = "entries"
	Elbows      FittingGroup = "elbows"
	Branches    FittingGroup = "branches"
	AreaChanges FittingGroup = "area changes"
	Cabinet     FittingGroup = "under the cabinet"
	Boots       FittingGroup = "boots"
	Dampers     FittingGroup = "dampers"
)

// FittingInfo is one row of the library.
type FittingInfo struct {
	Kind  FittingKind
	Group FittingGroup
	Title message.ID
	// Needs are the file names of the fields that the coefficient depends on.
	Needs      []string
	Parameters []FittingParameter
	Source     message.ID
}

// FittingParameter is a field that a coefficient depends on.
type FittingParameter struct {
	Name string // the field's name in a file: radius_ratio, angle, area_ratio
	// Typical is taken when the field is left open; zero: it must be given,
	// unless Least is zero too.
	Typical     float64
	Least, Most float64 // the range that may be typed, in the field's unit
}

// Required reports whether the field may not be left open.
func (p FittingParameter) Required() bool { return p.Typical == 0 && p.Least > 0 }

// Fittings is the library, in the order of its lists.
func Fittings() []FittingInfo {
	rows := make([]FittingInfo, len(library))
	for i, row := range library {
		rows[i] = row.FittingInfo
		rows[i].Parameters = append([]FittingParameter(nil), row.Parameters...)
		for _, p := range row.Parameters {
			rows[i].Needs = append(rows[i].Needs, p.Name)
		}
		if row.aspect {
			rows[i].Needs = append(rows[i].Needs, "width", "height")
		}
	}
	return rows
}

// geometry is a fitting with nothing left open.
type geometry struct{ radiusRatio, angle, areaRatio, aspect float64 }

type libraryRow struct {
	FittingInfo
	aspect bool // depends on height / width
	loss   func(geometry) float64
}

// LossCoefficient is zeta of one such fitting, on the velocity pressure at its
// section, and where it is from. An entered coefficient replaces it. A radius
// ratio or an aspect past the end of its table is taken at the end, and the
// source states that; any other value outside the table is an error, as is an
// unknown kind or a missing field.
func (f Fitting) LossCoefficient() (zeta float64, source message.Rows, err error) {
	source.Mark = "; "
	if zeta, err = f.loss(&source); err != nil {
		source = message.Rows{}
	}
	return zeta, source, err
}

// Loss is the coefficient without its source.
func (f Fitting) Loss() (float64, error) { return f.loss(nil) }

// loss notes the source where it is not nil.
func (f Fitting) loss(source *message.Rows) (float64, error) {
	if f.Coefficient != 0 {
		if !(f.Coefficient > 0) || math.IsInf(f.Coefficient, 0) {
			return 0, message.Errorf("loss coefficient {coefficient}: want one above zero", "coefficient", f.Coefficient)
		}
		if source != nil {
			source.Items = append(source.Items, message.ID("as entered"))
		}
		return f.Coefficient, nil
	}
	row, err := f.row()
	if err != nil {
		return 0, err
	}
	if source != nil {
		source.Items = append(source.Items, row.Source)
	}
	g := geometry{aspect: squareSection}
	for _, p := range row.Parameters {
		v, usual, err := f.value(p)
		if err != nil {
			return 0, message.Errorf("{kind}: {why}", "kind", string(row.Kind), "why", err)
		}
		if source != nil && !usual.Empty() {
			source.Items = append(source.Items, usual)
		}
		switch p.Name {
		case "radius_ratio":
			g.radiusRatio = v
		case "angle":
			g.angle = v
		case "area_ratio":
			g.areaRatio = v
		}
	}
	if row.aspect && f.Width > 0 && f.Height > 0 {
		g.aspect = float64(f.Height) / float64(f.Width)
		if clamped := min(max(g.aspect, aspects[0]), aspects[len(aspects)-1]); clamped != g.aspect {
			if source != nil {
				source.Items = append(source.Items, message.New("height / width {aspect} taken at {end}, the end of the table",
					"aspect", threeFigures(g.aspect), "end", clamped))
			}
			g.aspect = clamped
		}
	}
	return row.loss(g), nil
}

func threeFigures(v float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return v
	}
	return rounded
}

func (f Fitting) row() (*libraryRow, error) {
	for i := range library {
		if library[i].Kind == f.Kind {
			return &library[i], nil
		}
	}
	names := make([]string, len(library))
	for i, row := range library {
		names[i] = string(row.Kind)
	}
	return nil, message.Errorf("fitting kind {kind}: want one of {kinds}, or a loss coefficient",
		"kind", strconv.Quote(string(f.Kind)), "kinds", strings.Join(names, ", "))
}

// Show is the title of the kind; for a kind that the library lacks, its own
// word.
func (k FittingKind) Show(l units.Locale) string {
	if row, err := (Fitting{Kind: k}).row(); err == nil {
		return message.Text(l, row.Title)
	}
	return string(k)
}

// Group is the fitting's place in the library; empty for a kind that is not in it.
func (f Fitting) Group() FittingGroup {
	row, err := f.row()
	if err != nil {
		return ""
	}
	return row.Group
}

// value is what the fitting gives for a parameter, or the typical one.
func (f Fitting) value(p FittingParameter) (v float64, note message.Message, err error) {
	switch p.Name {
	case "radius_ratio":
		v = f.RadiusRatio
	case "angle":
		v = f.Angle
	case "area_ratio":
		v = f.AreaRatio
	}
	if v == 0 {
		if p.Required() {
			return 0, note, message.Errorf("{parameter} is missing: want one from {least} to {most}", "parameter", p.Name, "least", p.Least, "most", p.Most)
		}
		return p.Typical, message.New("{parameter} {value} assumed", "parameter", p.Name, "value", p.Typical), nil
	}
	if p.Name == "radius_ratio" && v > p.Most {
		return p.Most, message.New("radius_ratio {ratio} taken at {end}, the end of the table", "ratio", v, "end", p.Most), nil
	}
	if !(v >= p.Least && v <= p.Most) {
		return 0, note, message.Errorf("{parameter} {value}: want one from {least} to {most}", "parameter", p.Name, "value", v, "least", p.Least, "most", p.Most)
	}
	return v, note, nil
}

// Section is the area whose velocity counts: the fitting's own where it gives
// one, else that of the branch.
func (f Fitting) Section(branch units.Area) units.Area {
	switch {
	case f.Diameter > 0:
		return circle(f.Diameter)
	case f.Width > 0 && f.Height > 0:
		return units.Area(float64(f.Width) * float64(f.Height))
	}
	return branch
}

// Number of fittings: Count, or 1 where it is left open.
func (f Fitting) Number() int {
	if f.Count == 0 {
		return 1
	}
	return f.Count
}

// QuadraticCoefficient is c of dp = c q |q| in Pa per (m3/s)^2, all Count
// fittings together: c = n zeta rho/(2 A^2).
func (f Fitting) QuadraticCoefficient(branch units.Area, a air.Properties) (float64, error) {
	zeta, _, err := f.LossCoefficient()
	if err != nil {
		return 0, err
	}
	section := float64(f.Section(branch))
	if !(section > 0) {
		return 0, message.Errorf("fitting {kind}: no section given whose velocity counts", "kind", string(f.Kind))
	}
	if f.Count < 0 {
		return 0, message.Errorf("fitting {kind}: count {number}, want one above zero", "kind", string(f.Kind), "number", f.Count)
	}
	return float64(f.Number()) * zeta * float64(a.Density) / (2 * section * section), nil
}

// Drop is n zeta rho V^2/2, Pa, with the sign of q, over all Count fittings;
// zeta and its source are those of LossCoefficient; branch is the section used
// where the fitting gives none. It is NaN where QuadraticCoefficient returns an
// error.
func (f Fitting) Drop(q units.Flow, branch units.Area, a air.Properties) units.Pressure {
	c, err := f.QuadraticCoefficient(branch, a)
	if err != nil {
		return units.Pressure(math.NaN())
	}
	return units.Pressure(c * float64(q) * math.Abs(float64(q)))
}
