package duct

import "math"

const (
	handbook = "ASHRAE Fundamentals duct fitting tables, from memory"
	idelchik = "Idelchik, from memory"
	borda    = "Borda-Carnot, textbook"
	textbook = "textbook formula for a change of pipe area, from memory"
	practice = "common practice, no source"
)

func radius(typical, least, most float64) FittingParameter {
	return FittingParameter{Name: "radius_ratio", Typical: typical, Least: least, Most: most}
}

func angle(typical, least, most float64) FittingParameter {
	return FittingParameter{Name: "angle", Typical: typical, Least: least, Most: most}
}

var areaRatio = FittingParameter{Name: "area_ratio", Least: 0.01, Most: 1}

func always(zeta float64) func(geometry) float64 {
	return func(geometry) float64 { return zeta }
}

// byRadius is a 90-degree elbow's table by r/D, times the factor for its angle.
func byRadius(ratios, zetas []float64) func(geometry) float64 {
	return func(g geometry) float64 { return interpolate(ratios, zetas, g.radiusRatio) * angleFactor(g.angle) }
}

func byAngle(angles, zetas []float64) func(geometry) float64 {
	return func(g geometry) float64 { return interpolate(angles, zetas, g.angle) }
}

// aspects are the columns, height / width, of the rectangular elbows; height is
// the side parallel to the axis of the bend.
var aspects = []float64{0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8}

