package sizing

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// What an option says of its filters: where they are, of which size, how deep, the casing
// round them, their price by the depth of which nobody typed one, 9 $ an inch, and the
// curve of their drop in 25 steps up to twice the target of 300 fpm.
func TestPlacesInWords_Identity(t *testing.T) {
	j := pinned()
	j.Limits.CasingFace, j.Limits.CasingDepth = 1.5*units.Inch, 3*units.Inch
	j.Filters = append(j.Filters, filter.Filter{Name: "deep", Depth: 4 * units.Inch, MERV: 11}, filter.Filter{Name: "no depth", MERV: 8}, filter.Filter{Name: "priced", Depth: 2 * units.Inch, MERV: 8, Price: 33})
	grilles := inGrilles().Returns
	grilles[0].Filter, grilles[1].Filter = "no depth", "priced"
	j.Options = []Option{
		{Name: "two", Slot: Slot{Width: 16 * units.Inch, Height: 20 * units.Inch, Depth: 4 * units.Inch, Count: 2, Stacked: true, Filter: "deep"}},
		{Name: "grilles", Slot: Slot{None: true}, Returns: grilles},
		{Name: "one grille", Slot: Slot{None: true}, Returns: grilles[1:]},
		{Name: "both", Returns: grilles},
		{Name: "wall", Slot: Slot{Width: 20 * units.Inch, Height: 30 * units.Inch, AtGrilles: true, Filter: "no depth"}},
		{Name: "by filter", Filter: "deep", Slot: Slot{Depth: 4 * units.Inch}},
		{Name: "everywhere", Filter: "no depth", Returns: grilles},
	}
	s := solved(t, j)
	for name, want := range map[string]string{TodayName: "slot 20x25x1", "two": "cabinet 2 x 16x20x4", "grilles": "2 grilles, first 20x20x1", "one grille": "grille 20x25x2", "both": "slot 20x25x1", "wall": "grille 20x30x1",
		"by filter": "cabinet 20x25x4", NoFilterName: ""} {
		assert.Equal(t, want, s.Option(name).Place.String(), name)
	}
	two := s.Option("two")
	require.NotNil(t, two.Assembly)
	assert.InDelta(t, 17.5, two.Assembly.Width.In(units.Inch), 1e-9, "16 and 1 1/2")
	assert.InDelta(t, 41.5, two.Assembly.Height.In(units.Inch), 0.8, "twice 20 and 1 1/2, with what stands between")
	assert.InDelta(t, 7, two.Assembly.Depth.In(units.Inch), 1e-9)
	assert.True(t, two.Assembly.Stacked)
	assert.InDelta(t, 640, two.FaceArea.In(units.SquareInch), 1e-6)
	assert.Equal(t, 2, two.Places[0].Count)
	assert.InDelta(t, 36, float64(two.Places[0].Price), 1e-9, "4 in at 9")
	assert.InDelta(t, 2*12/two.Places[0].Life.In(units.Month), two.Places[0].PerYear, 1e-9)
	assert.InDelta(t, 640, two.Places[0].FaceArea.In(units.SquareInch), 1e-6)
	assert.Equal(t, []any{InCabinet, -1, "", "deep"}, []any{two.Places[0].Where, two.Places[0].Branch, two.Places[0].Return.Given, two.Places[0].Filter})
	assert.Equal(t, 11, two.Efficiency.MERV)
	assert.Nil(t, s.Option("grilles").Assembly)
	assert.Nil(t, s.Option("wall").Assembly)
	g := s.Option("grilles").Places
	require.Len(t, g, 2)
	assert.InDelta(t, 1, g[0].Depth.In(units.Inch), 1e-9, "none was said")
	assert.InDelta(t, 2, g[1].Depth.In(units.Inch), 1e-9)
	assert.Equal(t, []units.Money{9, 33}, []units.Money{g[0].Price, g[1].Price})
	assert.Equal(t, []any{InGrille, 0, "hall", InGrille, 1, "den"}, []any{g[0].Where, g[0].Branch, g[0].Return.Given, g[1].Where, g[1].Branch, g[1].Return.Given})
	assert.True(t, g[0].MediaAreaAssumed && g[0].CapacityAssumed)
	both := s.Option("both").Places
	require.Len(t, both, 3, "a slot and two grilles")
	assert.InDelta(t, 1, both[2].AirShare, 1e-9)
	for i, p := range s.Option("everywhere").Places {
		assert.Equal(t, "no depth", p.Filter, "%d", i)
	}
	assert.Equal(t, "own", s.Today().Places[0].Filter)

	// A set of filters in a row: what passes the grilles' reaches the slot's.
	in := s.Option("both")
	pass := func(k, size int) float64 { // of a size of dust, by each place's MERV 8
		return 1 - in.Efficiency.BySize[size]
	}
	for i := range in.Efficiency.Installed {
		assert.InDelta(t, 1-pass(0, i)*pass(2, i), in.Efficiency.Installed[i], 1e-6)
	}
	o := s.Today()
	require.Len(t, o.FilterCurve, 25)
	for i, p := range o.FilterCurve {
		assert.InDelta(t, 600*float64(i+1)/25, p.FaceVelocity.In(units.FPM), 1e-6)
	}
	assert.InEpsilon(t, 0.2507, o.FilterCurve[11].Drop.In(units.InchWater), 2e-3, "at 288 fpm")
	assert.Equal(t, "rating", o.LawSource)
	assert.Equal(t, "generic", two.LawSource)

	// A make of 24 pleats in 20 in of its own width has 19 in one of 16.
	made := pinned()
	made.Filters[0] = filter.Filter{Name: "own", Depth: units.Inch, MERV: 8, Width: 20 * units.Inch, Height: 25 * units.Inch, Pleats: 24, MediaResistance: 60}
	made.Options = []Option{{Name: "narrow", Slot: Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}}}
	s = solved(t, made)
	assert.Equal(t, []int{24, 19}, []int{s.Today().Pleats, s.Option("narrow").Pleats})
	assert.Equal(t, "make", s.Today().LawSource)
	assert.EqualValues(t, "geometry", partOf(t, &s.Today().Clean, "filter").Basis)
}

