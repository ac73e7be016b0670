package sizing

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/compare"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/perturb"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Each measure is of its own figure: every figure of this option is another number.
func TestMeasuresAreOfTheirFigures_Identity(t *testing.T) {
	o := OptionResult{Kind: KindOption,
		Clean: Condition{Airflow: 1, ExternalStatic: 2, FilterDrop: 3, ReturnStatic: -4, BlowerPower: 5, TemperatureRise: 6, CoilAirLeaving: 7, FaceVelocity: 8, MediaVelocity: 9},
		Loaded: Condition{Airflow: 11, ExternalStatic: 12, FilterDrop: 13, ReturnStatic: -14, BlowerPower: 15, TemperatureRise: 16, CoilAirLeaving: 17,
			FaceVelocity: 18, MediaVelocity: 19},
		MediaArea: 20, Efficiency: Efficiency{MERV: 21, InstalledMERV: 22}, LeakFraction: 0.23, Life: 24, FiltersPerYear: 25, AnnualCost: 26, Upgrade: 27, TenYearCost: 28,
		Payback: Payback{Known: true, Pays: true, Years: 29 * units.Year}, Verdict: Stop}
	wants := []struct {
		key    string
		value  float64
		sense  Sense
		given  bool
		filter bool // says nothing of the house with no filter
	}{
		{"airflow", 1, More, false, false}, {"airflow_loaded", 11, More, false, true}, {"external_static", 2, Less, false, false}, {"external_static_loaded", 12, Less, false, true},
		{"filter_drop", 3, Less, false, false}, {"filter_drop_loaded", 13, Less, false, true}, {"return_static", -4, Nearer, false, false}, {"return_static_loaded", -14, Nearer, false, true},
		{"blower_power", 5, Less, false, false}, {"blower_power_loaded", 15, Less, false, true}, {"temperature_rise", 6, Neither, false, false}, {"coil_air_leaving", 7, Neither, false, false},
		{"face_velocity", 8, Less, false, false}, {"media_velocity", 9, Less, false, false}, {"media_area", 20, More, true, true}, {"merv", 21, More, true, true},
		{"installed_merv", 22, More, false, true}, {"leak", 23, Less, false, true}, {"life", 24, More, false, true}, {"filters_per_year", 25, Less, false, true},
		{"annual_cost", 26, Less, false, true}, {"upgrade", 27, Less, true, true}, {"ten_year_cost", 28, Less, false, true}, {"payback", 29, Less, false, false}, {"verdict", -2, More, false, true},
	}
	all := Measures()
	require.Len(t, all, len(wants))
	for i, w := range wants {
		m := all[i]
		require.Equal(t, w.key, m.Key)
		v, known := m.Value(&o)
		assert.True(t, known, w.key)
		assert.InDelta(t, w.value, v, 1e-12, w.key)
		assert.Equal(t, w.sense, m.Sense, w.key)
		assert.Equal(t, w.given, !m.Sampled(), w.key)
		bare := o
		bare.Kind = KindNoFilter
		_, known = m.Value(&bare)
		assert.Equal(t, w.filter, !known, "%s of the house with no filter", w.key)
	}
	for key, units1 := range map[string][2]string{"airflow": {"cfm", "L/s"}, "leak": {"%", "%"}, "merv": {"", ""}, "payback": {"years", "years"}, "face_velocity": {"fpm", "m/s"}} {
		for _, m := range all {
			if m.Key == key {
				assert.Equal(t, units1, [2]string{m.Unit(units.IP), m.Unit(units.SI)}, key)
			}
		}
	}
	titles := map[message.ID]string{}
	for _, m := range all {
		assert.Empty(t, titles[m.Title], "%s and %s", m.Key, titles[m.Title])
		titles[m.Title] = m.Key
	}
	assert.Equal(t, "airflow", titles["Airflow, clean"])
	assert.Equal(t, "airflow_loaded", titles["Airflow, loaded"])
	// A zero is a figure that the house does not have, but of a leak and of MERV.
	for _, m := range all {
		_, known := m.Value(&OptionResult{Kind: KindOption})
		assert.Equal(t, map[string]bool{"merv": true, "installed_merv": true, "leak": true, "filters_per_year": true, "verdict": true}[m.Key], known, m.Key)
	}
}