var library = [...]libraryRow{
	{FittingInfo{Kind: FlushEntry, Group: Entries, Title: "Entry flush with a wall, sharp edge", Source: "Idelchik, diagram 3-1, from memory"}, false, always(0.5)},
	{FittingInfo{Kind: ReentrantEntry, Group: Entries, Title: "Entry of a duct that stands out of the wall, thin edge", Source: "Idelchik, diagram 3-1, from memory"}, false, always(1.0)},
	{FittingInfo{Kind: BellmouthEntry, Group: Entries, Title: "Entry through a bell mouth in a wall", Parameters: []FittingParameter{radius(0.2, 0.01, 0.2)}, Source: handbook}, false,
		func(g geometry) float64 {
			return interpolate(
				[]float64{0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.10, 0.12, 0.16, 0.20},
				[]float64{0.50, 0.43, 0.36, 0.31, 0.26, 0.22, 0.20, 0.15, 0.12, 0.09, 0.06, 0.03}, g.radiusRatio)
		}},

	{FittingInfo{Kind: ElbowSmooth, Group: Elbows, Title: "Round elbow, smooth", Parameters: []FittingParameter{radius(1.5, 0.5, 2.5), angle(90, 1, 180)}, Source: handbook}, false,
		byRadius([]float64{0.5, 0.75, 1, 1.5, 2, 2.5}, []float64{0.71, 0.33, 0.22, 0.15, 0.13, 0.12})},
	{FittingInfo{Kind: ElbowFiveGore, Group: Elbows, Title: "Round elbow of five gores", Parameters: []FittingParameter{radius(1.5, 0.75, 2), angle(90, 1, 180)}, Source: handbook}, false,
		byRadius([]float64{0.75, 1, 1.5, 2}, []float64{0.46, 0.33, 0.24, 0.19})},
	{FittingInfo{Kind: ElbowThreeGore, Group: Elbows, Title: "Round elbow of three gores", Parameters: []FittingParameter{radius(1.5, 0.75, 2), angle(90, 1, 180)}, Source: handbook}, false,
		byRadius([]float64{0.75, 1, 1.5, 2}, []float64{0.54, 0.42, 0.34, 0.33})},
	{FittingInfo{Kind: ElbowMitredRound, Group: Elbows, Title: "Round elbow, mitred", Parameters: []FittingParameter{angle(90, 1, 90)}, Source: handbook}, false,
		byAngle([]float64{0, 20, 30, 45, 60, 75, 90}, []float64{0, 0.08, 0.16, 0.34, 0.55, 0.81, 1.2})},
	{FittingInfo{Kind: ElbowRectangular, Group: Elbows, Title: "Rectangular elbow on a radius, no vanes", Parameters: []FittingParameter{radius(1, 0.5, 2), angle(90, 1, 180)}, Source: handbook}, true,
		func(g geometry) float64 {
			return interpolate2([]float64{0.5, 0.75, 1, 1.5, 2}, radiusElbow, g.radiusRatio, g.aspect) * angleFactor(g.angle)
		}},
	{FittingInfo{Kind: ElbowSplitterVane, Group: Elbows, Title: "Rectangular elbow on a radius, one splitter vane (square section)", Parameters: []FittingParameter{radius(0.75, 0.55, 1), angle(90, 1, 180)}, Source: handbook}, false,
		byRadius([]float64{0.55, 0.60, 0.65, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.0}, []float64{0.43, 0.25, 0.18, 0.14, 0.11, 0.09, 0.08, 0.07, 0.06, 0.05})},
	{FittingInfo{Kind: ElbowMitred, Group: Elbows, Title: "Rectangular elbow, mitred, no vanes", Parameters: []FittingParameter{angle(90, 1, 90)}, Source: handbook}, true,
		func(g geometry) float64 {
			return interpolate2([]float64{0, 20, 30, 45, 60, 75, 90}, mitredElbow, g.angle, g.aspect)
		}},
	{FittingInfo{Kind: ElbowMitredVanes, Group: Elbows, Title: "Rectangular elbow, square, with single-thickness turning vanes", Source: handbook + ": 0.11 to 0.33 by vane radius and spacing, 0.18 taken"}, false, always(0.18)},

	{FittingInfo{Kind: PlenumTakeoff, Group: Branches, Title: "Duct leaving a plenum, straight collar", Source: "Idelchik, diagram 3-1 (sharp flush entry), from memory"}, false, always(0.5)},
	{FittingInfo{Kind: DischargeIntoPlenum, Group: Branches, Title: "Duct emptying into a plenum", Source: borda + ": all the velocity pressure is lost"}, false, always(1.0)},
	{FittingInfo{Kind: TeeBranch, Group: Branches, Title: "Tee, air turning in from the side, equal sections", Source: "Idelchik, diagram 7-4 at the limit where all the air comes by the branch, from memory"}, false, always(1.1)},
	{FittingInfo{Kind: WyeBranch, Group: Branches, Title: "45-degree branch, air joining from it, equal sections", Source: "Idelchik, diagram 7-2 at the limit where all the air comes by the branch, from memory"}, false, always(0.33)},

	{FittingInfo{Kind: AbruptContraction, Group: AreaChanges, Title: "Abrupt contraction", Parameters: []FittingParameter{areaRatio}, Source: textbook}, false,
		func(g geometry) float64 { return contraction(g.areaRatio, 180) }},
	{FittingInfo{Kind: GradualContraction, Group: AreaChanges, Title: "Gradual contraction (angle between opposite sides)", Parameters: []FittingParameter{areaRatio, angle(30, 1, 180)}, Source: textbook}, false,
		func(g geometry) float64 { return contraction(g.areaRatio, g.angle) }},
	{FittingInfo{Kind: AbruptExpansion, Group: AreaChanges, Title: "Abrupt expansion", Parameters: []FittingParameter{areaRatio}, Source: borda}, false,
		func(g geometry) float64 { return expansion(g.areaRatio, 180) }},
	{FittingInfo{Kind: GradualExpansion, Group: AreaChanges, Title: "Gradual expansion (angle between opposite sides)", Parameters: []FittingParameter{areaRatio, angle(30, 1, 180)}, Source: textbook}, false,
		func(g geometry) float64 { return expansion(g.areaRatio, g.angle) }},

	{FittingInfo{Kind: CabinetTurn, Group: Cabinet, Title: "Turn of the return drop under the cabinet, square, no vanes", Source: "taken as a square rectangular elbow without vanes; " + handbook}, false, always(1.2)},
	{FittingInfo{Kind: CabinetTurnVanes, Group: Cabinet, Title: "Turn of the return drop under the cabinet, with turning vanes", Source: "taken as the worst vaned square elbow, since the turn is short; " + handbook}, false, always(0.33)},

	{FittingInfo{Kind: BootStraight, Group: Boots, Title: "Box behind a grille, duct leaving at the back", Source: "taken as a sharp flush entry; " + idelchik}, false, always(0.5)},
	{FittingInfo{Kind: BootSide, Group: Boots, Title: "Box behind a grille, duct leaving at the side", Source: "a turn and a sharp entry; " + practice}, false, always(1.5)},

	{FittingInfo{Kind: ButterflyDamper, Group: Dampers, Title: "Butterfly damper (angle from fully open)", Parameters: []FittingParameter{angle(0, 0, 60)}, Source: handbook}, false,
		byAngle([]float64{0, 10, 20, 30, 40, 50, 60}, []float64{0.20, 0.52, 1.5, 4.5, 11, 29, 108})},
}