// What an option leaves open it takes from its filter, else from today, else as usual.
func TestWhatAnOptionLeavesOpen_Identity(t *testing.T) {
	j := pinned()
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Count: 2, Stacked: true, Filter: "own"}
	sized := filter.Filter{Name: "sized", Depth: 4 * units.Inch, Width: 16 * units.Inch, Height: 20 * units.Inch, MERV: 11}
	j.Filters = append(j.Filters, sized)
	j.Options = []Option{
		{Name: "depth", Slot: Slot{Depth: 2 * units.Inch}},
		{Name: "filter", Slot: Slot{Filter: "sized"}},
		{Name: "option's filter", Filter: "sized", Slot: Slot{EntryCoefficient: 1}},
		{Name: "count", Slot: Slot{Depth: 2 * units.Inch, Count: 1}},
		{Name: "none", Filter: "sized", Slot: Slot{None: true}},
	}
	s := solved(t, j)
	type size struct {
		w, h, d float64
		n       int
		filter  string
	}
	for name, want := range map[string]size{TodayName: {20, 25, 1, 2, "own"}, "depth": {20, 25, 2, 2, "own"}, "filter": {16, 20, 4, 1, "sized"}, "option's filter": {16, 20, 4, 1, "sized"}, "count": {20, 25, 2, 1, "own"}} {
		p := s.Option(name).Places
		require.Len(t, p, 1, name)
		assert.Equal(t, want, size{math.Round(p[0].Width.In(units.Inch)), math.Round(p[0].Height.In(units.Inch)), math.Round(p[0].Depth.In(units.Inch)), p[0].Count, p[0].Filter}, name)
	}
	assert.Empty(t, s.Option("none").Places)
	assert.Zero(t, s.Option("none").Clean.FilterDrop)
	assert.Zero(t, s.Option("none").FaceArea)

	// Where today has no slot a new one is as usual: 16x25x1 up to 1400 cfm, with a generic filter.
	without := inGrilles()
	without.Options = []Option{{Name: "slot", Slot: Slot{EntryCoefficient: 1}}}
	p := solved(t, without).Option("slot").Places
	require.Len(t, p, 3)
	assert.Equal(t, size{16, 25, 1, 1, GenericFilterName}, size{math.Round(p[2].Width.In(units.Inch)), math.Round(p[2].Height.In(units.Inch)), math.Round(p[2].Depth.In(units.Inch)), p[2].Count, p[2].Filter})

	// A filter of an option goes into every place that has one, today's or its own.
	every := inGrilles()
	every.Filters = append(every.Filters, filter.Filter{Name: "other", Depth: units.Inch, MERV: 11})
	every.Options = []Option{{Name: "other", Filter: "other"}, {Name: "again", Filter: "own"}}
	s = solved(t, every)
	for name, want := range map[string]string{TodayName: "own", "other": "other", "again": "own"} {
		for _, p := range s.Option(name).Places {
			assert.Equal(t, want, p.Filter, name)
		}
	}

	// Which work has no price: new returns, another slot, another speed; other filters and
	// taps are none.
	w := pinned()
	w.Equipment.Blower.Motor = blower.PSC
	w.Filters = append(w.Filters, filter.Filter{Name: "other", Depth: units.Inch, MERV: 8})
	w.Equipment.Blower.Taps = append(w.Equipment.Blower.Taps, pinnedTap("high", 1200, 600))
	w.Equipment.Blower.CoolingTap = "only"
	w.Options = []Option{{Name: "filter", Filter: "other"}, {Name: "tap", Tap: "high"}, {Name: "speed", SpeedRatio: 1.1}, {Name: "same speed", SpeedRatio: 1},
		{Name: "returns", Returns: w.Returns}, {Name: "slot", Slot: Slot{Width: 20 * units.Inch, Height: 30 * units.Inch, Depth: units.Inch}}, {Name: "priced", SpeedRatio: 1.1, Price: 400},
		{Name: "same slot", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "other"}}}
	s = solved(t, w)
	for name, known := range map[string]bool{"filter": true, "tap": true, "speed": false, "same speed": true, "returns": false, "slot": false, "priced": true, "same slot": true} {
		o := s.Option(name)
		assert.Equal(t, known, o.UpgradeKnown, name)
		assert.Equal(t, known, o.TenYearKnown, name)
		assert.Equal(t, known, o.TenYearCost > 0, name)
	}
	assert.InDelta(t, 1200, s.Option("tap").Clean.Airflow.In(units.CFM), 0.02)
	assert.Equal(t, "high", s.Option("tap").Tap)
	assert.InDelta(t, 1000, s.Option("tap").Clean.HeatingAirflow.In(units.CFM), 0.02, "heating stays on its own")
	assert.InDelta(t, 1100, s.Option("speed").Clean.Airflow.In(units.CFM), 0.5)
	assert.InDelta(t, 1100, s.Option("speed").Clean.HeatingAirflow.In(units.CFM), 0.5)
	assert.InDelta(t, 1.1, s.Option("speed").SpeedRatio, 1e-12)
	// Ten years at 3 % are worth (1 - 1.03^-10)/0.03 = 8.5302 years; the price is paid once.
	o := s.Option("priced")
	assert.InEpsilon(t, 400+8.5302*float64(o.AnnualCost), float64(o.TenYearCost), 1e-5)
	assert.InEpsilon(t, 8.5302*float64(o.AnnualPower), float64(o.TenYearPower), 1e-5)
	assert.InEpsilon(t, 8.5302*float64(o.AnnualOutdoor), float64(o.TenYearOutdoor), 1e-5)
	assert.InEpsilon(t, 8.5302*float64(o.AnnualFilter), float64(o.TenYearFilter), 1e-5)
	assert.InEpsilon(t, float64(o.AnnualPower+o.AnnualOutdoor+o.AnnualFilter), float64(o.AnnualCost), 1e-9)
	assert.True(t, o.Payback.Known)
	assert.False(t, o.Payback.Pays, "it saves nothing")
	assert.Zero(t, s.Option("filter").Payback, "it costs nothing")
	assert.False(t, s.Option("slot").Payback.Known)
}

