package jobfile

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// drawHouse makes a random house of every kind of part.
func drawHouse(t *rapid.T) sizing.Job {
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	tons := between("tons", 1.5, 5)
	j := sizing.Job{Schema: sizing.Schema, Name: "drawn", DesignAirflow: units.Flow(tons*between("per ton", 330, 430)) * units.CFM}
	j.Equipment.CoolingCapacity = units.Capacity(tons) * units.Ton
	j.Equipment.Kind = rapid.SampledFrom([]sizing.EquipmentKind{sizing.FurnaceWithCoil, sizing.Furnace, sizing.AirHandler}).Draw(t, "kind")
	j.Equipment.Blower.Motor = rapid.SampledFrom(blower.Motors()).Draw(t, "motor")
	j.Site.Altitude = units.Length(between("altitude", 1, 2000))
	j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = units.Fahrenheit(between("dry", 74, 80)), units.Fahrenheit(between("wet", 60, 66))
	j.TargetFaceVelocity = units.Speed(between("target", 200, 400)) * units.FPM
	j.Supply = sizing.Part{Drop: units.Pressure(between("supply", 0.05, 0.3)) * units.InchWater, Airflow: j.DesignAirflow}
	j.Filters = []filter.Filter{
		{Name: "rated", Depth: units.Inch, MERV: 11, Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: units.Pressure(between("rating", 0.05, 0.3)) * units.InchWater}}},
		{Name: "made", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch, MERV: 8, Pleats: rapid.IntRange(20, 50).Draw(t, "pleats"),
			MediaResistance: units.MediaResistance(between("media", 20, 90))},
	}
	j.Slot = sizing.Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "rated", Gap: units.Length(between("gap", 0.1, 3)) * units.Millimetre}
	for i := range rapid.IntRange(1, 2).Draw(t, "branches") {
		at := func(name string) string { return fmt.Sprintf("%s %d", name, i) }
		j.Returns = append(j.Returns, sizing.Return{Name: at("room"),
			Grille: duct.Grille{Width: units.Length(between(at("w"), 12, 24)) * units.Inch, Height: units.Length(between(at("h"), 14, 30)) * units.Inch},
			Runs: []duct.Run{
				{Shape: duct.Flex, Diameter: units.Length(between(at("d"), 10, 20)) * units.Inch, Length: units.Length(between(at("l"), 3, 40)) * units.Foot, Compression: 0.1},
				{Shape: duct.Rectangular, Width: units.Length(between(at("a"), 8, 20)) * units.Inch, Height: units.Length(between(at("b"), 8, 20)) * units.Inch, Length: units.Length(between(at("m"), 1, 10)) * units.Metre},
			},
			Fittings: []duct.Fitting{{Kind: duct.ElbowMitred, Angle: 60}}})
	}
	j.Options = []sizing.Option{{Name: "cabinet", Price: 400, Slot: sizing.Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 5 * units.Inch, Filter: "made"}}}
	j.Readings = []sizing.Reading{{Label: "first", ReturnPlenum: units.Pressure(-between("plenum", 0.05, 0.3)) * units.InchWater,
		FilterDrop: units.Pressure(between("drop", 0.1, 0.4)) * units.InchWater, Airflow: units.Flow(tons*between("read", 300, 400)) * units.CFM}}
	return j
}

// through writes the job with every quantity in the usual unit of a system,
// reads it back and solves it.
func through(t *rapid.T, j sizing.Job, sys units.Locale) *sizing.Study {
	text, err := json.Marshal(j, json.WithMarshalers(json.MarshalToFunc(func(e *jsontext.Encoder, q units.Quantity) error {
		return e.WriteToken(jsontext.String(q.Kind().TextIn(q.SI(), sys)))
	})))
	require.NoError(t, err)
	back, err := Read(text)
	require.NoError(t, err)
	s, err := sizing.Solve(back)
	require.NoError(t, err)
	return s
}

// The units in which a house is typed change nothing of its study.
func TestUnitSystemChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawHouse(t)
		ip, si := through(t, j, units.IP), through(t, j, units.SI)
		alike(t, "study", reflect.ValueOf(*ip), reflect.ValueOf(*si))
	})
}

var printed = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// alike holds two values together: numbers to a part in a million, finer than
// any screen or page prints them, all else as it is.
func alike(t *rapid.T, path string, a, b reflect.Value) {
	switch a.Kind() {
	case reflect.Float64:
		x, y := a.Float(), b.Float()
		if math.Abs(x-y) <= 1e-6*math.Max(math.Abs(x), math.Abs(y))+1e-9 {
			return
		}
		t.Fatalf("%s: %g typed in one system, %g in the other", path, x, y)
	case reflect.Struct:
		for i := range a.NumField() {
			if f := a.Type().Field(i); f.IsExported() {
				alike(t, path+"."+f.Name, a.Field(i), b.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			t.Fatalf("%s: %d typed in one system, %d in the other", path, a.Len(), b.Len())
		}
		for i := range a.Len() {
			alike(t, fmt.Sprintf("%s[%d]", path, i), a.Index(i), b.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		if a.IsNil() != b.IsNil() {
			t.Fatalf("%s: there in one system alone", path)
		}
		if !a.IsNil() {
			alike(t, path, a.Elem(), b.Elem())
		}
	case reflect.String:
		// A number half way between two roundings may be printed either way.
		if x, y := printed.ReplaceAllString(a.String(), "#"), printed.ReplaceAllString(b.String(), "#"); x != y {
			t.Fatalf("%s: %q typed in one system, %q in the other", path, x, y)
		}
	default:
		if !reflect.DeepEqual(a.Interface(), b.Interface()) {
			t.Fatalf("%s: %v typed in one system, %v in the other", path, a, b)
		}
	}
}
