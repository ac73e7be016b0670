package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/perturb"
	"returnbench/sizing/units"
)

// One sample of a house differs from the house by its factors, each on its own part: what
// is assumed by one of its name, a generic filter and a slot's entry by theirs, each grille
// and each duct of a branch by one of the branch's name.
func TestFactorsAreOnTheirParts_Identity(t *testing.T) {
	p := perturb.New(Deviations{Gauge: 0.03, BlowerTable: 0.04, Rating: 0.05, Geometry: 0.15, Assumed: 0.25}, 5, 6)
	made := func(j Job, p *perturb.Perturbation) (*house.House, map[string]float64) {
		h, err := house.New(assume.JobWith(j, p), nil)
		require.NoError(t, err)
		a, err := h.Arrange(Option{Name: TodayName}, "today")
		require.NoError(t, err)
		sys, err := h.System(a)
		require.NoError(t, err)
		drops := map[string]float64{}
		for _, part := range sys.Series {
			drops[string(part.Name)] = part.Law(0.4)
		}
		for _, b := range sys.Branches {
			for _, part := range b.Parts {
				drops[b.Name+" "+string(part.Name)] = part.Law(0.2)
			}
		}
		return h, drops
	}
	j := least()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, EntryCoefficient: 2}
	before, was := made(j, nil)
	after, is := made(j, p)
	for name, want := range map[string]float64{"return": p.Assumed("returns"), "coil": p.Assumed("coil"), "supply": p.Assumed("supply"), "filter": p.Assumed("generic filters"), "slot entry": p.SlotEntry()} {
		require.Positive(t, was[name], name)
		assert.InEpsilon(t, want, is[name]/was[name], 1e-9, name)
	}
	assert.InEpsilon(t, p.Assumed("equipment.eer"), after.Equipment.EER/before.Equipment.EER, 1e-12)
	for i, tap := range before.Equipment.Blower.Taps {
		for k := range tap.Points {
			assert.InEpsilon(t, p.Assumed("blower"), float64(after.Equipment.Blower.Taps[i].Points[k].Airflow/tap.Points[k].Airflow), 1e-12)
		}
	}

	j = ducts()
	j.Returns[1].Grille.Rating = []duct.GrilleRating{{Airflow: 500 * units.CFM, Drop: 0.03 * units.InchWater}}
	j.Filters[0] = filter.Filter{Name: "own", Depth: units.Inch, MERV: 8, Width: 20 * units.Inch, Height: 25 * units.Inch, Pleats: 24, MediaResistance: 60}
	before, was = made(j, nil)
	after, is = made(j, p) // typed drops are moved before, with the job
	for name, want := range map[string]float64{"hall grille": p.Factor(0.15, "return", "hall", "grille"), "hall duct": p.Factor(0.15, "return", "hall", "duct"),
		"den grille": p.Factor(0.05, "return", "den", "grille"), "den duct": p.Factor(0.15, "return", "den", "duct"), "coil": 1, "supply": 1, "filter": p.PleatModel(0.05)} {
		require.Positive(t, was[name], name)
		assert.InEpsilon(t, want, is[name]/was[name], 1e-9, name)
	}
	assert.Equal(t, before.Equipment.Blower, after.Equipment.Blower)

	// Of a table's straight lines a sample reads between the two ways of its own.
	require.Positive(t, p.TableReading())
	assert.Less(t, p.TableReading(), 1.0)
}

// What a blower table holds is noted.
func TestTablesWithPartsAreNoted_Identity(t *testing.T) {
	j := pinned()
	j.Equipment.Blower.Includes = []blower.Included{blower.IncludesWetCoil, blower.IncludesFilter}
	s := solved(t, j)
	assert.Equal(t, "the blower table was measured with a wet coil: its drop is inside the table", assumption(t, s, "coil").Text.String())
	assert.Equal(t, "the blower table was measured with a clean throw-away filter of 16.00 in by 25.00 in in place", assumption(t, s, "equipment.blower.includes").Text.String())
	c := s.Today().Clean
	_, has := coilDrop(c)
	assert.False(t, has)
	sum := 0.0
	for _, p := range c.Parts {
		sum += float64(p.Drop)
	}
	assert.InEpsilon(t, float64(c.ExternalStatic), sum, 1e-9)
}

// A sample takes a make's law from a few solutions about what its media resist: in each
// face, 20x25 and 16x25, as though it were solved in full.
func TestMovedLawsAreTheLaws_Identity(t *testing.T) {
	j := pinned()
	j.Filters[0] = filter.Filter{Name: "own", MERV: 8, Pleats: 24, MediaResistance: 60}
	j.Options = []Option{{Name: "narrow", Slot: Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}}}
	laws := house.NewMovedLaws(j.Filters)
	for i := range 3 {
		p := perturb.New(Deviations{Rating: 0.1}, 1, i)
		var drops [2][]float64
		for k, memo := range []*house.LawCache{laws, nil} {
			h, err := house.New(assume.JobWith(p.PerturbJob(j), p), memo)
			require.NoError(t, err)
			for _, o := range []Option{{Name: TodayName}, j.Options[0]} {
				a, err := h.Arrange(o, "option")
				require.NoError(t, err)
				drops[k] = append(drops[k], float64(a.Places[0].Law.Drop(250*units.FPM)))
			}
		}
		assert.InEpsilonSlice(t, drops[1], drops[0], 1e-4)
		assert.Less(t, drops[0][1], 0.95*drops[0][0], "the faces differ")
	}
}
