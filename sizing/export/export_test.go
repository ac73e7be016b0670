package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

func studyOf(t testing.TB, name string) *sizing.Study {
	t.Helper()
	data, err := assets.Open(name)
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	return s
}

func document(t testing.TB, s *sizing.Study, sys units.Locale) map[string]any {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, JSON(&out, s, sys))
	var doc map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	return doc
}

// at follows a path of names and indexes.
func at(t testing.TB, v any, path string) any {
	t.Helper()
	for _, step := range strings.Split(path, ".") {
		switch x := v.(type) {
		case map[string]any:
			next, ok := x[step]
			require.True(t, ok, "%s: no %q", path, step)
			v = next
		case []any:
			var i int
			_, err := fmt.Sscan(step, &i)
			require.NoError(t, err)
			require.Less(t, i, len(x), path)
			v = x[i]
		default:
			t.Fatalf("%s: %q of %T", path, step, v)
		}
	}
	return v
}

// TestJSON_Paths_Identity: the paths that other programs rely on are there, and
// their quantities read back to the Study's numbers.
func TestJSON_Paths_Identity(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	o := s.Today()
	for _, sys := range []units.Locale{units.IP, units.SI} {
		doc := document(t, s, sys)
		for path, want := range map[string]units.Quantity{
			"design_airflow":               s.DesignAirflow,
			"options.1.media_area":         o.MediaArea,
			"options.1.life":               o.Life,
			"options.1.annual_cost":        o.AnnualCost,
			"sizes.0.face_area":            s.Sizes[0].FaceArea,
			"options.1.clean.parts.0.drop": o.Clean.Parts[0].Drop,
		} {
			sameQuantity(t, at(t, doc, "study."+path), want, sys)
		}
		for state, c := range map[string]sizing.Condition{"clean": o.Clean, "loaded": o.Loaded} {
			for name, want := range map[string]units.Quantity{
				"airflow": c.Airflow, "external_static": c.ExternalStatic, "filter_drop": c.FilterDrop,
				"return_static": c.ReturnStatic, "blower_power": c.BlowerPower, "face_velocity": c.FaceVelocity,
				"media_velocity": c.MediaVelocity, "temperature_rise": c.TemperatureRise, "coil_air_leaving": c.CoilAirLeaving,
			} {
				sameQuantity(t, at(t, doc, "study.options.1."+state+"."+name), want, sys)
			}
		}
		for name, want := range map[string]float64{
			"efficiency.e1": o.Efficiency.E1, "efficiency.e2": o.Efficiency.E2, "efficiency.e3": o.Efficiency.E3,
			"efficiency.merv": float64(o.Efficiency.MERV), "leak_fraction": o.LeakFraction,
		} {
			require.Equal(t, want, at(t, doc, "study.options.1."+name), name)
		}
		require.Equal(t, "today", at(t, doc, "study.options.1.name"))
		for i, f := range s.Findings {
			for name, want := range map[string]string{"severity": string(f.Severity), "code": f.Code, "text": f.In(sys), "source": string(f.Source)} {
				require.Equal(t, want, at(t, doc, fmt.Sprintf("study.findings.%d.%s", i, name)))
			}
		}
		require.Len(t, at(t, doc, "workings"), len(s.Workings()))
	}
}

func sameQuantity(t testing.TB, text any, want units.Quantity, sys units.Locale) {
	t.Helper()
	require.IsType(t, "", text)
	require.True(t, strings.HasSuffix(text.(string), " "+want.Kind().Usual(sys).Name), "%v", text)
	v, err := want.Kind().Parse(text.(string), "")
	require.NoError(t, err)
	require.InDelta(t, want.SI(), v, 1e-13*math.Abs(want.SI()), "%v", text)
}

// TestJSON_NotFinite_Identity: what has no number is null, never a broken text.
func TestJSON_NotFinite_Identity(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	broken := *s
	broken.Options = append([]sizing.OptionResult(nil), s.Options...)
	broken.Options[1].Life = units.Duration(math.Inf(1))
	broken.AssumedShare = math.NaN()
	doc := document(t, &broken, units.IP)
	require.Nil(t, at(t, doc, "study.options.1.life"))
	require.Nil(t, at(t, doc, "study.assumed_share"))
}

