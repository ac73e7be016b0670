package sizing

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/money"
	"returnbench/sizing/processor"
	"returnbench/sizing/search"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

// A part brought down to what Reach asks moves just the airflow asked for.
func TestReach_Identity(t *testing.T) {
	j := least()
	j.Supply.Drop, j.Supply.Airflow, j.Supply.Exponent = 0.1*units.InchWater, 1200*units.CFM, 2
	target := 1180 * units.CFM
	r, err := FindUpgrades(context.Background(), j, target, nil)
	require.NoError(t, err)
	require.False(t, r.OffTable)
	assert.Positive(t, float64(r.Available))
	for _, l := range r.RequiredDrops {
		if l.Part != "supply" {
			continue
		}
		require.True(t, l.Possible)
		j.Supply.Drop, j.Supply.Airflow = l.Needed, target
		assert.InEpsilon(t, float64(target), float64(solved(t, j).Today().Clean.Airflow), 1e-8)
	}
}

func TestReachNamesAFilterThatDoes(t *testing.T) {
	j := least()
	r, err := FindUpgrades(context.Background(), j, 1180*units.CFM, nil)
	require.NoError(t, err)
	for _, l := range r.RequiredDrops {
		if l.Part == "filter" {
			assert.Greater(t, l.Face, solved(t, j).Today().FaceArea)
			assert.NotEmpty(t, l.Size)
		}
	}
	r, err = FindUpgrades(context.Background(), j, 1420*units.CFM, nil)
	require.NoError(t, err)
	for _, l := range r.RequiredDrops {
		assert.False(t, l.Possible, "no one part gives so much: %s", l.Part)
	}
}

// choked is a house with two returns of which one has a small, slack duct, a
// thin filter and a blower with three taps.
func choked() Job {
	j := twoReturns()
	j.DesignAirflow = 1200 * units.CFM
	return j
}

// Each way, taken into the job, reaches the airflow there too; with any one of
// its changes left out it would not, since a smaller set that reaches it is
// listed instead.
func TestUpgradesReachTheTarget(t *testing.T) {
	for _, j := range []Job{least(), pleated(), choked()} {
		today := solved(t, j).Today().Clean.Airflow
		for _, more := range []float64{1.01, 1.05, 1.12} {
			target := today * units.Flow(more)
			var parts []float64
			r, err := FindUpgrades(context.Background(), j, target, func(p float64) { parts = append(parts, p) })
			require.NoError(t, err)
			require.Equal(t, today, r.Today)
			require.True(t, slices.IsSorted(parts), "progress never goes back")
			require.True(t, parts[0] > 0 && parts[0] < 1.0/3, "one change of one is tried: %g", parts[0])
			require.Equal(t, 1.0, parts[len(parts)-1])
			for i, w := range r.Upgrades {
				taken := j.Clone()
				name := upgrade.AddUpgrade(units.IP, &taken, w)
				got := solved(t, taken).Option(name)
				require.NotNil(t, got, name)
				assert.False(t, study.Short(got.Clean.Airflow, target), name)
				assert.InEpsilon(t, float64(w.Result.Clean.Airflow), float64(got.Clean.Airflow), 1e-9, name)
				assert.Equal(t, w.Result.Verdict, got.Verdict, name)
				assert.Equal(t, w.Result.TenYearKnown, got.TenYearKnown, name)
				assert.InEpsilon(t, float64(money.TenYearsOfKnown(&w.Result)), float64(money.TenYearsOfKnown(got)), 1e-9, name)
				for k := range w.Changes {
					fewer := slices.Delete(slices.Clone(w.Changes), k, k+1)
					assert.False(t, slices.ContainsFunc(r.Upgrades, func(o Upgrade) bool { return o.Name() == (&Upgrade{Changes: fewer}).Name() }), "%s holds %v, which does", name, fewer)
				}
				if i > 0 {
					assert.LessOrEqual(t, len(r.Upgrades[i-1].Changes), len(w.Changes))
				}
			}
			for _, w := range r.FallShort {
				assert.True(t, study.Short(w.Result.Clean.Airflow, target))
				assert.InEpsilon(t, float64(target-w.Result.Clean.Airflow), float64(w.Lacks), 1e-12)
			}
			assert.NotZero(t, r.Tried)
			assert.NotEmpty(t, append(r.Upgrades, r.FallShort...))
		}
	}
}

