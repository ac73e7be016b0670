package sizing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/compare"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// compared is an invented study of four options with figures chosen by hand.
func compared() *Study {
	option := func(name string, kind OptionKind, flow units.Flow, watts units.Power, merv int) OptionResult {
		c := Condition{Airflow: flow, BlowerPower: watts, ReturnStatic: -units.Pressure(float64(flow) * 100), CoilAirLeaving: units.Fahrenheit(55)}
		o := OptionResult{Name: name, Kind: kind, Clean: c, Loaded: c, Verdict: Caution}
		o.Efficiency.MERV = merv
		return o
	}
	s := &Study{Options: []OptionResult{
		option(NoFilterName, KindNoFilter, 1300*units.CFM, 600, 0),
		option(TodayName, KindToday, 1000*units.CFM, 500, 8),
		option("finer", KindOption, 950*units.CFM, 480, 13),
		option("deeper", KindOption, 1200*units.CFM, 400, 8),
	}}
	s.Options[3].Verdict = Good
	s.Options[3].Clean.CoilAirLeaving = units.Fahrenheit(57)
	s.Options[3].Upgrade, s.Options[3].Payback = 400, Payback{Known: true}
	return s
}

// samplesOf are the ranges of which each study is a sample.
func samplesOf(studies ...*Study) []OptionRange {
	runs := make([]compare.Sample, len(studies))
	for i, s := range studies {
		for k := range s.Options {
			runs[i].Options = append(runs[i].Options, compare.NewHeadline(&s.Options[k]))
		}
	}
	return compare.RangesOf(runs)
}

