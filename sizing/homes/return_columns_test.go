package homes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

// TestBuilt_Identity: a row that tells its return and its blower gives the Study
// of the job that tells the same.
func TestBuilt_Identity(t *testing.T) {
	h, err := readHeading([]string{"design_airflow", "cooling_capacity", "slot", "return_grille", "return_duct_shape", "return_duct_diameter",
		"return_duct_compression", "return_duct_length", "return_duct_elbows", "blower_points"})
	require.NoError(t, err)
	home, faults := h.read([]string{"1200 cfm", "3 ton", "20x25x4", "20x30", "flex", "16 in", "0.04", "18 ft", "2",
		"1400 @ 0.1 @ 450; 1300 cfm @ 75 Pa @ 430 W; 1100@0.6@400;900 @ 0.9 @ 360"})
	require.Empty(t, faults)
	got, err := home.solve()
	require.NoError(t, err)

	point := func(flow, static, power float64) blower.Point {
		return blower.Point{Airflow: units.Flow(flow) * units.CFM, ExternalStatic: units.Pressure(static) * units.InchWater, Power: units.Power(power)}
	}
	second := point(1300, 0, 430)
	second.ExternalStatic = 75 * units.Pascal
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.Equipment.CoolingCapacity = 3 * units.Ton
	job.Equipment.Blower.Taps = []blower.Tap{{Name: "as listed", Points: []blower.Point{point(1400, 0.1, 450), second, point(1100, 0.6, 400), point(900, 0.9, 360)}}}
	job.Slot = sizing.Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}
	job.Returns = []sizing.Return{{Name: "return", Grille: duct.Grille{Width: 20 * units.Inch, Height: 30 * units.Inch},
		Runs:     []duct.Run{{Shape: duct.Flex, Diameter: 16 * units.Inch, Compression: 0.04, Length: 18 * units.Foot}},
		Fittings: []duct.Fitting{{Kind: duct.ElbowSmooth, Count: 2}}}}
	want, err := sizing.Solve(job)
	require.NoError(t, err)
	assert.Equal(t, want.Today().Clean.Airflow, got.Today().Clean.Airflow)
	assert.Equal(t, want.Today().Clean.ExternalStatic, got.Today().Clean.ExternalStatic)
	assert.Equal(t, want.Today().Clean.BlowerPower, got.Today().Clean.BlowerPower)
	assert.False(t, got.BlowerAssumed)
}

// TestBuiltFault: what is wrong of a return or a table is named by its
// column.
func TestBuiltFault(t *testing.T) {
	for _, c := range []struct{ heading, row, want string }{
		{"design_airflow,return_duct_diameter,return_duct_length", "1200 cfm,16 in,", "line 2, return_duct_length: "},
		{"design_airflow,return_duct_width,return_duct_length", "1200 cfm,16 in,10 ft", "line 2, return_duct_height: "},
		{"design_airflow,return_drop,return_grille", "1200 cfm,0.1 in. w.c.,20x30", "line 2, return_drop: given beside"},
		{"design_airflow,return_duct_elbows,return_grille", "1200 cfm,-1,20x30", "line 2, return_duct_elbows: "},
		{"design_airflow,blower_points", "1200 cfm,1400 @ 0.1", "line 2, blower_points: \"1400 @ 0.1\": want two points"},
		{"design_airflow,blower_points", "1200 cfm,1400 @ 0.1; 1300", "line 2, blower_points: \"1300\": want airflow @"},
		{"design_airflow,blower_points", "1200 cfm,1400 @ 0.1; 1300 @ 3 ft", "line 2, blower_points: "},
		{"design_airflow,blower_points", "1200 cfm,1300 @ 0.1; 1400 @ 0.5", "line 2, blower_points: "},
	} {
		var told []string
		out, s := screened(t, c.heading+"\n"+c.row+"\n", Options{Report: func(f Fault) { told = append(told, f.String()) }})
		require.Equal(t, 1, s.Faulty, c.row)
		require.NotEmpty(t, told)
		assert.Contains(t, told[0], c.want)
		assert.Len(t, records(t, out), 2, "the row is kept")
	}
}
