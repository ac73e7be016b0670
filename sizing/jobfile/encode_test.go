package jobfile

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// TestEncode_AsTyped_Identity: what a person typed comes back as he typed it.
func TestEncode_AsTyped_Identity(t *testing.T) {
	text := `{
  "schema": 1,
  "name": "Elm",
  "site": {
    "indoor_dry_bulb": "24 C",
    "power_price": "0.17 $/kWh",
    "cooling_hours": "900 h"
  },
  "equipment": {
    "kind": "furnace_with_coil",
    "cooling_capacity": "10.5 kW",
    "heating_output": "64000 Btu/h",
    "rise_low": "35 F",
    "blower": {
      "taps": [
        {
          "name": "high",
          "points": [
            {
              "external_static": "0.1 in. w.c.",
              "airflow": "566 L/s",
              "power": "450 W"
            }
          ]
        }
      ]
    }
  },
  "design_airflow": "2038 m3/h",
  "target_face_velocity": "1.5 m/s",
  "slot": {
    "width": "405 mm",
    "height": "25 in",
    "gap": "1.5 mm"
  },
  "coil": {
    "drop": "62 Pa"
  }
}
`
	job, err := Decode([]byte(text))
	require.NoError(t, err)
	out, err := Encode(job)
	require.NoError(t, err)
	require.Equal(t, text, string(out))
}

func TestEncode_NotANumber_Identity(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		_, err := Encode(sizing.Job{DesignAirflow: units.Flow(v)})
		require.ErrorContains(t, err, "airflow")
		_, err = Encode(sizing.Job{Equipment: sizing.Equipment{SensibleHeatRatio: v}})
		require.Error(t, err)
	}
}

// TestRoundTrip_Identity: any job comes back bit for bit.
func TestRoundTrip_Identity(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var job sizing.Job
		draw(rt, reflect.ValueOf(&job).Elem(), fieldpath.Field{Required: true}, "job")
		job.Schema = sizing.Schema
		text, err := Encode(job)
		require.NoError(rt, err)
		back, err := Decode(text)
		require.NoError(rt, err, "%s", text)
		require.Equal(rt, job, back)
		again, err := Encode(back)
		require.NoError(rt, err)
		require.Equal(rt, string(text), string(again))
	})
}

// TestSchema_RoundTrip_Identity: whatever Encode writes, the schema takes.
func TestSchema_RoundTrip_Identity(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(rt *rapid.T) {
		var job sizing.Job
		draw(rt, reflect.ValueOf(&job).Elem(), fieldpath.Field{Required: true}, "job")
		text, err := Encode(job)
		require.NoError(rt, err)
		require.NoError(rt, validate(t, s, text), "%s", text)
	})
}

// draw fills a value of the job at random; zero leaves a field open.
func draw(t *rapid.T, dst reflect.Value, f fieldpath.Field, label string) {
	if fieldpath.QuantityOf(dst.Type()) != nil {
		dst.SetFloat(drawQuantity(t, dst, label))
		return
	}
	switch dst.Kind() {
	case reflect.Struct:
		for _, f := range fieldpath.Fields(dst.Type()) {
			draw(t, f.In(dst), f, label+"."+f.Name)
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, label+" there") {
			dst.Set(reflect.New(dst.Type().Elem()))
			draw(t, dst.Elem(), fieldpath.Field{Required: true}, label)
		}
	case reflect.Slice:
		for i := range rapid.IntRange(0, 2).Draw(t, label) {
			e := reflect.New(dst.Type().Elem()).Elem()
			draw(t, e, fieldpath.Field{Required: true}, fmt.Sprintf("%s[%d]", label, i))
			dst.Set(reflect.Append(dst, e))
		}
	case reflect.Bool:
		dst.SetBool(rapid.Bool().Draw(t, label))
	case reflect.Int:
		dst.SetInt(int64(rapid.IntRange(-1000, 1000).Draw(t, label)))
	case reflect.Float64:
		dst.SetFloat(rapid.Float64().Draw(t, label) + 0)
	case reflect.String:
		words := fieldpath.WordsOf(dst.Type())
		switch {
		case words == nil:
			dst.SetString(rapid.String().Draw(t, label))
		case f.Required || rapid.Bool().Draw(t, label):
			dst.SetString(rapid.SampledFrom(words).Draw(t, label))
		}
	}
}

