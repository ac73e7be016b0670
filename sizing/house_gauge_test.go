package sizing

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/readings"
	"returnbench/sizing/units"
)

// gauged is a house of two returns whose return takes k times what its
// description gives.
func gauged(t *testing.T, k float64) Job {
	t.Helper()
	j := twoReturns()
	for i := range j.Returns {
		j.Returns[i].Filter = ""
	}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch}
	j.Options, j.Readings = nil, nil
	today := solved(t, j).Today().Clean
	j.Readings = []Reading{{ReturnPlenum: readings.Port(&today, PortReturn) * units.Pressure(k), Airflow: today.Airflow}}
	return j
}

func TestAnotherNameMovesNoAir_Identity(t *testing.T) {
	j := gauged(t, 1.5)
	j.Options = []Option{{Name: "renamed", Returns: job.CloneReturns(j.Returns)}}
	j.Options[0].Returns[0].Name = "another name"
	j.Options[0].Returns[1].OpeningWidth = 40 * units.Inch
	s := solved(t, j)
	require.NotEqual(t, solved(t, gauged(t, 1)).Today().Clean.Airflow, s.Today().Clean.Airflow, "the gauge adds to the return")
	assert.InEpsilon(t, float64(s.Today().Clean.Airflow), float64(s.Options[2].Clean.Airflow), 1e-9)
}

// Where the return reads less than described, what stays in the house keeps the
// gauge's factor, and what is new is taken as described.
func TestOnlyWhatStaysKeepsTheGaugesFactor(t *testing.T) {
	j := gauged(t, 0.7)
	h, err := house.New(assume.Job(j), nil)
	require.NoError(t, err)
	k := h.Gauge.ReturnScale
	require.InEpsilon(t, 0.7, k, 1e-6)

	list := job.CloneReturns(h.Returns)
	list[0].Grille.Width += 10 * units.Inch
	list[1].Runs[0].Length += units.Foot
	list = append(list, job.CloneReturns(h.Returns[1:])...)
	list = append(list, job.CloneReturns(h.Returns[1:])...)
	assert.Equal(t, []house.GaugeFactors{{Grille: 1, Duct: k}, {Grille: 1, Duct: 1}, {Grille: k, Duct: k}, {Grille: 1, Duct: 1}}, h.RetainedFactors(list),
		"a new grille, a new duct in a branch whose old self is there too, one of today's, one more like it")
}

// A grille of the same size but with less free area is a new one: its drop is that of its
// description, and the duct behind it, like the other return, keeps the gauge's 0.7.
func TestAnotherGrilleOfTheSameSizeIsNew_Identity(t *testing.T) {
	j := gauged(t, 0.7)
	j.Options = []Option{{Name: "other", Returns: job.CloneReturns(j.Returns)}}
	j.Options[0].Returns[0].Grille.FreeArea = 0.4
	s := solved(t, j)
	h := solvedHouse(s)
	described := func(r Return, q units.Flow) float64 {
		linear, quadratic, err := r.Grille.Coefficients(h.Air)
		require.NoError(t, err)
		return linear*float64(q) + quadratic*float64(q)*float64(q)
	}
	today, other := s.Today().Clean.Branches, s.Option("other").Clean.Branches
	for i, k := range []float64{1, 0.7} {
		assert.InEpsilon(t, 0.7*described(j.Returns[i], today[i].Airflow), float64(today[i].GrilleDrop), 1e-6)
		assert.InEpsilon(t, k*described(j.Options[0].Returns[i], other[i].Airflow), float64(other[i].GrilleDrop), 1e-6)
	}
	run := h.Returns[0].Runs[0]
	ratio := func(b BranchFlow) float64 { return float64(b.DuctDrop) / float64(run.Drop(b.Airflow, h.Air)) }
	assert.InEpsilon(t, ratio(today[0]), ratio(other[0]), 0.05, "the ends of the duct go by the square of the flow, its length by a little less")
}

