package stock_test

import (
	"cmp"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/published"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

func names(sizes []stock.Size) []string {
	var out []string
	for _, s := range sizes {
		out = append(out, s.String())
	}
	return out
}

func lists() map[string][]stock.Size {
	return map[string][]stock.Size{
		"filters": stock.Filters(), "cabinets": stock.Cabinets(), "grilles": stock.Grilles(),
		"filter grilles": stock.FilterGrilles(),
		"rectangulars":   slices.Concat(stock.Rectangulars(units.InchPound), stock.Rectangulars(units.Metric)),
	}
}

func TestListsAreInOrder(t *testing.T) {
	for name, sizes := range lists() {
		require.NotEmpty(t, stock.Of(units.InchPound, sizes), name)
		require.NotEmpty(t, stock.Of(units.Metric, sizes), name)
		seen := map[string]bool{}
		for i, s := range sizes {
			assert.False(t, seen[s.String()], "%s: %s twice", name, s)
			seen[s.String()] = true
			assert.LessOrEqual(t, s.Width, s.Height, "%s: %s: smaller side first", name, s)
			assert.Positive(t, s.Width.SI())
			if i > 0 && sizes[i-1].System == s.System {
				assert.GreaterOrEqual(t, s.Face(), sizes[i-1].Face(), "%s: %s", name, s)
			}
		}
	}
	for _, sys := range []units.System{units.InchPound, units.Metric} {
		for _, diameters := range [][]units.Length{stock.Rounds(sys), stock.Flexes(sys)} {
			require.NotEmpty(t, diameters)
			assert.True(t, slices.IsSorted(diameters))
		}
		for _, d := range stock.Flexes(sys) {
			assert.Contains(t, stock.Rounds(sys), d, "a flex slips on a round collar of its size")
		}
	}
}

func TestListsCannotBeSpoiled(t *testing.T) {
	stock.Filters()[0] = stock.Size{}
	stock.Rounds(units.InchPound)[0] = 0
	assert.NotZero(t, stock.Filters()[0])
	assert.NotZero(t, stock.Rounds(units.InchPound)[0])
}

func TestCabinetsAndGrillesTakeAFilter(t *testing.T) {
	filters := stock.Filters()
	for _, c := range stock.Cabinets() {
		assert.Contains(t, filters, c)
	}
	for _, g := range stock.FilterGrilles() {
		fits := stock.FiltersFor(g)
		require.NotEmpty(t, fits, g)
		assert.LessOrEqual(t, fits[0].Depth, 2*units.Inch, g)
	}
	assert.Equal(t, []string{"20x25x1", "20x25x2", "20x25x4", "20x25x5"},
		names(stock.FiltersFor(stock.Size{Width: 25 * units.Inch, Height: 20 * units.Inch})))
}

// The sizes that any house with forced air has met.
func TestEverydaySizesAreListed(t *testing.T) {
	assert.Subset(t, names(stock.Filters()), []string{
		"10x20x1", "14x20x1", "16x20x1", "16x25x1", "20x20x1", "20x25x1", "24x24x1", "25x25x1", "20x30x1", "24x30x1",
		"16x25x4", "20x25x4", "16x25x5", "20x25x5", "20x20x2", "592x592x48 mm", "490x592x48 mm", "287x592x48 mm"})
	assert.Subset(t, names(stock.Grilles()), []string{"8x8", "14x20", "20x20", "12x24", "30x36"})
	assert.Subset(t, names(stock.FilterGrilles()), []string{"14x20", "20x25", "20x30", "24x24"})
	assert.Equal(t, 4*units.Inch, stock.Rounds(units.InchPound)[0])
	assert.Equal(t, 24*units.Inch, slices.Max(stock.Rounds(units.InchPound)))
	assert.InDelta(t, 0.63, slices.Max(stock.Rounds(units.Metric)).SI(), 1e-12)
}

// Return duct diameters that California's tables ask for, and areas that its
// filter grilles must reach with one or two openings.
func TestStockReachesTitle24_Published(t *testing.T) {
	const source = "California Energy Code, Title 24 part 6, tables 150.0-B and C (from secondary text; check the official text)"
	for _, inches := range []units.Length{10, 12, 14, 16, 18, 20} {
		assert.Contains(t, stock.Rounds(units.InchPound), inches*units.Inch, source)
		assert.Contains(t, stock.Flexes(units.InchPound), inches*units.Inch, source)
	}
	for _, row := range []struct{ tons, area float64 }{
		{1.5, 500}, {2, 600}, {2.5, 800}, {3, 900}, {3.5, 1000}, {4, 1200}, {5, 1500},
	} {
		best := math.Inf(1)
		grilles := stock.Of(units.InchPound, stock.FilterGrilles())
		for _, a := range grilles {
			for _, b := range grilles {
				if sum := (a.Face() + b.Face()).In(units.SquareInch); sum >= row.area-1e-6 {
					best = min(best, sum)
				}
			}
		}
		published.Check(t, published.Row{
			Name: "least area of two filter grilles", Source: source, Got: best, Want: row.area,
			Tolerance: 0.01, Relative: true, Why: "sums of two nominal faces do not fall on each printed area",
		})
	}
}

func TestMetricRounds_Plausible(t *testing.T) {
	// The preferred diameters are Renard numbers: ten to the decade.
	for k, want := range []float64{100, 125, 160, 200, 250, 315, 400, 500, 630} {
		nearest := slices.MinFunc(stock.Rounds(units.Metric), func(a, b units.Length) int {
			return cmp.Compare(math.Abs(a.In(units.Millimetre)-want), math.Abs(b.In(units.Millimetre)-want))
		})
		published.Check(t, published.Row{
			Name: "preferred diameter", Source: "ISO 3 series R10, as EN 1506 takes it (from memory)",
			Got: nearest.In(units.Millimetre), Want: want, Tolerance: 1e-9, Relative: true,
			Why: "the list has the rounded number itself",
		})
		assert.InEpsilon(t, 100*math.Pow(10, float64(k)/10), want, 0.01, "rounded from ten numbers to the decade")
	}
}

func TestActual(t *testing.T) {
	for name, want := range map[string]string{
		"20x25x1": "19.5x24.5x0.75", "16x20x2": "15.5x19.5x1.75", "20x25x4": "19.625x24.625x3.75", "16x25x5": "15.625x24.625x4.375",
	} {
		i := slices.Index(names(stock.Filters()), name)
		require.GreaterOrEqual(t, i, 0, name)
		assert.Equal(t, want, stock.Filters()[i].Actual().String())
	}
	grille := stock.Size{Width: 14 * units.Inch, Height: 20 * units.Inch}
	assert.Equal(t, grille, grille.Actual())
	for _, f := range stock.Of(units.Metric, stock.Filters()) {
		assert.Equal(t, f, f.Actual())
	}
}

func TestSize_Identity(t *testing.T) {
	for name, sizes := range lists() {
		for _, s := range sizes {
			assert.InEpsilon(t, s.Width.In(units.Foot)*s.Height.In(units.Foot), s.Face().In(units.SquareFoot), 1e-12, name)
			assert.True(t, stock.Fits(s, s.Width, s.Height), "%s in its own opening", s)
			assert.True(t, stock.Fits(s, s.Height, s.Width), "%s turned", s)
			a := s.Actual()
			assert.False(t, stock.Fits(s, a.Width-units.Inch/16, 9*units.Metre), s)
			assert.False(t, stock.Fits(s, a.Width, a.Height-units.Inch/16), s)
		}
	}
	for _, f := range stock.Filters() {
		got, near := stock.Nearest(f.Width, f.Height, f.Depth)
		assert.True(t, near)
		assert.Equal(t, f, got, "by its name")
		a := f.Actual()
		got, near = stock.Nearest(a.Height, a.Width, a.Depth)
		assert.True(t, near)
		assert.Equal(t, f, got, "by its measured frame, turned")
	}
	for _, c := range stock.Cabinets() {
		box := stock.Assembly{Filter: c}.Outside(stock.UsualCasing(c.System))
		assert.Greater(t, box.Width, c.Width)
		assert.Greater(t, box.Height, c.Height)
		assert.Greater(t, box.Depth, c.Depth)
	}
}

func TestFitsMonotone(t *testing.T) {
	filters := stock.Filters()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(filters).Draw(t, "size")
		w := units.Length(rapid.Float64Range(0.1, 1).Draw(t, "width"))
		h := units.Length(rapid.Float64Range(0.1, 1).Draw(t, "height"))
		assert.Equal(t, stock.Fits(s, w, h), stock.Fits(s, h, w))
		if stock.Fits(s, w, h) {
			assert.True(t, stock.Fits(s, w*1.1, h))
		}
	})
}

