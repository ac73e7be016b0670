package sizing

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/duct"
	"returnbench/sizing/published"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// ducted is a house of a tonnage whose returns are flex of the given diameters,
// held to the energy code.
func ducted(tons float64, diameters ...float64) Job {
	j := Job{Schema: Schema, Equipment: Equipment{CoolingCapacity: units.Capacity(tons) * units.Ton}, DesignAirflow: units.Flow(350*tons) * units.CFM}
	for i, d := range diameters {
		j.Returns = append(j.Returns, Return{Name: fmt.Sprintf("return %d", i+1), Grille: duct.Grille{Width: 20 * units.Inch, Height: 25 * units.Inch},
			Runs:     []duct.Run{{Shape: duct.Flex, Diameter: units.Length(d) * units.Inch, Length: 25 * units.Foot}},
			Fittings: []duct.Fitting{{Kind: duct.ElbowFiveGore, Count: 2}}})
	}
	j.Limits.Checks = []CheckSet{Title24}
	return j
}

// The smallest nominal ducts that the check passes are those of the code's table.
func TestTitle24Ducts_Published(t *testing.T) {
	const source = "California Energy Code, Title 24 part 6, tables 150.0-B and C, from secondary text and memory"
	passes := func(tons float64, diameters ...float64) bool {
		return codes(solved(t, ducted(tons, diameters...)).Findings)["title24_ducts"] == Good
	}
	least := func(pass func(float64) bool) float64 {
		for _, d := range stock.Rounds(units.IP) {
			if inches := float64(int(d.In(units.Inch) + 0.5)); pass(inches) {
				return inches
			}
		}
		return 0
	}
	for _, row := range []struct{ tons, one, large, small float64 }{
		{1.5, 16, 12, 10}, {2, 18, 14, 12}, {2.5, 20, 14, 14}, {3, 0, 16, 14}, {3.5, 0, 16, 16}, {4, 0, 18, 18}, {5, 0, 20, 20},
	} {
		check := func(name string, got, want float64) {
			published.Check(t, published.Row{Name: fmt.Sprintf("%g tons, %s", row.tons, name), Source: source, Got: got, Want: want,
				Tolerance: 0.01, Why: "a nominal size; none is zero"})
		}
		check("one return", least(func(d float64) bool { return passes(row.tons, d) }), row.one)
		check("the smaller of two", least(func(d float64) bool { return passes(row.tons, d, 24) }), row.small)
		check("the larger of two", least(func(d float64) bool { return passes(row.tons, row.small, d) }), row.large)
	}
}

func TestTitle24TableConditions(t *testing.T) {
	j := ducted(2, 18)
	found := codes(solved(t, j).Findings)
	assert.Equal(t, Good, found["title24_run"])
	assert.Equal(t, Good, found["title24_bends"])
	j.Returns[0].Runs = append(j.Returns[0].Runs, duct.Run{Shape: duct.Rectangular, Width: 20 * units.Inch, Height: 16 * units.Inch, Length: 6 * units.Foot})
	j.Returns[0].Fittings = append(j.Returns[0].Fittings, duct.Fitting{Kind: duct.ElbowMitred, Angle: 45})
	found = codes(solved(t, j).Findings)
	assert.Equal(t, Good, found["title24_ducts"], "20 by 16 in is 19.5 in round")
	assert.Equal(t, Caution, found["title24_run"])
	assert.Equal(t, Caution, found["title24_bends"])
	for _, f := range solved(t, j).Findings {
		assert.NotContains(t, f.Text, "%!", f.Code)
	}
}
