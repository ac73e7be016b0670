package sizing

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/judge"
	"returnbench/sizing/units"
)

// drawJob makes a random valid house, from nearly empty to fully described.
func drawJob(t *rapid.T) Job {
	maybe := func(name string) bool { return rapid.Bool().Draw(t, name) }
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	tons := between("tons", 1.5, 5)
	j := Job{Schema: Schema, Equipment: Equipment{CoolingCapacity: units.Capacity(tons) * units.Ton}}
	j.Equipment.Kind = rapid.SampledFrom([]EquipmentKind{"", FurnaceWithCoil, Furnace, AirHandler}).Draw(t, "kind")
	j.Equipment.Blower.Motor = rapid.SampledFrom([]blower.Motor{"", blower.PSC, blower.ConstantTorque, blower.ConstantAirflow}).Draw(t, "motor")
	if maybe("airflow given") {
		j.DesignAirflow = units.Flow(tons*between("per ton", 300, 450)) * units.CFM
	}
	if maybe("altitude") {
		j.Site.Altitude = units.Length(between("metres", 0, 2500))
	}
	if maybe("target") {
		j.TargetFaceVelocity = units.Speed(between("fpm", 120, 500)) * units.FPM
	}
	if maybe("supply given") {
		j.Supply.Drop = units.Pressure(between("supply", 0.03, 0.4)) * units.InchWater
	}
	f := filter.Filter{Name: "own", Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: rapid.IntRange(1, 16).Draw(t, "merv")}
	switch rapid.IntRange(0, 2).Draw(t, "filter kind") {
	case 1:
		drop := units.Pressure(between("rating", 0.05, 0.4)) * units.InchWater
		f.Rating = []filter.RatingPoint{{FaceVelocity: 295 * units.FPM, Drop: drop}, {FaceVelocity: 492 * units.FPM, Drop: units.Pressure(between("steeper", 1.7, 2.7)) * drop}}
	case 2:
		f.Pleats = rapid.IntRange(8, 60).Draw(t, "pleats")
		f.MediaResistance = units.MediaResistance(between("media", 10, 120))
	}
	j.Filters = []filter.Filter{f}
	if n := rapid.IntRange(0, 3).Draw(t, "branches"); n > 0 {
		inGrilles := maybe("filters in grilles")
		for i := range n {
			j.Returns = append(j.Returns, drawReturn(t, i, inGrilles))
		}
	} else {
		j.Slot.Filter = "own"
		if maybe("gap") {
			j.Slot.Gap = units.Length(between("gap mm", 0.2, 6)) * units.Millimetre
		}
	}
	if maybe("option") {
		j.Options = []Option{{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, Filter: "own"}}}
	}
	return j
}

func drawReturn(t *rapid.T, i int, filtered bool) Return {
	at := func(name string) string { return fmt.Sprintf("%s %d", name, i) }
	r := Return{Name: fmt.Sprintf("room %d", i)}
	r.Grille = duct.Grille{Width: units.Length(rapid.IntRange(10, 24).Draw(t, at("w"))) * units.Inch, Height: units.Length(rapid.IntRange(12, 30).Draw(t, at("h"))) * units.Inch}
	if filtered {
		r.Filter = "own"
	}
	run := duct.Run{Shape: duct.Round, Diameter: units.Length(rapid.IntRange(8, 20).Draw(t, at("d"))) * units.Inch, Length: units.Length(rapid.Float64Range(2, 40).Draw(t, at("l"))) * units.Foot}
	if rapid.Bool().Draw(t, at("flex")) {
		run.Shape, run.Compression = duct.Flex, rapid.Float64Range(0, 0.3).Draw(t, at("c"))
	}
	r.Runs = []duct.Run{run}
	return r
}

// solveable drops the rare house whose parts cannot be built (pleats too close,
// say), which Solve refuses with a fault.
func solveable(t *rapid.T, j Job) *Study {
	s, err := Solve(j)
	if err != nil {
		t.SkipNow()
	}
	return s
}

func TestStudyIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := solveable(t, drawJob(t))
		s.Deferred = nil
		finite(t, "study", reflect.ValueOf(*s))
	})
}

func finite(t *rapid.T, path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			t.Fatalf("%s is %v", path, f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				finite(t, path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			finite(t, path, v.Elem())
		}
	}
}

func TestBalanceHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := solveable(t, drawJob(t))
		for _, o := range s.Options {
			for _, c := range []Condition{o.Clean, o.Loaded} {
				if math.Abs(c.Residual) > 1e-6 {
					t.Fatalf("%s: residual %g", o.Name, c.Residual)
				}
				var sum, flow float64
				for _, p := range c.Parts {
					sum += float64(p.Drop)
				}
				if math.Abs(sum-float64(c.ExternalStatic)) > 1e-9*float64(c.ExternalStatic) {
					t.Fatalf("%s: parts make %g of %g Pa", o.Name, sum, float64(c.ExternalStatic))
				}
				for _, b := range c.Branches {
					flow += float64(b.Airflow)
				}
				if len(c.Branches) > 0 && math.Abs(flow-float64(c.Airflow)) > 1e-9*float64(c.Airflow) {
					t.Fatalf("%s: branches make %g of %g m3/s", o.Name, flow, float64(c.Airflow))
				}
			}
		}
	})
}

