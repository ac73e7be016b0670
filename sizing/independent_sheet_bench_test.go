package sizing

import (
	"encoding/csv"
	"fmt"
	"math"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/processor"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// sheetHouse is a house whose operating point fits into a row of a sheet: a blower
// whose table is a straight line, one return of a grille and a round duct of a
// length, a filter by its rating, a coil and a supply by one point each.
func sheetHouse(length units.Length) Job {
	j := Job{Schema: Schema, DesignAirflow: 1200 * units.CFM, Equipment: Equipment{Kind: Furnace}}
	var points []blower.Point
	for _, static := range []float64{0.1, 0.5, 0.9} {
		points = append(points, blower.Point{ExternalStatic: units.Pressure(static) * units.InchWater, Airflow: units.Flow(1700-1000*static) * units.CFM})
	}
	j.Equipment.Blower = blower.Table{Motor: blower.PSC, Taps: []blower.Tap{{Name: "high", Points: points}}}
	j.Filters = []filter.Filter{{Name: "rated", Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: 8, Rating: []filter.RatingPoint{
		{FaceVelocity: 200 * units.FPM, Drop: 0.07 * units.InchWater}, {FaceVelocity: 400 * units.FPM, Drop: 0.19 * units.InchWater}}}}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "rated"}
	j.Returns = []Return{{Name: "hall", Ends: NoEnds, Grille: duct.Grille{Width: 20 * units.Inch, Height: 30 * units.Inch, Rating: []duct.GrilleRating{{Airflow: 1000 * units.CFM, Drop: 0.03 * units.InchWater}}},
		Runs: []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: length, Roughness: 0.09 * units.Millimetre}}}}
	j.Coil = Part{Drop: 0.2 * units.InchWater, Airflow: 1200 * units.CFM, Exponent: 1.8}
	j.Supply = Part{Drop: 0.15 * units.InchWater, Airflow: 1200 * units.CFM, Exponent: 2}
	return j
}

// sheetSteps are halvings of the range of airflow: to a millionth of it.
const sheetSteps = 20

// sheetRow holds what is given of a house, and halves the range of its airflow by
// formulas: drop of grille, duct (Colebrook's friction by Serghides' formula, 1984,
// within 0.003 %), filter, coil and supply, less the blower's static.
func sheetRow(t testing.TB, row int, h *house.House) (cells []any) {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	require.NoError(t, err)
	require.Zero(t, a.Slot.Gap, "no air past the frame")
	run, f := &h.Returns[0].Runs[0], a.Places[0].Law.Curve
	law, err := h.Returns[0].Grille.Law()
	require.NoError(t, err)
	linear, square := law.Coefficients(h.Air)
	d := float64(run.Diameter)
	points := h.Equipment.Blower.Taps[0].Points
	first, last := points[0], points[len(points)-1]
	fall := float64(first.Airflow-last.Airflow) / float64(last.ExternalStatic-first.ExternalStatic)
	given := []float64{
		linear, square, d, float64(run.Roughness), float64(run.Length), float64(h.Air.Density), h.Air.Viscosity, // A to G
		float64(h.Slot.Width) * float64(h.Slot.Height), f.A, f.B, // H to J
		float64(h.Coil.Drop), float64(h.Coil.Airflow), h.Coil.Exponent, // K to M
		float64(h.Supply.Drop), float64(h.Supply.Airflow), h.Supply.Exponent, // N to P
		float64(first.Airflow) + fall*float64(first.ExternalStatic), fall, h.AirResult().DensityRatio, // Q to S
		0.2, 0.9, // T and U: the range, m3/s
	}
	require.Zero(t, f.C)
	for _, v := range given {
		cells = append(cells, v)
	}
	name := func(column int) string {
		c, err := excelize.CoordinatesToCellName(column+1, row)
		require.NoError(t, err)
		return c
	}
	in := func(letter string) string { return letter + strconv.Itoa(row) }
	low, high := name(len(cells)-2), name(len(cells)-1)
	for range sheetSteps {
		n := len(cells)
		q, re, a, b, c, drop := name(n), name(n+1), name(n+2), name(n+3), name(n+4), name(n+5)
		rough := fmt.Sprintf("%s/%s/3.7", in("D"), in("C"))
		friction := fmt.Sprintf("(%s-(%s-%s)^2/(%s-2*%s+%s))^-2", a, b, a, c, b, a)
		for _, formula := range []string{
			fmt.Sprintf("(%s+%s)/2", low, high),
			fmt.Sprintf("4*%s*%s/PI()/%s/%s", in("F"), q, in("C"), in("G")),
			fmt.Sprintf("-2*LOG10(%s+12/%s)", rough, re),
			fmt.Sprintf("-2*LOG10(%s+2.51*%s/%s)", rough, a, re),
			fmt.Sprintf("-2*LOG10(%s+2.51*%s/%s)", rough, b, re),
			fmt.Sprintf("%s*%s+%s*%s^2+%s*%s/%s*%s/2*(4*%s/PI()/%s^2)^2+%s*%s/%s+%s*(%s/%s)^2+%s*(%s/%s)^%s+%s*(%s/%s)^%s-%s*(%s-%s)/%s",
				in("A"), q, in("B"), q, friction, in("E"), in("C"), in("F"), q, in("C"), in("I"), q, in("H"), in("J"), q, in("H"),
				in("K"), q, in("L"), in("M"), in("N"), q, in("O"), in("P"), in("S"), in("Q"), q, in("R")),
			fmt.Sprintf("IF(%s<0,%s,%s)", drop, q, low),
			fmt.Sprintf("IF(%s<0,%s,%s)", drop, high, q),
		} {
			cells = append(cells, excelize.Cell{Formula: formula})
		}
		low, high = name(n+6), name(n+7)
	}
	return append(cells, excelize.Cell{Formula: fmt.Sprintf("(%s+%s)/2", low, high)})
}

