package sizing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/units"
)

// compared is an invented study of four options with figures chosen by hand.
func compared() *Study {
	option := func(name, kind string, flow units.Flow, watts units.Power, merv int) OptionResult {
		c := Condition{Airflow: flow, BlowerPower: watts, ReturnStatic: -units.Pressure(float64(flow) * 100), CoilAirLeaving: units.Fahrenheit(55)}
		o := OptionResult{Name: name, Kind: kind, Clean: c, Loaded: c, Verdict: Caution}
		o.Efficiency.MERV = merv
		return o
	}
	s := &Study{Options: []OptionResult{
		option(NoFilterName, "no_filter", 1300*units.CFM, 600, 0),
		option(TodayName, "today", 1000*units.CFM, 500, 8),
		option("finer", "option", 950*units.CFM, 480, 13),
		option("deeper", "option", 1200*units.CFM, 400, 8),
	}}
	s.Options[3].Verdict = Good
	s.Options[3].Clean.CoilAirLeaving = units.Fahrenheit(57)
	s.Options[3].Upgrade = 400
	return s
}

func rowOf(t testing.TB, c Comparison, key string) ComparedRow {
	t.Helper()
	i := slices.IndexFunc(c.Rows, func(r ComparedRow) bool { return r.Key == key })
	require.GreaterOrEqual(t, i, 0, key)
	return c.Rows[i]
}

func namesOf(c Comparison) []string {
	var out []string
	for _, o := range c.Options {
		out = append(out, o.Name)
	}
	return out
}

func TestCompareTellsChangeAndDirection(t *testing.T) {
	c := compared().Compare(View{})
	require.Equal(t, []string{TodayName, "finer", "deeper", NoFilterName}, namesOf(c), "today first, the job's options in their order")
	for _, want := range []struct {
		key, number, change string
		trend               Trend
	}{
		{"airflow", "1200", "+200", Better},
		{"blower_power", "400", "-100", Better},
		{"merv", "8", "", Same},
		{"coil_air_leaving", "57.0", "+2.0", Other},
		{"verdict", "good", "", Better},
		{"payback", "never", "", Other},
		{"upgrade", "400.00", "", Other},
	} {
		cell := rowOf(t, c, want.key).Cells[2]
		assert.Equal(t, want.number, cell.Number(units.IP), want.key)
		assert.Equal(t, want.change, cell.ChangeNumber(units.IP), want.key)
		assert.Equal(t, want.trend, cell.Trend, want.key)
	}
	worse := rowOf(t, c, "airflow").Cells[1]
	assert.Equal(t, "-50", worse.ChangeNumber(units.IP))
	assert.Equal(t, Worse, worse.Trend)
	static := rowOf(t, c, "return_static").Cells[1]
	assert.Positive(t, static.Change)
	assert.Equal(t, Better, static.Trend, "a static nearer the room's is the better")
	unfiltered := rowOf(t, c, "merv").Cells[3]
	assert.Equal(t, "–", unfiltered.Number(units.IP))
	assert.Empty(t, unfiltered.ChangeNumber(units.IP))
	assert.Equal(t, "+2.0", rowOf(t, c, "coil_air_leaving").Cells[2].ChangeNumber(units.IP))
	assert.Equal(t, "+1.1", rowOf(t, c, "coil_air_leaving").Cells[2].ChangeNumber(units.SI), "a difference has no zero of its own")
}

func TestCompareView(t *testing.T) {
	s := compared()
	c := s.Compare(View{Baseline: "finer", Hidden: []string{NoFilterName, "finer"}, By: "airflow", Without: []string{"verdict"}})
	assert.Equal(t, []string{"finer", TodayName, "deeper"}, namesOf(c), "the baseline stays in view")
	assert.Len(t, c.Rows, len(Measures())-1)
	c = s.Compare(View{By: "airflow", Descending: true})
	assert.Equal(t, []string{TodayName, NoFilterName, "deeper", "finer"}, namesOf(c))
	for _, down := range []bool{false, true} {
		c = s.Compare(View{By: "merv", Descending: down})
		assert.Equal(t, NoFilterName, namesOf(c)[3], "what is not known comes last")
	}
	assert.Equal(t, TodayName, s.Compare(View{Baseline: "gone"}).Baseline.Name)
}

// Two options compared either way differ by the same amount with the sign
// turned, and the trend turns with it.
func TestCompareIsEven_Identity(t *testing.T) {
	turned := map[Trend]Trend{Better: Worse, Worse: Better, Same: Same, Other: Other}
	rapid.Check(t, func(t *rapid.T) {
		s := compared()
		for i := range s.Options {
			flow := units.Flow(rapid.Float64Range(0.1, 2).Draw(t, "airflow"))
			s.Options[i].Clean = Condition{Airflow: flow, ReturnStatic: units.Pressure(-rapid.Float64Range(1, 300).Draw(t, "static")),
				BlowerPower: units.Power(rapid.Float64Range(50, 900).Draw(t, "power"))}
		}
		there := s.Compare(View{Baseline: TodayName, Hidden: []string{NoFilterName, "finer"}})
		back := s.Compare(View{Baseline: "deeper", Hidden: []string{NoFilterName, "finer"}})
		for i := range there.Rows {
			a, b := there.Rows[i].Cells[1], back.Rows[i].Cells[1]
			if math.IsInf(a.Change, 0) || math.IsInf(b.Change, 0) {
				continue
			}
			if a.Change != -b.Change || a.Trend != turned[b.Trend] {
				t.Fatalf("%s: %v %v, back %v %v", there.Rows[i].Key, a.Change, a.Trend, b.Change, b.Trend)
			}
		}
	})
}