func TestDirtyNeverBeatsClean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := solveable(t, drawJob(t))
		for _, o := range s.Options {
			if o.Loaded.Airflow > o.Clean.Airflow*(1+1e-9) {
				t.Fatalf("%s: loaded %v, clean %v", o.Name, o.Loaded.Airflow, o.Clean.Airflow)
			}
			for _, leak := range []float64{o.LeakFraction, o.Clean.LeakFraction, o.Loaded.LeakFraction} {
				if leak < 0 || leak > 1 {
					t.Fatalf("%s: leak %g", o.Name, leak)
				}
			}
		}
	})
}

// Any part made tighter never raises the airflow of a blower of fixed speed, of
// any motor, in cooling or heating, clean or loaded.
func TestChokingNeverHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		j.Supply.Drop = 0.1 * units.InchWater
		j.Coil.Drop = 0.15 * units.InchWater
		j.Slot.EntryCoefficient = 0.5
		before := solveable(t, j).Today()
		switch choke := rapid.IntRange(0, 6).Draw(t, "choke"); {
		case choke == 0:
			j.Supply.Drop *= 1.5
		case choke == 1:
			j.Coil.Drop *= 1.5
		case choke == 2:
			j.Slot.EntryCoefficient *= 3
		case len(j.Returns) == 0:
			t.SkipNow()
		case choke == 3:
			j.Returns[0].Runs[0].Length *= 2
		case choke == 4:
			j.Returns[0].Grille.FreeArea = 0.3
		case choke == 5:
			j.Returns[0].Runs[0].Diameter *= 0.8
		case choke == 6:
			j.Returns[0].Fittings = append(j.Returns[0].Fittings, duct.Fitting{Kind: duct.ElbowMitredRound, Count: 2})
		}
		after := solveable(t, j).Today()
		for _, c := range []struct {
			name          string
			before, after units.Flow
		}{
			{"clean", before.Clean.Airflow, after.Clean.Airflow},
			{"in heating", before.Clean.HeatingAirflow, after.Clean.HeatingAirflow},
		} {
			if c.after > c.before*(1+1e-7) {
				t.Fatalf("%s: choked %v, before %v", c.name, c.after, c.before)
			}
		}
	})
}

// More media in the same face, of the same make, never raises the drop as long
// as the pleats stay apart: short of the optimum count, which pleats 19 mm deep
// with media of 40 Pa s/m and more keep to about 50 in 20 in.
func TestMoreMediaNeverRaisesTheDrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		f := filter.Filter{Name: "f", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: 8,
			MediaResistance: units.MediaResistance(draw("media", 40, 120)), MediaArea: units.Area(draw("area", 5, 8)) * units.SquareFoot}
		at := func(f filter.Filter) *Study {
			j := least()
			j.Filters = []filter.Filter{f}
			j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "f"}
			return solveable(t, j)
		}
		small := at(f)
		f.MediaArea *= units.Area(draw("more", 1.05, 1.4))
		large := at(f)
		if large.Today().MediaArea <= small.Today().MediaArea {
			t.Fatalf("media %v, then %v", small.Today().MediaArea, large.Today().MediaArea)
		}
		for i, p := range small.Today().FilterCurve {
			if q := large.Today().FilterCurve[i]; q.Drop > p.Drop*(1+1e-6) {
				t.Fatalf("at %v the drop rose from %v to %v with more media", p.FaceVelocity, p.Drop, q.Drop)
			}
		}
	})
}

func TestMoreFaceNeverRaisesTheDrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		j.Returns, j.Slot.Gap = nil, 0
		j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}
		small := solveable(t, j)
		j.Slot.Height = 30 * units.Inch
		large := solveable(t, j)
		at := func(s *Study) (units.Pressure, bool) {
			return judge.DropAt(s.Today().FilterCurve, units.Speed(float64(s.DesignAirflow)/float64(s.Today().FaceArea)))
		}
		a, known := at(small)
		b, _ := at(large)
		if known && b > a*(1+1e-9) {
			t.Fatalf("drop at the design airflow rose from %v to %v with more face", a, b)
		}
	})
}

func TestCloneSharesNothing(t *testing.T) {
	j := twoReturns()
	c := j.Clone()
	require.Equal(t, j, c)
	c.Returns[0].Runs[0].Length = 1
	c.Filters[0].Name = "changed"
	assert.NotEqual(t, j.Returns[0].Runs[0].Length, c.Returns[0].Runs[0].Length)
	assert.NotEqual(t, j.Filters[0].Name, c.Filters[0].Name)
}