// radiusElbow: rows r/W 0.5, 0.75, 1, 1.5, 2; columns height / width.
var radiusElbow = [][]float64{
	{1.5, 1.4, 1.3, 1.2, 1.1, 1.0, 1.0, 1.1, 1.1, 1.2, 1.2},
	{0.57, 0.52, 0.48, 0.44, 0.40, 0.39, 0.39, 0.40, 0.42, 0.43, 0.44},
	{0.27, 0.25, 0.23, 0.21, 0.19, 0.18, 0.18, 0.19, 0.20, 0.21, 0.21},
	{0.22, 0.20, 0.19, 0.17, 0.15, 0.14, 0.14, 0.15, 0.16, 0.17, 0.17},
	{0.20, 0.18, 0.16, 0.15, 0.14, 0.13, 0.13, 0.14, 0.14, 0.15, 0.15},
}

// mitredElbow: rows 0, 20, 30, 45, 60, 75, 90 degrees; columns height / width.
var mitredElbow = [][]float64{
	{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0},
	{0.08, 0.08, 0.08, 0.07, 0.07, 0.07, 0.06, 0.06, 0.05, 0.05, 0.05},
	{0.18, 0.17, 0.17, 0.16, 0.15, 0.15, 0.13, 0.13, 0.12, 0.12, 0.11},
	{0.38, 0.37, 0.36, 0.34, 0.33, 0.31, 0.28, 0.27, 0.26, 0.25, 0.24},
	{0.60, 0.59, 0.57, 0.55, 0.52, 0.49, 0.46, 0.43, 0.41, 0.39, 0.38},
	{0.89, 0.87, 0.84, 0.81, 0.77, 0.73, 0.67, 0.63, 0.61, 0.58, 0.57},
	{1.3, 1.3, 1.2, 1.2, 1.1, 1.1, 0.98, 0.92, 0.89, 0.85, 0.83},
}

// angleFactor is the loss of an elbow of another angle over that of a 90-degree
// elbow. Source: ASHRAE Fundamentals duct fitting tables, from memory.
func angleFactor(degrees float64) float64 {
	return interpolate(
		[]float64{0, 20, 30, 45, 60, 75, 90, 110, 130, 150, 180},
		[]float64{0, 0.31, 0.45, 0.60, 0.78, 0.90, 1.00, 1.13, 1.20, 1.28, 1.40}, degrees)
}

// expansion is zeta on the velocity of the smaller section, n the area ratio and
// a the angle between opposite sides:
//
//	(1 - n)^2              abrupt, and a gradual one of over 45 degrees
//	2.6 sin(a/2) (1 - n)^2 gradual, up to 45 degrees
//
// Source: Borda-Carnot; Gibson's factor in the form of the pipe-flow textbooks,
// from memory.
func expansion(n, degrees float64) float64 {
	abrupt := (1 - n) * (1 - n)
	return abrupt * min(1, 2.6*math.Sin(min(degrees, 180)*math.Pi/360))
}

// contraction is zeta on the velocity of the smaller section:
//
//	0.5 (1 - n) sqrt(sin(a/2))  over 45 degrees; abrupt at 180
//	0.8 sin(a/2) (1 - n)        up to 45 degrees
//
// Source: pipe-flow textbooks, from memory. The two differ by 1 % at 45 degrees.
func contraction(n, degrees float64) float64 {
	half := math.Sin(degrees * math.Pi / 360)
	if degrees <= 45 {
		return 0.8 * half * (1 - n)
	}
	return 0.5 * (1 - n) * math.Sqrt(half)
}

// interpolate reads a table in straight lines; outside it the nearer end.
func interpolate(xs, ys []float64, x float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
		}
	}
	return ys[len(ys)-1]
}

// interpolate2 reads a table whose columns are the aspects.
func interpolate2(xs []float64, rows [][]float64, x, aspect float64) float64 {
	column := make([]float64, len(rows))
	for i, row := range rows {
		column[i] = interpolate(aspects, row, aspect)
	}
	return interpolate(xs, column, x)
}