// What is written: a number with its digits, a sign on a change, a dash where nothing
// is known, a word for a verdict and for what never pays.
func TestComparedInWords(t *testing.T) {
	s := compared()
	s.Options[2].LeakFraction, s.Options[1].LeakFraction = 0.0312, 0.0112
	s.Options[3].Payback = Payback{Known: true, Pays: true, Years: 4 * units.Year, MERV: 8, TodayMERV: 8}
	s.Options[2].Payback = Payback{Known: true, Pays: false, MERV: 13, TodayMERV: 8}
	c := Compare(s, View{}, nil)
	require.Equal(t, []string{TodayName, "finer", "deeper", NoFilterName}, namesOf(c))
	written := func(key string, sys units.Locale) (numbers, changes []string) {
		for _, cell := range rowOf(t, c, key).Cells {
			numbers, changes = append(numbers, cell.Number(sys)), append(changes, cell.ChangeNumber(sys))
		}
		return numbers, changes
	}
	n, ch := written("airflow", units.IP)
	assert.Equal(t, []string{"1000", "950", "1200", "1300"}, n)
	assert.Equal(t, []string{"", "-50", "+200", "+300"}, ch)
	n, ch = written("leak", units.IP)
	assert.Equal(t, []string{"1.1", "3.1", "0.0", "–"}, n)
	assert.Equal(t, []string{"", "+2.0", "-1.1", ""}, ch)
	n, _ = written("payback", units.IP)
	assert.Equal(t, []string{"–", "never, with a finer filter: MERV 13 as installed, 8 today", "4.0", "–"}, n)
	n, ch = written("verdict", units.IP)
	assert.Equal(t, []string{"caution", "caution", "good", "–"}, n)
	assert.Equal(t, []string{"", "", "", ""}, ch)
	n, ch = written("coil_air_leaving", units.IP)
	assert.Equal(t, []string{"55.0", "55.0", "57.0", "55.0"}, n)
	assert.Equal(t, []string{"", "", "+2.0", ""}, ch, "a difference of temperatures, not a temperature")
	n, _ = written("life", units.IP)
	assert.Equal(t, []string{"–", "–", "–", "–"}, n)
	s.Options[3].Payback.MERV = 11
	c = Compare(s, View{}, nil)
	n, _ = written("payback", units.IP)
	assert.Equal(t, "in 4.0 years, with a finer filter: MERV 11 as installed, 8 today", n[2])
	s.Options[2].Payback.MERV = 8
	c = Compare(s, View{}, nil)
	n, _ = written("payback", units.IP)
	assert.Equal(t, "never", n[1])
}

// A temperature's zero is far away: a tenth of a kelvin is a change, half a thousandth none.
func TestTrendOfATemperature_Identity(t *testing.T) {
	for rise, want := range map[units.Temperature]Trend{0.1: Other, 0.0005: Same} {
		s := compared()
		s.Options[3].Clean.CoilAirLeaving = s.Options[1].Clean.CoilAirLeaving + rise
		assert.Equal(t, want, trends(t, Compare(s, View{}, nil), "coil_air_leaving")["deeper"], "%v", rise)
	}
}