// sheetOf is a workbook with a row for each house.
func sheetOf(t testing.TB, dir string, houses []*house.House) string {
	book := excelize.NewFile()
	w, err := book.NewStreamWriter("Sheet1")
	require.NoError(t, err)
	for i, h := range houses {
		require.NoError(t, w.SetRow(fmt.Sprintf("A%d", i+1), sheetRow(t, i+1, h)))
	}
	require.NoError(t, w.Flush())
	file := filepath.Join(dir, fmt.Sprintf("houses%d.xlsx", len(houses)))
	require.NoError(t, book.SaveAs(file))
	return file
}

// recalculated opens a workbook in LibreOffice and gives the last column, with the
// processor time of it.
func recalculated(t testing.TB, dir, file string) (airflows []float64, took time.Duration) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("no LibreOffice (Debian: libreoffice-calc-nogui): nothing is held against a sheet")
	}
	profile := url.URL{Scheme: "file", Path: filepath.Join(dir, "profile")}
	c := exec.Command(office, "-env:UserInstallation="+profile.String(), "--headless", "--norestore",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false", "--outdir", dir, file)
	c.Env = append(os.Environ(), "HOME="+dir, "LC_ALL=C.UTF-8")
	out, err := c.CombinedOutput()
	require.NoError(t, err, "%s", out)
	text, err := os.Open(file[:len(file)-len("xlsx")] + "csv")
	require.NoError(t, err)
	defer text.Close()
	rows, err := csv.NewReader(text).ReadAll()
	require.NoError(t, err)
	for _, r := range rows {
		v, err := strconv.ParseFloat(r[len(r)-1], 64)
		require.NoError(t, err, r[len(r)-1])
		airflows = append(airflows, v)
	}
	return airflows, c.ProcessState.UserTime() + c.ProcessState.SystemTime()
}

func sheetHouses(t testing.TB, n int) []*house.House {
	out := make([]*house.House, n)
	for i := range out {
		h, err := house.New(assume.Job(sheetHouse(units.Length(10+i)*units.Foot)), nil)
		require.NoError(t, err)
		out[i] = h
	}
	return out
}

// sheetAgrees holds the engine's airflow of each house to what the sheet says.
func sheetAgrees(t testing.TB, houses []*house.House, airflows []float64) {
	require.Len(t, airflows, len(houses))
	for i, h := range houses {
		require.InEpsilon(t, airflows[i], meetOnce(t, h), 1e-3, "house %d", i)
	}
}

// meetOnce is the airflow of today's house, laid out again.
func meetOnce(t testing.TB, h *house.House) float64 {
	a, err := h.Arrange(job.Option{Name: job.TodayName}, study.KindToday)
	require.NoError(t, err)
	sys, err := h.System(a)
	require.NoError(t, err)
	p, err := h.CoolingOperatingPoint(a, sys)
	require.NoError(t, err)
	return p.Flow
}

// A spreadsheet program finds the same operating points.
func TestSheet_Independent(t *testing.T) {
	dir := t.TempDir()
	houses := sheetHouses(t, 12)
	airflows, _ := recalculated(t, dir, sheetOf(t, dir, houses))
	require.Greater(t, math.Abs(airflows[0]/airflows[11]-1), 1e-3, "the duct counts")
	sheetAgrees(t, houses, airflows)
	s, err := Solve(sheetHouse(10 * units.Foot))
	require.NoError(t, err)
	require.InEpsilon(t, airflows[0], float64(s.Today().Clean.Airflow), 1e-3)
}

// BenchmarkHouseBySheet is the processor time of one house in a sheet that is
// opened and recalculated: what many rows take beyond a few, so that the start of
// the program is not counted.
func BenchmarkHouseBySheet(b *testing.B) {
	const few, many = 10, 510
	dir := b.TempDir()
	houses := sheetHouses(b, many)
	small, large := sheetOf(b, dir, houses[:few]), sheetOf(b, dir, houses)
	for b.Loop() {
		_, short := recalculated(b, dir, small)
		airflows, long := recalculated(b, dir, large)
		sheetAgrees(b, houses, airflows)
		b.ReportMetric(float64((long-short).Nanoseconds())/(many-few), "processor-ns/op")
	}
}

// BenchmarkHouseMet is the same arithmetic here.
func BenchmarkHouseMet(b *testing.B) {
	houses := sheetHouses(b, 100)
	defer processor.Report(b)()
	for i := 0; b.Loop(); i++ {
		meetOnce(b, houses[i%len(houses)])
	}
}
