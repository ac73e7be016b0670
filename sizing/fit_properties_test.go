package sizing

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/search"
	"returnbench/sizing/units"
)

// drawLimited is a random house with limits on what may be put into it.
func drawLimited(t *rapid.T) Job {
	j := drawJob(t)
	inches := func(name string, low, high int) units.Length {
		if !rapid.Bool().Draw(t, name+" limited") {
			return 0
		}
		return units.Length(rapid.IntRange(low, high).Draw(t, name)) * units.Inch
	}
	l := &j.Limits
	l.WallWidth, l.WallHeight, l.StudBay = inches("wall", 12, 36), inches("wall height", 12, 36), inches("bay", 12, 24)
	l.CabinetWidth, l.CabinetHeight, l.CabinetDepth = inches("room", 14, 50), inches("room height", 14, 50), inches("room depth", 3, 9)
	l.CasingFace, l.CasingDepth = inches("casing", 1, 3), inches("casing depth", 1, 4)
	l.MinMERV = rapid.IntRange(0, 14).Draw(t, "least merv")
	if rapid.Bool().Draw(t, "drop limited") {
		l.MaxFilterDrop = units.Pressure(rapid.Float64Range(0.05, 0.3).Draw(t, "drop")) * units.InchWater
	}
	for _, set := range CheckSets() {
		if rapid.Bool().Draw(t, string(set)) {
			l.Checks = append(l.Checks, set)
		}
	}
	for i := range j.Returns {
		j.Returns[i].OpeningWidth = inches("opening", 12, 30)
		j.Returns[i].OpeningHeight = inches("opening height", 12, 30)
	}
	return j
}

// No size called fitting goes beyond a limit. All of it is worked out here again,
// in inches and feet and from the job alone.
func TestNoFittingSizeBreaksALimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawLimited(t)
		s := solveable(t, j)
		for _, z := range s.Sizes {
			if z.MeetsAll {
				if why := broken(j, s, z); why != "" {
					t.Fatalf("%s %s fits, but: %s", z.Place, z.Label, why)
				}
			}
		}
	})
}

// broken names a limit of the job that a size breaks.
func broken(j Job, s *Study, z Size) string {
	l, in := j.Limits, func(v units.Length) float64 { return v.In(units.Inch) }
	area := float64(z.Count) * in(z.Width) * in(z.Height) // in2
	cfm := s.DesignAirflow.In(units.CFM)
	fpm := cfm / (area / 144)
	drop := z.FilterDrop.In(units.InchWater)
	most := 0.2 * s.RatedExternalStatic.In(units.InchWater)
	if l.MaxFilterDrop > 0 {
		most = l.MaxFilterDrop.In(units.InchWater)
	}
	ticked := func(c CheckSet) bool { return slices.Contains(l.Checks, c) }
	tons := j.Equipment.CoolingCapacity.In(units.Ton)
	switch {
	case fpm > 1.001*s.TargetFaceVelocity.In(units.FPM):
		return "face velocity"
	case drop > most*1.0001:
		return "clean drop"
	case z.MERV < l.MinMERV || ticked(Title24) && z.MERV < 13 || ticked(ASHRAE622) && z.MERV < 6:
		return "MERV"
	case ticked(Title24) && in(z.Depth) < 1.9 && area/144 < cfm/150*0.9998:
		return "face of the energy code"
	case ticked(Title24) && in(z.Depth) < 1.9 && fpm/z.FaceVelocity.In(units.FPM) > 1 && drop > 0.1001:
		return "drop of the energy code" // at an airflow under the design airflow, so even more there
	case ticked(Title24) && z.Place == InGrille && area < tableArea(tons)*0.9998:
		return "area of the energy code's table"
	}
	if z.Place != InGrille {
		return brokenRoom(j, z)
	}
	return brokenWall(j, z)
}

// tableArea is California's table of filter grille areas by tons, in2, from
// secondary text.
func tableArea(tons float64) float64 {
	for _, row := range [][2]float64{{1.5, 500}, {2, 600}, {2.5, 800}, {3, 900}, {3.5, 1000}, {4, 1200}, {5, 1500}} {
		if tons <= row[0]+1e-9 {
			return row[1]
		}
	}
	return 0
}