func TestAReturnUnlikeItsDescriptionIsSaid(t *testing.T) {
	assert.Equal(t, Caution, codes(solved(t, gauged(t, 3)).Findings)["unexplained_loss"])
	assert.Equal(t, Caution, codes(solved(t, gauged(t, 0.3)).Findings)["return_unlike"])
	near := codes(solved(t, gauged(t, 1.05)).Findings)
	assert.NotContains(t, near, "unexplained_loss", "within a gauge's last digits")
	assert.NotContains(t, near, "return_unlike")
	for k, first := range map[float64]bool{3: true, 1.05: false} {
		j := gauged(t, k)
		j.Options = []Option{{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}
		next := solved(t, j).Recommendation.Next
		assert.Equal(t, first, strings.Contains(next.In(units.IP), "First look for "), "%g: %s", k, next.In(units.IP))
	}
}

// The loss that nothing explains comes first, then what must not run as it is: 120000 Btu/h
// over about 1100 cfm rise some 100 F, over the 60 of the nameplate.
func TestAStopIsSaidAfterTheUnexplainedLoss(t *testing.T) {
	j := gauged(t, 3)
	j.Equipment.HeatingOutput, j.Equipment.RiseLow, j.Equipment.RiseHigh = 120000*units.BtuPerHour, 30*units.FahrenheitDegree, 60*units.FahrenheitDegree
	for _, options := range [][]Option{nil, {{Name: "cabinet", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}}}} {
		j.Options = options
		next := solved(t, j).Recommendation.Next
		assert.Equal(t, Stop, next.Severity)
		words := next.In(units.IP)
		loss, heat := strings.Index(words, "First look for "), strings.Index(words, "Heating raises the air by ")
		assert.Zero(t, loss, words)
		assert.Positive(t, heat, words)
	}
}

// What the gauge measures is assumed no more: its line goes, and each other is told once.
func TestMeasuredIsNotAssumed(t *testing.T) {
	paths := func(j Job) (out []string) {
		for _, a := range solved(t, j).Assumptions {
			out = append(out, a.Path)
		}
		return out
	}
	j := least()
	j.Equipment.Kind = FurnaceWithCoil
	before := paths(j)
	j.Readings = []Reading{{BlowerInlet: -0.3 * units.InchWater, BlowerOutlet: 0.4 * units.InchWater, SupplyPlenum: 0.15 * units.InchWater, Airflow: 1100 * units.CFM}}
	for _, part := range []string{"coil", "supply"} {
		assert.Contains(t, before, part)
		assert.NotContains(t, paths(j), part)
	}
	seen := map[string]bool{}
	for _, a := range solved(t, j).Assumptions {
		line := a.Path + ": " + a.Text.String()
		assert.False(t, seen[line], line)
		seen[line] = true
	}
}

// With its coil inside, what an air handler blows out is read in the supply.
func TestAirHandlerIsReadAfterTheBlower(t *testing.T) {
	j := least()
	j.Equipment.Kind = AirHandler
	read := 0.23 * units.InchWater
	j.Readings = []Reading{{BlowerOutlet: read, BlowerInlet: -0.3 * units.InchWater, Airflow: 1100 * units.CFM}}
	outlet := solved(t, j)
	j.Readings[0].BlowerOutlet, j.Readings[0].SupplyPlenum = 0, read
	supply := solved(t, j)
	assert.False(t, outlet.Assumed("supply"))
	assert.Equal(t, supply.Today().Clean, outlet.Today().Clean)
	assert.Equal(t, supply.Readings, outlet.Readings)
}

// A filter of today's name goes by the gauge only where it is today's filter.
func TestGaugeCorrectsTodaysFilterOnly(t *testing.T) {
	j := least()
	j.Filters = []filter.Filter{{Name: "thin", Depth: units.Inch, MERV: 8}}
	j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "thin"}
	plain := solved(t, j)
	j.Readings = []Reading{{FilterDrop: 2 * plain.Today().Clean.FilterDrop, Airflow: plain.Today().Clean.Airflow, FilterIsClean: true}}
	s := solved(t, j)
	drop := func(s *Study, place PlaceKind) units.Pressure {
		i := slices.IndexFunc(s.Sizes, func(z Size) bool { return z.Place == place && z.Filter == "thin" && z.Depth == units.Inch })
		require.GreaterOrEqual(t, i, 0, place)
		return s.Sizes[i].FilterDrop
	}
	assert.Greater(t, drop(s, InSlot), drop(plain, InSlot)*1.5, "the slot takes the filter that was read")
}

