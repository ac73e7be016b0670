package sizing

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
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
	const source = "California Energy Code, Title 24 part 6, tables 150.0-B and C, from secondary text"
	passes := func(tons float64, diameters ...float64) bool {
		return codes(solved(t, ducted(tons, diameters...)).Findings)["title24_ducts"] == Good
	}
	least := func(pass func(float64) bool) float64 {
		for _, d := range stock.Rounds(units.InchPound) {
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
		assert.NotContains(t, f.In(units.IP), "%!", f.Code)
	}
}

// The tables are an alternative to measured airflow and watts: where one way is
// kept, the other is no caution. An invented blower earns no good efficacy.
func TestTitle24IsMetByMeasurementOrTable(t *testing.T) {
	j := ducted(2, 18) // 600 in2 and one return of 18 in are asked of 2 tons
	j.Filters = []filter.Filter{{Name: "open", Depth: 2 * units.Inch, MERV: 13, Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.05 * units.InchWater}}}}
	j.Returns[0].Filter = "open"
	j.Returns[0].Grille.Width, j.Returns[0].Grille.Height = 20*units.Inch, 30*units.Inch
	found := codes(solved(t, j).Findings)
	for _, code := range []string{"title24_grilles", "title24_ducts", "title24_table_drop", "title24_tables"} {
		assert.Equal(t, Good, found[code], code)
	}
	assert.NotContains(t, found, "title24_unmeasured", "the tables are kept")

	small := j.Clone()
	small.Returns[0].Runs[0].Diameter = 16 * units.Inch
	found = codes(solved(t, small).Findings)
	assert.Equal(t, Caution, found["title24_ducts"])
	assert.Equal(t, Caution, found["title24_unmeasured"])
	assert.NotContains(t, found, "title24_efficacy", "the blower's table is invented")

	// 350 W at 700 cfm is 0.50 W/cfm: over the 0.45 of a furnace, within the 0.58 of others.
	small.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "only", Points: []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 701 * units.CFM, Power: 350}, {ExternalStatic: 2 * units.InchWater, Airflow: 699 * units.CFM, Power: 350}}}}}
	assert.Equal(t, Caution, codes(solved(t, small).Findings)["title24_efficacy"])
	small.Equipment.Kind = AirHandler
	found = codes(solved(t, small).Findings)
	assert.Equal(t, Good, found["title24_efficacy"])
	assert.Equal(t, Good, found["title24_measured"])
	assert.NotContains(t, found, "title24_ducts", "airflow and watts are kept")

	small.Equipment.Kind = Furnace
	found = codes(solved(t, small).Findings)
	assert.NotContains(t, found, "title24_airflow", "no cooling, no tons")
	assert.NotContains(t, found, "title24_ducts")
}

// A clause known from memory says so.
func TestClausesFromMemorySaySo(t *testing.T) {
	j := ducted(2, 18)
	j.Limits.Checks = CheckSets()
	for _, f := range solved(t, j).Findings {
		switch f.Code {
		case "title24_run", "title24_bends", "title24_table_drop", "ifgc_return_area":
			assert.Contains(t, f.Source, "from memory", f.Code)
			assert.Contains(t, f.Source, "check the official text", f.Code)
		}
	}
}