// Ports by equipment: after an air handler, and where no coil stands, what is read after
// the blower is read in the supply; inside an air handler it counts for nothing.
func TestPortsByEquipment_Identity(t *testing.T) {
	in := units.InchWater
	read := func(kind EquipmentKind, r Reading) *Study {
		j := pinned()
		j.Equipment.Kind, j.Coil = kind, Part{}
		if kind == FurnaceWithCoil {
			j.Coil = pinned().Coil
		}
		r.Airflow = 1000 * units.CFM
		j.Readings = []Reading{r}
		return solved(t, j)
	}
	s := read(Furnace, Reading{BlowerInlet: -0.45 * in, BlowerOutlet: 0.15 * in})
	assert.InDelta(t, 0.15, partOf(t, &s.Today().Clean, "supply").Drop.In(in), 1e-4)
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 1e-9)
	assert.EqualValues(t, "gauge", partOf(t, &s.Today().Clean, "supply").Basis)
	s = read(Furnace, Reading{BlowerInlet: -0.45 * in, BlowerOutlet: 0.25 * in, SupplyPlenum: 0.15 * in})
	assert.InDelta(t, 0.15, partOf(t, &s.Today().Clean, "supply").Drop.In(in), 1e-4)
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 0.101)
	s = read(FurnaceWithCoil, Reading{BlowerInlet: -0.45 * in, BlowerOutlet: 0.15 * in})
	assert.InDelta(t, 0.08, partOf(t, &s.Today().Clean, "supply").Drop.In(in), 1e-4, "the coil is in what was read")
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 1e-9)
	s = read(FurnaceWithCoil, Reading{BlowerInlet: -0.45 * in, SupplyPlenum: 0.15 * in})
	assert.Zero(t, s.Readings[0].ExternalStatic, "what the coil takes is not known")
	assert.InDelta(t, 0.15, partOf(t, &s.Today().Clean, "supply").Drop.In(in), 1e-4)
	s = read(AirHandler, Reading{BlowerInlet: -0.45 * in, SupplyPlenum: 0.15 * in})
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 1e-9)
	s = read(AirHandler, Reading{BlowerInlet: -0.45 * in, BlowerOutlet: 0.5 * in, SupplyPlenum: 0.15 * in})
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 1e-9)
	assert.Equal(t, "The port after the blower is inside the air handler, before its coil: its 0.500 in. w.c. is not counted. Read the return and the supply outside the cabinet.", said(t, s, "", "inside_handler"))
	s = read(AirHandler, Reading{BlowerInlet: -0.45 * in, BlowerOutlet: 0.15 * in})
	assert.InDelta(t, 0.60, s.Readings[0].ExternalStatic.In(in), 1e-9, "the one port read is the supply's")

	// With the filters in the grilles the plenum is the inlet, whichever was read.
	for _, r := range []Reading{{ReturnPlenum: -0.5 * in}, {BlowerInlet: -0.5 * in}, {ReturnPlenum: -0.5 * in, BlowerInlet: -0.5 * in}} {
		j := inGrilles()
		r.Airflow, r.BlowerOutlet, r.FilterDrop = 1000*units.CFM, 0.2*in, 0.3*in
		j.Readings = []Reading{r}
		s := solved(t, j)
		assert.InDelta(t, 0.70, s.Readings[0].ExternalStatic.In(in), 1e-9)
		rows := map[message.ID]float64{}
		for _, row := range s.Readings[0].Rows {
			rows[row.Name] = row.Measured.In(in)
		}
		assert.InDelta(t, -0.5, rows[PortReturn], 1e-9)
		assert.InDelta(t, -0.5, rows[PortInlet], 1e-9)
		assert.InDelta(t, 0.3, rows["filter drop"], 1e-9)
	}
	j := inGrilles()
	j.Readings = []Reading{{ReturnPlenum: -0.4 * in, BlowerInlet: -0.5 * in, Airflow: 1000 * units.CFM}}
	s = solved(t, j)
	rows := map[message.ID]float64{}
	for _, row := range s.Readings[0].Rows {
		rows[row.Name] = row.Measured.In(in)
	}
	assert.InDelta(t, -0.4, rows[PortReturn], 1e-9)
	assert.InDelta(t, -0.5, rows[PortInlet], 1e-9)
	assert.NotContains(t, rows, "filter drop", "the two ports stand on one side of the filters")
}