// drawQuantity is either any number or a short one in a unit of the kind.
func drawQuantity(t *rapid.T, dst reflect.Value, label string) float64 {
	kind := fieldpath.QuantityOf(dst.Type())
	if rapid.Bool().Draw(t, label+" any") {
		return rapid.Float64().Draw(t, label) + 0
	}
	u := rapid.SampledFrom(kind.Units).Draw(t, label+" unit")
	number := fmt.Sprintf("%d", rapid.IntRange(-9999, 9999).Draw(t, label))
	v, err := kind.Parse(strings.TrimSpace(number+" "+u.Name), "")
	require.NoError(t, err)
	return v + 0
}

// TestRoundTrip_Unfinished_Identity: a job saved in the middle of an edit opens
// again.
func TestRoundTrip_Unfinished_Identity(t *testing.T) {
	job := sizing.Job{
		Schema:  1,
		Filters: []filter.Filter{{}},
		Returns: []sizing.Return{{Runs: []duct.Run{{}}, Fittings: []duct.Fitting{{Coefficient: 0.3}}, Grille: duct.Grille{Width: units.Inch}}},
		Options: []sizing.Option{{}},
	}
	job.Equipment.Blower.Taps = []blower.Tap{{Points: []blower.Point{{}}}}
	text, err := Encode(job)
	require.NoError(t, err)
	back, err := Decode(text)
	require.NoError(t, err, "%s", text)
	require.Equal(t, job, back)
}

// Of how well a thing is known, absent is the usual and zero is exactly.
func TestZeroDeviation_Identity(t *testing.T) {
	job, err := Read([]byte(`{"schema": 1, "design_airflow": "1200 cfm", "uncertainty": {"gauge": 0, "rating": 0.1, "geometry": 0.2}}`))
	require.NoError(t, err)
	d := job.Uncertainty.Deviations()
	require.Equal(t, []float64{0, 0.1, 0.2, sizing.UsualDeviations().Assumed}, []float64{d.Gauge, d.Rating, d.Geometry, d.Assumed})
	text, err := Encode(job)
	require.NoError(t, err)
	require.Contains(t, string(text), `"gauge": 0,`)
	require.NotContains(t, string(text), "assumed")
	_, err = Read([]byte(`{"schema": 1, "design_airflow": "1200 cfm", "uncertainty": {"gauge": -0.1, "assumed": "much"}}`))
	var faults sizing.FieldErrors
	require.ErrorAs(t, err, &faults)
	require.NotNil(t, faults.At("uncertainty.gauge"))
	require.Equal(t, "a number", faults.At("uncertainty.assumed").Wanted.String())
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"schema": 1, "design_airflow": "1200 cfm"}`))
	f.Add([]byte(`{"schema": 1, "filters": [{"name": "a", "rating": [{"airflow": "800 cfm", "drop": "0.1 in wc"}]}]}`))
	f.Add([]byte(`{"schema": 1, "returns": [{"runs": [{"shape": "flex", "length": "12 ft", "diameter": "-0 in"}]}]}`))
	f.Add([]byte(`{"schema": 1, "site": {"altitude": "1e309 m"}, "a": "\ud83d\ude00"}`))
	f.Add([]byte("\ufeff[{\"schema\": 1}]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		job, err := Decode(data)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		text, err := Encode(job)
		require.NoError(t, err)
		back, err := Decode(text)
		require.NoError(t, err, "%s", text)
		require.Equal(t, job, back)
	})
}

func BenchmarkDecode(b *testing.B) {
	text, err := Encode(sizing.Job{Name: "a", DesignAirflow: 1200 * units.CFM, Returns: make([]sizing.Return, 20)})
	require.NoError(b, err)
	for b.Loop() {
		if _, err := Decode(text); err != nil {
			b.Fatal(err)
		}
	}
}