func TestNearestFarOff(t *testing.T) {
	s, near := stock.Nearest(50*units.Inch, 50*units.Inch, 0)
	assert.False(t, near)
	assert.Equal(t, "30x30x1", s.String())
	s, near = stock.Nearest(24.75*units.Inch, 20*units.Inch, 0)
	assert.True(t, near)
	assert.Equal(t, "20x25x1", s.String(), "no depth given: the shallowest")
	_, near = stock.NearestIn(nil, 1, 1, 1)
	assert.False(t, near)
}

func TestRectangularsAreNotTooFlat(t *testing.T) {
	for _, sys := range []units.System{units.InchPound, units.Metric} {
		for _, s := range stock.Rectangulars(sys) {
			assert.LessOrEqual(t, s.Height.SI()/s.Width.SI(), stock.MaxAspect+1e-9)
		}
	}
	assert.Contains(t, names(stock.Rectangulars(units.InchPound)), "8x30")
	assert.NotContains(t, names(stock.Rectangulars(units.InchPound)), "6x26")
	assert.Contains(t, names(stock.Rectangulars(units.Metric)), "200x800 mm")
}

func TestEveryListNamesItsSource(t *testing.T) {
	files, err := filepath.Glob("*.csv")
	require.NoError(t, err)
	require.Len(t, files, 5)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(data), "# "), f)
		assert.Contains(t, string(data), "ommon practice, no source", f)
	}
}