// The round that sets the study is not praised for agreeing with it; a later one
// is. What a round contradicts stands with the round and in the Study.
func TestRoundsHoldTheirFindings(t *testing.T) {
	j := least()
	r := Reading{Label: "first", ReturnPlenum: -0.15 * units.InchWater, BlowerInlet: -0.40 * units.InchWater,
		BlowerOutlet: 0.30 * units.InchWater, SupplyPlenum: 0.12 * units.InchWater, Airflow: 1000 * units.CFM}
	again := r
	again.Label = "again"
	swapped := Reading{Label: "swapped", ReturnPlenum: -0.40 * units.InchWater, BlowerInlet: -0.15 * units.InchWater}
	j.Readings = []Reading{r, again, swapped}
	s := solved(t, j)
	for _, f := range s.Readings[0].Findings {
		assert.NotEqual(t, Good, f.Severity, f.In(units.IP))
	}
	assert.Contains(t, codes(s.Readings[1].Findings), "reading_agrees")
	assert.Contains(t, codes(s.Readings[2].Findings), "ports_swapped")
	for _, r := range s.Readings {
		assert.Subset(t, codes(s.Findings), codes(r.Findings))
	}
	assert.NotContains(t, codes(s.Readings[0].Findings), "ports_swapped")
}

// What a round says is held against what the airflow and the parts say of it.
func TestRoundsAreDoubtedByWhatTheyRestOn(t *testing.T) {
	flow := 1000 * units.CFM
	row := func(name message.ID, agrees bool) ReadingRow {
		return ReadingRow{Name: name, Measured: 50, Predicted: 40, Agrees: agrees}
	}
	say := func(r ReadingResult) string {
		return judge.JudgeResult(r).Code + ": " + judge.JudgeResult(r).In(units.IP)
	}
	all := ReadingResult{Airflow: flow, PredictedAirflow: flow, AirflowBasis: "measured", Parts: []ReadingRow{row("return", true)}, Rows: []ReadingRow{row(PortInlet, true)}}

	assert.Contains(t, say(all), "reading_agrees")
	near := all
	near.PredictedAirflow, near.Rows = flow*1.017, []ReadingRow{row(PortInlet, true), row("external static", false)}
	assert.Contains(t, say(near), "reading_port")
	assert.NotContains(t, say(near), "table")
	part := near
	part.Parts, part.Suspect = []ReadingRow{row("return", true), row("coil", false)}, "coil"
	assert.Contains(t, say(part), "the coil reads")
	far := all
	far.PredictedAirflow = flow * 1.3
	assert.Contains(t, say(far), "check tap, speed and table")
	far.AirflowBasis = house.ByTable
	assert.NotContains(t, say(far), "speed and table", "the airflow came from that very table")
	far.AirflowBasis = house.ByRise
	assert.Contains(t, say(far), "heating output")
}

// A drop read over a filter that was not new is never the clean drop, whatever
// the clean law rests on; one read over a new filter is.
func TestFilterAsFound(t *testing.T) {
	j := least()
	j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch}
	clean := solved(t, j).Today().Clean
	read := 2 * clean.FilterDrop
	j.Readings = []Reading{{FilterDrop: read, Airflow: clean.Airflow}}
	rated := []filter.Filter{{Name: "rated", Depth: units.Inch, MERV: 8, Rating: []filter.RatingPoint{{FaceVelocity: clean.FaceVelocity, Drop: clean.FilterDrop}}}}
	for source, filters := range map[string][]filter.Filter{"generic": nil, "rating": rated} {
		j := j.Clone()
		if j.Filters = filters; filters != nil {
			j.Slot.Filter = "rated"
		}
		s := solved(t, j)
		assert.Equal(t, source, s.Today().LawSource)
		assert.InEpsilon(t, float64(clean.FilterDrop), float64(s.Today().Clean.FilterDrop), 0.01)
		assert.Equal(t, Caution, codes(s.Findings)["filter_found"])
		assert.NotContains(t, codes(s.Findings), "reading_part", "the round is held against the filter as found")

		j.Readings[0].FilterDrop = clean.FilterDrop / 3
		s = solved(t, j)
		assert.InEpsilon(t, float64(clean.FilterDrop), float64(s.Today().Clean.FilterDrop), 0.01)
		assert.Equal(t, Caution, codes(s.Findings)["filter_reads_low"])

		j.Readings[0].FilterDrop, j.Readings[0].FilterIsClean = read, true
		s = solved(t, j)
		assert.Equal(t, "gauge", s.Today().LawSource)
		assert.NotContains(t, codes(s.Findings), "filter_found")
	}
}