func TestCSV_Identity(t *testing.T) {
	s := studyOf(t, "metric-altitude")
	var out bytes.Buffer
	require.NoError(t, OptionsCSV(&out, s, units.SI))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+2*len(s.Options)-1, "no filter has one state")
	column := map[string]int{}
	for i, h := range rows[0] {
		column[h] = i
	}
	today := rows[2]
	require.Equal(t, "today", today[column["option"]])
	var flow, drop float64
	_, err = fmt.Sscan(today[column["airflow, L/s"]], &flow)
	require.NoError(t, err)
	_, err = fmt.Sscan(today[column["filter drop, Pa"]], &drop)
	require.NoError(t, err)
	require.InEpsilon(t, s.Today().Clean.Airflow.In(units.LitrePerSecond), flow, 1e-13)
	require.InEpsilon(t, float64(s.Today().Clean.FilterDrop), drop, 1e-13)

	out.Reset()
	require.NoError(t, SizesCSV(&out, s, units.IP))
	rows, err = csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+len(s.Sizes))

	out.Reset()
	require.NoError(t, CSV(&out, s, units.IP))
	options, sizes, both := strings.Cut(out.String(), "\n\n")
	require.True(t, both)
	require.Contains(t, options, "airflow, cfm")
	require.Contains(t, sizes, "face area, in2")
}

// TestCSV_NoSizes: a table without rows is its heading.
func TestCSV_NoSizes(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	none := *s
	none.Sizes = nil
	var out bytes.Buffer
	require.NoError(t, SizesCSV(&out, &none, units.IP))
	require.Contains(t, out.String(), "face area, in2", "the units stand in the heading all the same")
}

func TestSummary_Identity(t *testing.T) {
	for _, e := range assets.Examples() {
		s := studyOf(t, e.Name)
		for _, sys := range []units.Locale{units.IP, units.SI} {
			var out bytes.Buffer
			require.NoError(t, Summary(&out, s, sys))
			text := out.String()
			require.Contains(t, text, s.Today().Clean.Airflow.Kind().Number(s.Today().Clean.Airflow.SI(), sys))
			flat := strings.Join(strings.Fields(text), " ")
			for _, f := range s.Findings {
				require.Contains(t, flat, strings.Join(strings.Fields(f.In(sys)), " "))
			}
			for _, a := range s.Assumptions {
				require.Contains(t, flat, a.Path)
			}
			for _, c := range Cautions() {
				require.Contains(t, flat, string(c))
			}
			for _, line := range strings.Split(text, "\n") {
				require.Equal(t, strings.TrimRight(line, " "), line, "no blanks at the end of a line")
			}
			if sys.System == units.Metric {
				require.NotContains(t, text, "cfm\t")
			}
		}
	}
}

func TestSizes_Identity(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	var out bytes.Buffer
	require.NoError(t, Sizes(&out, s, units.IP, 2))
	require.Equal(t, 2, strings.Count(out.String(), " misses: "))
	require.Contains(t, out.String(), s.Sizes[0].Label)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room left") }

// TestFull: a writer that fails is reported, by every form.
func TestFull(t *testing.T) {
	s := studyOf(t, "one-inch-slot")
	require.ErrorContains(t, JSON(full{}, s, units.IP), "no room")
	require.ErrorContains(t, Summary(full{}, s, units.IP), "no room")
	require.ErrorContains(t, CSV(full{}, s, units.IP), "no room")
	require.ErrorContains(t, Sizes(full{}, s, units.IP, 3), "no room")
}

func BenchmarkSummary(b *testing.B) {
	s := studyOf(b, "one-inch-slot")
	for b.Loop() {
		_ = Summary(&bytes.Buffer{}, s, units.IP)
	}
}

func BenchmarkJSON(b *testing.B) {
	s := studyOf(b, "one-inch-slot")
	for b.Loop() {
		_ = JSON(&bytes.Buffer{}, s, units.IP)
	}
}

// Where a return must not draw from, and how far from an open flame it stays:
// model mechanical code 601.5 from secondary text, model residential code M1602.2
// from memory.
func TestCautionsNameThePlaces(t *testing.T) {
	all := ""
	for _, c := range Cautions() {
		all += string(c) + " "
	}
	for _, word := range []string{"closet", "bathroom", "toilet room", "kitchen", "garage", "furnace room", "attic", "crawl space", "10 ft", "draft hood", "local code"} {
		require.Contains(t, all, word)
	}
}

// A gauge's visit and the round after the work are reported in words.
func TestSummaryShowsAsFound(t *testing.T) {
	data, err := assets.Open("one-inch-slot")
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	after := job.Readings[0]
	after.Label, after.AfterWork, after.Option = "after", true, job.Options[1].Name
	job.Readings = append(job.Readings, after)
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, Summary(&out, s, units.IP))
	flat := strings.Join(strings.Fields(out.String()), " ")
	require.Contains(t, flat, "As found, "+s.AsFound.Label)
	require.Contains(t, flat, "is not explained by what is described")
	require.Contains(t, flat, "After the work: "+job.Options[1].Name)
	require.Contains(t, flat, "before (as found)")
}