// In both samples today moves 1000 cfm at 500 W, drops 50 Pa at the filter and costs $900 a
// year. An option is better by more air, and by less of the others.
func TestSamplesAgreeAgainstToday_Identity(t *testing.T) {
	study := func(airflow units.Flow, power units.Power, drop units.Pressure, cost units.Money) *Study {
		option := func(name string, airflow units.Flow, power units.Power, drop units.Pressure, cost units.Money) OptionResult {
			return OptionResult{Name: name, Kind: KindOption, AnnualCost: cost, AnnualKnown: true, Clean: Condition{Airflow: airflow * units.CFM, BlowerPower: power, FilterDrop: drop}}
		}
		return &Study{Options: []OptionResult{option("no filter", 1100, 500, 0, 900), option(TodayName, 1000, 500, 50, 900), option("other", airflow, power, drop, cost)}}
	}
	better, worse := Agreement{Better: 1}, Agreement{Worse: 1}
	agreements := func(s *Study) []Agreement {
		r := samplesOf(s, s)[2]
		return []Agreement{r.MoreAir, r.FewerWatts, r.LessFilter, r.CheaperAYear}
	}
	assert.Equal(t, []Agreement{better, better, better, better}, agreements(study(1100, 400, 40, 800)))
	assert.Equal(t, []Agreement{worse, worse, worse, worse}, agreements(study(900, 600, 60, 1000)))
	assert.Equal(t, []Agreement{{}, {}, {}, {}}, agreements(study(1000, 500, 50, 900)))
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

func TestCompareShowsChangeAndDirection(t *testing.T) {
	c := compare.Compare(compared(), View{}, samplesOf(compared(), compared()))
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
		{"upgrade", "400", "", Other},
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

// Less than a thousandth of a figure is no change: 0.9 cfm of 1000 are the same, 1.1 are
// not.
func TestNoChangeUnderAThousandth(t *testing.T) {
	row := rowOf(t, compare.Compare(airflows(1000, 1000.9, 1001.1), View{}, nil), "airflow")
	assert.Equal(t, []Trend{Same, Other}, []Trend{row.Cells[1].Trend, row.Cells[2].Trend})
	assert.Equal(t, []string{"", "+1.1"}, []string{row.Cells[1].ChangeNumber(units.IP), row.Cells[2].ChangeNumber(units.IP)})
}

// Beside an option that never pays back, one that pays back in four years differs by no
// number of years.
func TestNoChangeFromNever(t *testing.T) {
	s := compared()
	s.Options[2].Payback = Payback{Known: true, MERV: 8, TodayMERV: 8}
	s.Options[3].Payback = Payback{Known: true, Pays: true, Years: 4 * units.Year, MERV: 8, TodayMERV: 8}
	c := compare.Compare(s, View{Baseline: "finer", Hidden: []string{NoFilterName, TodayName}}, nil)
	cell := rowOf(t, c, "payback").Cells[1]
	assert.Equal(t, "4.0", cell.Number(units.IP))
	assert.Empty(t, cell.ChangeNumber(units.IP))
}

func TestCompareView(t *testing.T) {
	s := compared()
	c := compare.Compare(s, View{Baseline: "finer", Hidden: []string{NoFilterName, "finer"}, By: "airflow", Without: []string{"verdict"}}, nil)
	assert.Equal(t, []string{"finer", TodayName, "deeper"}, namesOf(c), "the baseline stays in view")
	assert.Len(t, c.Rows, len(Measures())-1)
	c = compare.Compare(s, View{By: "airflow", Descending: true}, nil)
	assert.Equal(t, []string{TodayName, NoFilterName, "deeper", "finer"}, namesOf(c))
	for _, down := range []bool{false, true} {
		c = compare.Compare(s, View{By: "merv", Descending: down}, nil)
		assert.Equal(t, NoFilterName, namesOf(c)[3], "what is not known comes last")
	}
	assert.Equal(t, TodayName, compare.Compare(s, View{Baseline: "gone"}, nil).Baseline.Name)
}

// Two options compared either way differ by the same amount with the sign
// turned, and the trend turns with it.
func TestCompareIsEven_Identity(t *testing.T) {
	turned := map[Trend]Trend{Better: Worse, Worse: Better, Same: Same, Other: Other, TrendTooClose: TrendTooClose}
	rapid.Check(t, func(t *rapid.T) {
		s := compared()
		for i := range s.Options {
			flow := units.Flow(rapid.Float64Range(0.1, 2).Draw(t, "airflow"))
			s.Options[i].Clean = Condition{Airflow: flow, ReturnStatic: units.Pressure(-rapid.Float64Range(1, 300).Draw(t, "static")),
				BlowerPower: units.Power(rapid.Float64Range(50, 900).Draw(t, "power"))}
		}
		ranges := samplesOf(s, s)
		there := compare.Compare(s, View{Baseline: TodayName, Hidden: []string{NoFilterName, "finer"}}, ranges)
		back := compare.Compare(s, View{Baseline: "deeper", Hidden: []string{NoFilterName, "finer"}}, ranges)
		for i := range there.Rows {
			a, b := there.Rows[i].Cells[1], back.Rows[i].Cells[1]
			for _, cell := range []*Compared{&a, &b} {
				if cell.Trend == ForAir { // the same change, told by its reason
					cell.Trend = Worse
				}
			}
			if math.IsInf(a.Change, 0) || math.IsInf(b.Change, 0) {
				continue
			}
			// What is noticeable is a share of either's own figure.
			near := math.Abs(a.Change) < 1.02*study.Noticeable*math.Max(math.Abs(a.Value), math.Abs(b.Value))
			if a.Change != -b.Change || !near && a.Trend != turned[b.Trend] || a.Trend != "" && a.Trend == b.Trend && a.Trend != Same && a.Trend != TrendTooClose {
				t.Fatalf("%s: %v %v, back %v %v", there.Rows[i].Key, a.Change, a.Trend, b.Change, b.Trend)
			}
		}
	})
}

// trends are those of a measure, by option.
func trends(t testing.TB, c Comparison, key string) map[string]Trend {
	t.Helper()
	out := map[string]Trend{}
	for i, cell := range rowOf(t, c, key).Cells {
		out[c.Options[i].Name] = cell.Trend
	}
	return out
}

// airflows are the hand-made study with other airflows of "finer" and "deeper".
func airflows(today, finer, deeper units.Flow) *Study {
	s := compared()
	for i, flow := range []units.Flow{today, finer, deeper} {
		s.Options[1+i].Clean.Airflow = flow * units.CFM
	}
	return s
}

// TestCompareWithoutRanges: of what follows from what is uncertain neither
// better nor worse is said while nobody has drawn samples; the change stands.
func TestCompareWithoutRanges(t *testing.T) {
	c := compare.Compare(compared(), View{}, nil)
	require.Zero(t, c.Samples)
	require.Contains(t, c.Basis().String(), "Without ranges")
	for _, row := range c.Rows {
		for _, cell := range row.Cells {
			if row.Sampled() {
				require.NotContains(t, []Trend{Better, Worse, TrendTooClose}, cell.Trend, row.Key)
			}
		}
	}
	require.Equal(t, "+200", rowOf(t, c, "airflow").Cells[2].ChangeNumber(units.IP))
	require.Equal(t, Better, trends(t, c, "merv")["finer"], "printed on the filter")
	given := []string{}
	for _, m := range Measures() {
		if !m.Sampled() {
			given = append(given, m.Key)
		}
	}
	require.Equal(t, []string{"media_area", "merv", "upgrade"}, given)
	c = compare.Compare(compared(), View{}, []OptionRange{{Name: TodayName, Kind: KindToday, Samples: 9}})
	require.Zero(t, c.Samples, "ranges without their samples tell no pair apart")
}

// TestCompareAgainstAnyBaseline: the samples are drawn against the baseline in
// view. Both options beat today in each sample; which of the two is ahead
// changes with the sample.
func TestCompareAgainstAnyBaseline(t *testing.T) {
	s := airflows(1000, 1100, 1120)
	ranges := samplesOf(s, airflows(900, 1000, 1060), airflows(1100, 1250, 1200))
	c := compare.Compare(s, View{}, ranges)
	require.Equal(t, 3, c.Samples)
	require.Contains(t, c.Basis().String(), "at least 95 % of 3 samples")
	require.Equal(t, map[string]Trend{TodayName: Other, "finer": Better, "deeper": Better, NoFilterName: Other}, trends(t, c, "airflow"), "no blower runs without its filter")
	c = compare.Compare(s, View{Baseline: "finer"}, ranges)
	require.Equal(t, Worse, trends(t, c, "airflow")[TodayName])
	require.Equal(t, TrendTooClose, trends(t, c, "airflow")["deeper"])
	require.Equal(t, "+20", rowOf(t, c, "airflow").Cells[2].ChangeNumber(units.IP), "the change of the numbers stands")

	// What moves both alike does not blur which is ahead, though the ranges overlap.
	ranges = samplesOf(s, airflows(500, 550, 580), airflows(2000, 2200, 2320))
	require.Greater(t, ranges[2].Airflow.High, ranges[3].Airflow.Low)
	require.Equal(t, Better, trends(t, compare.Compare(s, View{Baseline: "finer"}, ranges), "airflow")["deeper"])
}

// TestCompareClaimsNoMoreThanNumbersAndSamples: samples that agree against the
// number shown leave the word unsaid.
func TestCompareClaimsNoMoreThanNumbersAndSamples(t *testing.T) {
	s := airflows(1000, 1050, 1200)
	ranges := samplesOf(airflows(1000, 900, 1200), airflows(1000, 900, 1200))
	require.Equal(t, TrendTooClose, trends(t, compare.Compare(s, View{}, ranges), "airflow")["finer"])
}