func brokenRoom(j Job, z Size) string {
	l, s := j.Limits, j.Slot
	if f, named := j.Filter(s.Filter); named && s.Width == 0 {
		s.Width, s.Height, s.Depth = f.Width, f.Height, f.Depth // it is in use
	}
	if s.Width > 0 && z.Count == 1 && math.Abs(float64(s.Width-z.Width)) < 1e-6 && math.Abs(float64(s.Height-z.Height)) < 1e-6 && math.Abs(float64(s.Depth-z.Depth)) < 1e-6 {
		return "" // it stands there
	}
	open := func(v units.Length) float64 {
		if v == 0 {
			return math.Inf(1)
		}
		return v.In(units.Inch) + 0.001
	}
	face, deep := 1.5, 3.0
	if l.CasingFace > 0 {
		face = l.CasingFace.In(units.Inch)
	}
	if l.CasingDepth > 0 {
		deep = l.CasingDepth.In(units.Inch)
	}
	w, h := z.Width.In(units.Inch), z.Height.In(units.Inch)
	if z.Stacked {
		h *= float64(z.Count)
	} else {
		w *= float64(z.Count)
	}
	w, h = w+face, h+face
	roomW, roomH := open(l.CabinetWidth), open(l.CabinetHeight)
	if !(w <= roomW && h <= roomH || h <= roomW && w <= roomH) {
		return "room"
	}
	if z.Depth.In(units.Inch)+deep > open(l.CabinetDepth) {
		return "depth of the room"
	}
	return ""
}

func brokenWall(j Job, z Size) string {
	returns := j.Returns
	if len(returns) == 0 {
		returns = []Return{{}}
	}
	for _, r := range returns {
		if r.Grille.Width == z.Width && r.Grille.Height == z.Height {
			continue // it hangs there
		}
		wallW, wallH := r.OpeningWidth, r.OpeningHeight
		if wallW == 0 && wallH == 0 {
			wallW, wallH = j.Limits.WallWidth, j.Limits.WallHeight
		}
		goes := func(w, h units.Length) bool {
			return (wallW == 0 || w <= wallW+1e-5) && (wallH == 0 || h <= wallH+1e-5) && (j.Limits.StudBay == 0 || w <= j.Limits.StudBay+0.26*units.Inch)
		}
		if !goes(z.Width, z.Height) && !goes(z.Height, z.Width) {
			return "wall or studs at " + r.Name
		}
	}
	return ""
}

// What is listed of a size is what the house does once the size is an option.
func TestATakenSizeIsAsListed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawLimited(t)
		if rapid.Bool().Draw(t, "table with filter") {
			j.Equipment.Blower.Includes = append(j.Equipment.Blower.Includes, "filter")
		}
		s := solveable(t, j)
		if len(s.Sizes) == 0 {
			t.SkipNow()
		}
		z := s.Sizes[rapid.IntRange(0, len(s.Sizes)-1).Draw(t, "size")]
		name := search.AddSize(units.IP, &j, z)
		after, err := Solve(j)
		if err != nil {
			t.Fatalf("%s %s: %v", z.Place, z.Label, err)
		}
		c := after.Option(name).Clean
		for _, pair := range [][2]float64{
			{float64(z.Airflow), float64(c.Airflow)}, {float64(z.FilterDrop), float64(c.FilterDrop)},
			{float64(z.ExternalStatic), float64(c.ExternalStatic)}, {float64(z.BlowerPower), float64(c.BlowerPower)}, {float64(z.FaceVelocity), float64(c.FaceVelocity)},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*max(1, math.Abs(pair[0])) {
				t.Fatalf("%s %s: listed %v, taken %v", z.Place, z.Label, pair[0], pair[1])
			}
		}
	})
}

// One more filter of the same size in the casing never raises the drop.
func TestMoreFiltersNeverRaiseTheDrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		j.Returns = nil
		j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}
		j.Options = nil
		for n := 2; n <= job.MostInCasing; n++ {
			o := Option{Name: string(rune('0' + n)), Slot: j.Slot}
			o.Slot.Count = n
			j.Options = append(j.Options, o)
		}
		s := solveable(t, j)
		for i := 2; i < len(s.Options); i++ {
			before, after := s.Options[i-1].Clean, s.Options[i].Clean
			if after.FilterDrop > before.FilterDrop*(1+1e-9) || after.Airflow < before.Airflow*(1-1e-9) {
				t.Fatalf("%d filters: %v at %v, then %v at %v", i, before.FilterDrop, before.Airflow, after.FilterDrop, after.Airflow)
			}
		}
	})
}

// One more return never lowers the airflow.
func TestOneMoreReturnNeverLowersTheAirflow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		filtered := len(j.Returns) > 0 && j.Returns[0].Filter != ""
		if len(j.Returns) == 0 {
			j.Returns = []Return{drawReturn(t, 0, false)}
		}
		more := append(job.CloneReturns(j.Returns), drawReturn(t, 9, filtered))
		more[len(more)-1].Fittings = []duct.Fitting{{Coefficient: rapid.Float64Range(0.1, 3).Draw(t, "turns")}}
		j.Options = []Option{{Name: "more", Returns: more}}
		s := solveable(t, j)
		// A blower that holds its airflow moves by less than the search agrees to.
		if now, then := s.Today().Clean.Airflow, s.Option("more").Clean.Airflow; then < now*(1-1e-9) {
			t.Fatalf("%v, with one more return %v", now, then)
		}
	})
}