// More watts are no fault where more air moves, clean and dirty each by its own
// airflow; less than a thousandth is the same, whatever the figure's size.
func TestTrendsByHand_Identity(t *testing.T) {
	option := func(name string, kind OptionKind, clean, loaded units.Flow, watts, loadedWatts units.Power) OptionResult {
		return OptionResult{Name: name, Kind: kind, Clean: Condition{Airflow: clean, BlowerPower: watts}, Loaded: Condition{Airflow: loaded, BlowerPower: loadedWatts}}
	}
	s := &Study{Options: []OptionResult{
		option(NoFilterName, KindNoFilter, 3, 3, 900, 900), option(TodayName, KindToday, 1, 0.9, 500, 450),
		option("more clean", KindOption, 1.2, 0.8, 600, 600), option("more dirty", KindOption, 0.8, 1.2, 600, 600), option("same", KindOption, 1.0009, 0.9, 500.4, 450),
	}}
	c := Compare(s, View{}, samplesOf(s))
	assert.Equal(t, map[string]Trend{TodayName: Other, "more clean": ForAir, "more dirty": Worse, "same": Same, NoFilterName: Other}, trends(t, c, "blower_power"))
	assert.Equal(t, map[string]Trend{TodayName: Other, "more clean": Worse, "more dirty": ForAir, "same": Same, NoFilterName: Other}, trends(t, c, "blower_power_loaded"))
	assert.Equal(t, map[string]Trend{TodayName: Other, "more clean": Better, "more dirty": Worse, "same": Same, NoFilterName: Other}, trends(t, c, "airflow"))
	assert.Equal(t, 1, c.Samples)
	c = Compare(s, View{Baseline: NoFilterName}, samplesOf(s))
	for name, trend := range trends(t, c, "blower_power") {
		assert.Contains(t, []Trend{Other, Same}, trend, name)
	}
	// Without samples more watts for more air are still said to be for the air.
	c = Compare(s, View{}, nil)
	assert.Equal(t, ForAir, trends(t, c, "blower_power")["more clean"])
	assert.Equal(t, Other, trends(t, c, "blower_power")["more dirty"])
	assert.Zero(t, c.Samples)
	assert.Contains(t, c.Basis().String(), "Without ranges")
	// 0.0009 of 0.5 is more than a thousandth, though less than samples can tell; of 5 it
	// is not.
	for base, want := range map[units.Pressure]Trend{0.5: TrendTooClose, 5: Same} {
		s = &Study{Options: []OptionResult{{Name: NoFilterName, Kind: KindNoFilter}, {Name: TodayName, Kind: KindToday, Clean: Condition{ExternalStatic: base}}, {Name: "x", Kind: KindOption, Clean: Condition{ExternalStatic: base + 0.0009}}}}
		assert.Equal(t, want, trends(t, Compare(s, View{}, samplesOf(s)), "external_static")["x"])
	}
	// A suction nearer to the room's is the better one, whichever its sign.
	s = &Study{Options: []OptionResult{{Name: NoFilterName, Kind: KindNoFilter}, {Name: TodayName, Kind: KindToday, Clean: Condition{ReturnStatic: -50}},
		{Name: "near", Kind: KindOption, Clean: Condition{ReturnStatic: -20}}, {Name: "far", Kind: KindOption, Clean: Condition{ReturnStatic: -80}}}}
	c = Compare(s, View{By: "return_static"}, samplesOf(s))
	assert.Equal(t, Better, trends(t, c, "return_static")["near"])
	assert.Equal(t, Worse, trends(t, c, "return_static")["far"])
	assert.Equal(t, []string{TodayName, "far", "near", NoFilterName}, namesOf(c), "by the number, those not known last")
	c = Compare(s, View{By: "return_static", Descending: true}, samplesOf(s))
	assert.Equal(t, []string{TodayName, "near", "far", NoFilterName}, namesOf(c))
	c = Compare(s, View{Hidden: []string{"near"}, Without: []string{"airflow"}}, nil)
	assert.Equal(t, []string{TodayName, "far", NoFilterName}, namesOf(c))
	for _, row := range c.Rows {
		assert.NotEqual(t, "airflow", row.Key)
	}
}