// A duct without ends has the usual ones: a box behind a grille or a flush entry, and a
// discharge at the section of the last run, named where the first is another.
func TestEndsOfADuct(t *testing.T) {
	round := duct.Run{Shape: duct.Round, Diameter: 10 * units.Inch, Length: 1}
	rect := duct.Run{Shape: duct.Rectangular, Width: 8 * units.Inch, Height: 12 * units.Inch, Length: 1}
	for i, c := range []struct {
		r    Return
		want []duct.Fitting
	}{
		{Return{Runs: []duct.Run{round}}, []duct.Fitting{{Kind: duct.FlushEntry}, {Kind: duct.DischargeIntoPlenum}}},
		{Return{Runs: []duct.Run{round, rect}}, []duct.Fitting{{Kind: duct.FlushEntry}, {Kind: duct.DischargeIntoPlenum, Width: 8 * units.Inch, Height: 12 * units.Inch}}},
		{Return{Runs: []duct.Run{rect, round}}, []duct.Fitting{{Kind: duct.FlushEntry}, {Kind: duct.DischargeIntoPlenum, Diameter: 10 * units.Inch}}},
		{Return{Runs: []duct.Run{round}, Grille: duct.Grille{Width: 0.3, Height: 0.3}}, []duct.Fitting{{Kind: duct.BootStraight}, {Kind: duct.DischargeIntoPlenum}}},
		{Return{Runs: []duct.Run{round}, Fittings: []duct.Fitting{{Kind: duct.ElbowFiveGore}, {Kind: duct.BootStraight}}}, []duct.Fitting{{Kind: duct.ElbowFiveGore}, {Kind: duct.BootStraight}, {Kind: duct.DischargeIntoPlenum}}},
		{Return{Runs: []duct.Run{round}, Fittings: []duct.Fitting{{Kind: duct.DischargeIntoPlenum}}}, []duct.Fitting{{Kind: duct.DischargeIntoPlenum}, {Kind: duct.FlushEntry}}},
		{Return{Runs: []duct.Run{round}, Fittings: []duct.Fitting{{Kind: duct.PlenumTakeoff}}}, []duct.Fitting{{Kind: duct.PlenumTakeoff}, {Kind: duct.FlushEntry}, {Kind: duct.DischargeIntoPlenum}}},
		{Return{Runs: []duct.Run{round}, Ends: NoEnds}, nil},
	} {
		j := pinned()
		j.Returns = []Return{c.r}
		for k, f := range solvedHouse(solved(t, j)).Returns[0].Fittings {
			require.Less(t, k, len(c.want), "%d", i)
			assert.Equal(t, c.want[k], f, "%d", i)
		}
		assert.Len(t, solvedHouse(solved(t, j)).Returns[0].Fittings, len(c.want), "%d", i)
	}
}