func TestTargetOutOfReachOfEveryChange(t *testing.T) {
	r, err := FindUpgrades(context.Background(), choked(), 4000*units.CFM, nil)
	require.NoError(t, err)
	assert.Empty(t, r.Upgrades)
	assert.True(t, r.OffTable)
	together := 0
	for _, w := range r.FallShort {
		together = max(together, len(w.Changes))
	}
	assert.Greater(t, together, 1, "the best that was tried together is told too")
}

func TestSearchEndsWhenCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	calls := 0
	_, err := FindUpgrades(ctx, choked(), 4000*units.CFM, func(float64) {
		calls++
		stop()
	})
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, 1, calls)
}

func TestReachWantsAnAirflow(t *testing.T) {
	for _, q := range []units.Flow{0, -1} {
		_, err := FindUpgrades(context.Background(), least(), q, nil)
		var faults FieldErrors
		require.ErrorAs(t, err, &faults)
		assert.NotNil(t, faults.At("target"))
	}
}

// A filter at the equipment takes the place of those behind the grilles, and
// sizes taken one after another keep their own depth.
func TestAddedUpgradeLeavesOneFilterPlace(t *testing.T) {
	j := twoReturns()
	for i := range j.Returns {
		j.Returns[i].Filter, j.Returns[i].Grille.Width, j.Returns[i].Grille.Height = j.Filters[0].Name, 20*units.Inch, 20*units.Inch
	}
	j.Slot = Slot{None: true}
	s := solved(t, j)
	require.NotNil(t, s.SuggestedSizes.Slot)
	require.NotNil(t, s.SuggestedSizes.Cabinet)
	taken := j.Clone()
	slot, cabinet := search.AddSize(units.IP, &taken, *s.SuggestedSizes.Slot), search.AddSize(units.IP, &taken, *s.SuggestedSizes.Cabinet)
	after := solved(t, taken)
	for name, size := range map[string]*Size{slot: s.SuggestedSizes.Slot, cabinet: s.SuggestedSizes.Cabinet} {
		o := after.Option(name)
		assert.InEpsilon(t, float64(size.Airflow), float64(o.Clean.Airflow), 0.02, name)
		for _, b := range o.Clean.Branches {
			assert.Zero(t, b.FilterDrop, name)
		}
	}
}

func BenchmarkReach(b *testing.B) {
	j := choked()
	defer processor.Report(b)()
	for b.Loop() {
		if _, err := FindUpgrades(context.Background(), j, 4000*units.CFM, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// Past some count more pleats choke their own channels, so an optimum exists,
// and deeper packs have theirs at a lower drop.
func TestSweepHasAnOptimum(t *testing.T) {
	f := filter.Filter{Name: "f", Width: 20 * units.Inch, Height: 20 * units.Inch, MERV: 11, MediaResistance: 60}
	sweeps, err := SweepPleats(f, 300*units.FPM, 0, []units.Length{1 * units.Inch, 2 * units.Inch, 4 * units.Inch})
	require.NoError(t, err)
	require.Len(t, sweeps, 3)
	for i, s := range sweeps {
		assert.Greater(t, s.Best, 0)
		assert.Less(t, s.Best, len(s.Points)-1, "the drop rises again at %v", s.Depth)
		if i > 0 {
			assert.Less(t, s.Points[s.Best].Drop, sweeps[i-1].Points[sweeps[i-1].Best].Drop)
		}
		for k := 1; k < len(s.Points); k++ {
			assert.Greater(t, s.Points[k].MediaArea, s.Points[k-1].MediaArea)
		}
	}
}