// Of 20 samples 0 to 19, the 5th and 95th hundredth are the one at round(0.05 x 19) = 1
// and the one at round(0.95 x 19) = 18. Each range of an option is of its own figure.
func TestRangesAreOfTheirFigures_Identity(t *testing.T) {
	studies := make([]*Study, 20)
	for i := range studies {
		v := float64(i)
		of := func(name string, kind OptionKind, base float64) OptionResult {
			return OptionResult{Name: name, Kind: kind, Life: units.Duration(base + 6 + v), AnnualCost: units.Money(base + 7 + v), TenYearCost: units.Money(base + 8 + v),
				Clean:   Condition{Airflow: units.Flow(base + v), ExternalStatic: units.Pressure(base + 1 + v), FilterDrop: units.Pressure(base + 2 + v), BlowerPower: units.Power(base + 3 + v), TemperatureRise: units.TemperatureDifference(base + 4 + v)},
				Loaded:  Condition{Airflow: units.Flow(base + 5 + v)},
				Payback: Payback{Known: i < 16, Pays: i < 12}}
		}
		studies[i] = &Study{Options: []OptionResult{of(NoFilterName, KindNoFilter, 1000), of(TodayName, KindToday, 100), of("x", KindOption, 200)}}
		// The gain moves with the sample too: 100 to 119.
		studies[i].Options[2].Clean.Airflow += units.Flow(v)
		studies[i].Options[2].Clean.BlowerPower += units.Power(2 * v)
		studies[i].Options[2].AnnualCost -= units.Money(3*v + 150)
	}
	r := samplesOf(studies...)[2]
	assert.Equal(t, "x", r.Name)
	assert.Equal(t, 20, r.Samples)
	assert.Equal(t, Range[units.Flow]{Low: 202, High: 236}, r.Airflow)
	assert.Equal(t, Range[units.Flow]{Low: 206, High: 223}, r.LoadedAirflow)
	assert.Equal(t, Range[units.Pressure]{Low: 202, High: 219}, r.ExternalStatic)
	assert.Equal(t, Range[units.Pressure]{Low: 203, High: 220}, r.FilterDrop)
	assert.Equal(t, Range[units.Power]{Low: 206, High: 257}, r.BlowerPower)
	assert.Equal(t, Range[units.TemperatureDifference]{Low: 205, High: 222}, r.TemperatureRise)
	assert.Equal(t, Range[units.Duration]{Low: 207, High: 224}, r.Life)
	assert.Equal(t, Range[units.Money]{Low: 207 + 18 - 150 - 54, High: 207 + 1 - 150 - 3}, r.AnnualCost)
	assert.Equal(t, Range[units.Money]{Low: 209, High: 226}, r.TenYearCost)
	assert.Equal(t, Range[units.Flow]{Low: 101, High: 118}, r.AirflowGain)
	assert.Equal(t, Range[units.Power]{Low: -136, High: -102}, r.PowerSaved)
	assert.Equal(t, Range[units.Money]{Low: 53, High: 104}, r.AnnualSaved, "150 + 3 v - 100")
	assert.InDelta(t, 12.0/20, r.PaysBack.Better, 1e-12)
	assert.InDelta(t, 4.0/20, r.PaysBack.Worse, 1e-12)
	assert.Equal(t, Agreement{Better: 1}, r.MoreAir)
	assert.Equal(t, Agreement{Worse: 1}, r.FewerWatts)
	assert.Equal(t, Agreement{Worse: 1}, r.LessFilter)
	assert.Equal(t, Agreement{Better: 1}, r.CheaperAYear)
	assert.Equal(t, ClaimBetter, r.AgainstToday)
	for key, want := range map[string]Range[float64]{"airflow": {Low: 202, High: 236}, "airflow_loaded": {Low: 206, High: 223}, "life": {Low: 207, High: 224}} {
		got, known := r.Of(key)
		assert.True(t, known)
		assert.Equal(t, want, got, key)
	}
	_, known := r.Of("merv")
	assert.False(t, known, "it comes with the option")
	f := RangeFindings([]OptionRange{r})
	require.Len(t, f, 1)
	assert.Equal(t, []any{"upgrade_helps", Good, "x"}, []any{f[0].Code, f[0].Severity, f[0].Option})
	r.AirflowGain = Range[units.Flow]{Low: 101 * units.CFM, High: 118 * units.CFM}
	text := RangeFindings([]OptionRange{r})[0].In(units.IP)
	assert.Equal(t, "x moves 101 cfm to 118 cfm more air than today. Its blower draws 102 W to 136 W more. Power and filters for the same cooling come to $53.00 to $104 less a year.", text)
	r.MoreAir, r.FewerWatts, r.CheaperAYear, r.AgainstToday = Agreement{Worse: 1}, Agreement{Better: 1}, Agreement{Worse: 1}, ClaimMixed
	r.AirflowGain, r.PowerSaved, r.AnnualSaved = Range[units.Flow]{Low: -118 * units.CFM, High: -101 * units.CFM}, Range[units.Power]{Low: 10, High: 20}, Range[units.Money]{Low: -9, High: -4}
	f = RangeFindings([]OptionRange{r})
	assert.Equal(t, "x moves 101 cfm to 118 cfm less air than today. Its blower draws 10 W to 20 W less. Power and filters for the same cooling come to $4.00 to $9.00 more a year.", f[0].In(units.IP))
	assert.Equal(t, []any{"upgrade_mixed", Caution}, []any{f[0].Code, f[0].Severity})
	r.MoreAir, r.FewerWatts, r.CheaperAYear, r.AgainstToday = Agreement{}, Agreement{}, Agreement{}, ClaimTooClose
	f = RangeFindings([]OptionRange{r})
	assert.Equal(t, "The airflow of x is too close to today's to tell them apart: -118 cfm to -101 cfm more. Too little is known of the house to say that it helps.", f[0].In(units.IP))
	assert.Equal(t, []any{"upgrade_unsure", Caution}, []any{f[0].Code, f[0].Severity})
	r.AgainstToday = ClaimWorse
	assert.Equal(t, "upgrade_hurts", RangeFindings([]OptionRange{r})[0].Code)
	r.Kind = KindToday
	assert.Empty(t, RangeFindings([]OptionRange{r}))
	assert.InDelta(t, 34, float64(compare.Range[units.Flow]{Low: 202, High: 236}.Within(202)), 1e-12)
	assert.InDelta(t, 24, float64(compare.Range[units.Flow]{Low: 202, High: 236}.Within(226)), 1e-12)
	assert.Zero(t, compare.Range[units.Flow]{Low: 202, High: 202}.Within(202))
}