// Samples are reported one by one, and as many as are asked for; the same with any number of
// workers.
func TestSamplesAreReported(t *testing.T) {
	var told []int
	one, err := Sampling{Samples: 7, Seed: 3, Workers: 1, Done: func(n int) { told = append(told, n) }}.Ranges(context.Background(), pinned())
	require.NoError(t, err)
	assert.Equal(t, []int{1, 2, 3, 4, 5, 6, 7}, told)
	many, err := Sampling{Samples: 7, Seed: 3, Workers: 5}.Ranges(context.Background(), pinned())
	require.NoError(t, err)
	assert.Equal(t, one[1].Drawn["airflow"], many[1].Drawn["airflow"])
	assert.Equal(t, 7, one[1].Samples)
	assert.Zero(t, one[1].Unsolved)
	require.Len(t, one[1].Drawn["airflow"], 7)
	other, err := Sampling{Samples: 7, Seed: 4, Workers: 1}.Ranges(context.Background(), pinned())
	require.NoError(t, err)
	assert.NotEqual(t, one[1].Drawn["airflow"], other[1].Drawn["airflow"])
	bad := pinned()
	bad.DesignAirflow = -1
	_, err = Sampling{Samples: 3}.Ranges(context.Background(), bad)
	assert.Error(t, err)
}

// The media area that is assumed is told for the depth that the filter has, 4 in, though
// the search has tried it in others too.
func TestMediaAreaIsToldForItsDepth_Identity(t *testing.T) {
	j := pinned()
	j.Filters, j.Slot = nil, Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}
	s := solved(t, j)
	p := s.Today().Places[0]
	require.True(t, p.MediaAreaAssumed)
	ratio := float64(p.MediaArea / p.FaceArea)
	require.Greater(t, ratio, 3.0, "1 in deep it has 2.3")
	for range 20 { // the laws of a house have no order
		told := ""
		for _, a := range solved(t, j).Assumptions {
			if strings.Contains(a.Text.String(), "times the face") {
				told += a.Text.String()
			}
		}
		assert.Equal(t, fmt.Sprintf("generic MERV 8: media %.1f times the face, by its depth", ratio), told)
	}
}

// A slot of which only the filter is typed has its size, and nothing of it is assumed.
func TestASlotHasTheSizeOfItsFilter(t *testing.T) {
	j := pinned()
	f := &j.Filters[0]
	f.Width, f.Height, f.Depth = 14*units.Inch, 20*units.Inch, 2*units.Inch
	j.Slot = Slot{Filter: "own"}
	s := solved(t, j)
	p := s.Today().Places[0]
	assert.Equal(t, []units.Length{f.Width, f.Height, f.Depth}, []units.Length{p.Width, p.Height, p.Depth})
	assert.False(t, s.Assumed("slot.width") || s.Assumed("slot.depth"))
}

// An option that is laid out keeps what was typed: the slack of its flex stays open.
func TestArrangingChangesNoOption(t *testing.T) {
	h := solvedHouse(solved(t, pinned()))
	o := Option{Name: "flex", Returns: []Return{{Name: "hall", Runs: []duct.Run{{Shape: duct.Flex, Diameter: 12 * units.Inch, Length: 10 * units.Foot}}}}}
	a, err := h.Arrange(o, KindOption)
	require.NoError(t, err)
	assert.InDelta(t, 0.04, a.Returns[0].Runs[0].Compression, 1e-12, "as of a new flex")
	assert.Zero(t, o.Returns[0].Runs[0].Compression)
	assert.Empty(t, o.Returns[0].Fittings)

	// A filter for every place leaves today's where it is.
	h = solvedHouse(solved(t, inGrilles()))
	a, err = h.Arrange(Option{Name: "fine", Filter: GenericFilterName}, KindOption)
	require.NoError(t, err)
	assert.Equal(t, GenericFilterName, a.Returns[0].Filter)
	assert.Equal(t, "own", h.Returns[0].Filter)
}