// The limits of an option sample by sample: a minimum counts the other way, and a
// temperature's least change is a degree, of all else a hundredth.
func TestLimitsSampleBySample_Identity(t *testing.T) {
	held := func(v float64, missed bool) OptionResult {
		o := OptionResult{Name: "x", Kind: KindOption}
		o.Held = []study.HeldLimit{
			{Problem: StaticHigh, State: WhenClean, Measured: units.Pressure(v), Limit: units.Pressure(1), Missed: missed},
			{Problem: AirflowShort, State: WhenLoaded, Measured: units.Flow(v), Limit: units.Flow(1), Least: true, Missed: !missed},
			{Problem: Frost, State: WhenClean, Measured: units.Temperature(v + 270), Limit: units.Temperature(275), Least: true},
		}
		return o
	}
	r := samplesOf(&Study{Options: []OptionResult{held(2, true), held(2, true), held(2, true)}}, &Study{Options: []OptionResult{held(4, false), held(4, false), held(4, false)}})[2]
	require.Len(t, r.Limits, 3)
	l := r.Limits[compare.LimitKey{Problem: StaticHigh, State: WhenClean}]
	assert.Equal(t, []bool{true, false}, l.Missed)
	assert.Equal(t, []float64{2, 4}, l.Worse)
	assert.InDeltaSlice(t, []float64{0.02, 0.04}, l.Least, 1e-12)
	l = r.Limits[compare.LimitKey{Problem: AirflowShort, State: WhenLoaded}]
	assert.Equal(t, []bool{false, true}, l.Missed)
	assert.Equal(t, []float64{-2, -4}, l.Worse)
	l = r.Limits[compare.LimitKey{Problem: Frost, State: WhenClean}]
	assert.InDeltaSlice(t, []float64{5.0 / 9, 5.0 / 9}, l.Least, 1e-9)
}

// Each thing is moved by a draw of its own, by its own name and its own deviation.
func TestPerturbationMovesEachByItsName_Identity(t *testing.T) {
	j := pinned()
	j.Filters = append(j.Filters, filter.Filter{Name: "made", MediaResistance: 60, MediaPermeability: 3e-10})
	read := Reading{ReturnPlenum: -1, BlowerInlet: -2, BlowerOutlet: 3, SupplyPlenum: 4, FilterDrop: 5, Airflow: 6}
	later, other := read, read
	other.Option = "x"
	j.Readings = []Reading{{}, read, later, other}
	j.Options = []Option{{Name: "x"}}
	d := Deviations{Gauge: 0.03, BlowerTable: 0.04, Rating: 0.05, Geometry: 0.15, Assumed: 0.25}
	p := perturb.New(d, 3, 4)
	moved := p.PerturbJob(j)
	hold := func(name string, got, was, deviation float64, by ...string) {
		t.Helper()
		k := p.Factor(deviation, by...)
		assert.NotEqual(t, 1.0, k, name)
		assert.InEpsilon(t, k, got/was, 1e-12, name)
	}
	hold("coil", float64(moved.Coil.Drop), float64(j.Coil.Drop), 0.05, "coil")
	hold("supply", float64(moved.Supply.Drop), float64(j.Supply.Drop), 0.05, "supply")
	hold("rating", float64(moved.Filters[0].Rating[0].Drop), float64(j.Filters[0].Rating[0].Drop), 0.05, "filter", "own")
	hold("media", float64(moved.Filters[1].MediaResistance), 60, 0.05, "filter", "made")
	hold("permeability", 1/float64(moved.Filters[1].MediaPermeability), 1/3e-10, 0.05, "filter", "made")
	for i := range j.Equipment.Blower.Taps[0].Points {
		hold("table", float64(moved.Equipment.Blower.Taps[0].Points[i].Airflow), float64(j.Equipment.Blower.Taps[0].Points[i].Airflow), 0.04, "blower table")
		assert.Equal(t, j.Equipment.Blower.Taps[0].Points[i].ExternalStatic, moved.Equipment.Blower.Taps[0].Points[i].ExternalStatic)
	}
	for i, at := range [][2]string{{}, {"", "0"}, {"", "1"}, {"x", "0"}} {
		if i == 0 {
			assert.Equal(t, Reading{}, moved.Readings[0], "an empty round is none")
			continue
		}
		r := moved.Readings[i]
		for name, v := range map[string][2]float64{"return plenum": {float64(r.ReturnPlenum), -1}, "blower inlet": {float64(r.BlowerInlet), -2}, "blower outlet": {float64(r.BlowerOutlet), 3},
			"supply plenum": {float64(r.SupplyPlenum), 4}, "filter drop": {float64(r.FilterDrop), 5}, "airflow": {float64(r.Airflow), 6}} {
			hold(name, v[0], v[1], 0.03, "reading", at[0], at[1], name)
		}
	}
	assert.Equal(t, pinned().Coil, j.Coil, "the job itself stays")
	assert.InEpsilon(t, p.Factor(0.25, "assumed", "returns"), p.Assumed("returns"), 1e-12)
	assert.InEpsilon(t, p.Factor(0.15, "slot entry"), p.SlotEntry(), 1e-12)
	assert.InEpsilon(t, p.Factor(0.04, "pleat model"), p.PleatModel(0.08), 1e-12)
	for _, unmoved := range []*perturb.Perturbation{nil, perturb.New(Deviations{}, 3, 4)} {
		for _, k := range []float64{unmoved.Assumed("returns"), unmoved.SlotEntry(), unmoved.PleatModel(0.05), unmoved.Factor(0, "x")} {
			assert.Equal(t, 1.0, k)
		}
		assert.Zero(t, unmoved.TableReading())
	}
	assert.NotEqual(t, p.Factor(1, "ab", "c"), p.Factor(1, "a", "bc"))
	assert.NotEqual(t, p.Factor(1, "a"), perturb.New(d, 3, 5).Factor(1, "a"))
	assert.NotEqual(t, p.Factor(1, "a"), perturb.New(d, 4, 4).Factor(1, "a"))
	// Of a hundred lognormal factors of a deviation of 0.1 the logarithms are 0.1 about.
	sum := 0.0
	for i := range 400 {
		v := math.Log(perturb.New(d, 1, i).Factor(0.1, "a"))
		sum += v * v
	}
	assert.InDelta(t, 0.1, math.Sqrt(sum/400), 0.011, "three standard errors")
}

// Of what is neither better nor worse, was not sampled, or not as often, no agreement is
// known; without a word of them two hundred samples are taken.
func TestAgreementNotKnown(t *testing.T) {
	r, err := Sampling{Seed: 1}.Ranges(context.Background(), pinned())
	require.NoError(t, err)
	assert.Equal(t, 200, r[1].Samples)
	for _, m := range Measures() {
		_, known := m.Agreement(&r[1], &r[0])
		assert.Equal(t, m.Sampled() && m.Sense != Neither, known, m.Key)
		_, known = m.Agreement(&r[1], nil)
		assert.False(t, known)
		_, known = m.Agreement(nil, &r[1])
		assert.False(t, known)
		fewer := r[0]
		fewer.Drawn = map[string][]float64{m.Key: {1, 2}}
		_, known = m.Agreement(&r[1], &fewer)
		assert.False(t, known, m.Key)
	}
}
