package report

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/export"
	"returnbench/sizing/filter"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// generator makes jobs over the full ranges of the check: every enumeration, the
// ends of every range, what is there and what is left open.
type generator struct{ *rand.Rand }

// some is true with a chance.
func (d generator) some(chance float64) bool { return d.Float64() < chance }

// value is left open, one end of a range, or something between.
func value[T ~float64](d generator, low, high T) T {
	switch d.IntN(8) {
	case 0, 1, 2:
		return 0
	case 3:
		return low
	case 4:
		return high
	}
	return inside(d, low, high)
}

// inside is an end of a range or something between.
func inside[T ~float64](d generator, low, high T) T {
	switch {
	case d.some(0.1):
		return low
	case d.some(0.1):
		return high
	case low > 0 && high > 20*low:
		return T(math.Exp(math.Log(float64(low)) + d.Float64()*math.Log(float64(high/low))))
	}
	return low + T(d.Float64())*(high-low)
}

func oneWord[T ~string](d generator, words ...T) T {
	if d.some(0.3) {
		return ""
	}
	return words[d.IntN(len(words))]
}

func (d generator) count(most int) int {
	if d.some(0.4) {
		return 0
	}
	return 1 + d.IntN(most)
}

func (d generator) name(kind string, i int) string {
	return fmt.Sprintf("%s %d%s", kind, i, []string{"", "", " =1+1", " \u202eא", " 家", strings.Repeat(" long", 20)}[d.IntN(6)])
}

func (d generator) job() sizing.Job {
	j := sizing.Job{Schema: sizing.Schema, Name: d.name("house", 1), Notes: strings.Repeat("note and more\n", d.count(120))}
	if d.some(0.7) {
		j.Equipment.CoolingCapacity = inside(d, 0.5*units.Ton, 25*units.Ton)
	}
	if j.Equipment.CoolingCapacity == 0 || d.some(0.5) {
		j.DesignAirflow = inside(d, 50*units.CFM, 10000*units.CFM)
	}
	j.HeatingAirflow = value(d, 50*units.CFM, 10000*units.CFM)
	j.AirflowPerCapacity = value(d, 150*units.CFMPerTon, 800*units.CFMPerTon)
	j.TargetFaceVelocity = value(d, 20*units.FPM, 1000*units.FPM)
	d.site(&j.Site)
	d.equipment(&j.Equipment)
	for i := range d.count(3) {
		j.Filters = append(j.Filters, d.filter(i))
	}
	for range d.count(3) {
		j.Returns = append(j.Returns, d.branch(j))
	}
	j.Slot = d.slot(j)
	j.Coil, j.Supply = d.part(), d.part()
	for i := range d.count(3) {
		j.Options = append(j.Options, d.option(i, j))
	}
	for range d.count(3) {
		j.Readings = append(j.Readings, d.reading(j))
	}
	d.limits(&j.Limits)
	for range d.count(4) {
		side := func() units.Length { return cmp.Or(value(d, 4*units.Inch, 72*units.Inch), 20*units.Inch) }
		s := sizing.StockSize{Of: sizing.FilterSize, Width: side(), Height: side(), Depth: cmp.Or(value(d, 0.2*units.Inch, 30*units.Inch), units.Inch)}
		if d.some(0.4) {
			s.Of, s.Depth = sizing.GrilleSize, 0
		}
		j.StockSizes = append(j.StockSizes, s)
	}
	for _, p := range []*units.Money{&j.Prices.Cabinet, &j.Prices.Slot, &j.Prices.Grille, &j.Prices.Return, &j.Prices.Duct, &j.Prices.Visit} {
		*p = value(d, 0, 1e9*units.Dollar)
	}
	d.paper(&j)
	for _, p := range []**float64{&j.Uncertainty.Gauge, &j.Uncertainty.BlowerTable, &j.Uncertainty.Rating, &j.Uncertainty.Geometry, &j.Uncertainty.Assumed} {
		if d.some(0.3) {
			v := value(d, 0.001, 0.5)
			*p = &v
		}
	}
	return j
}

// paper draws what the papers say beside the house.
func (d generator) paper(j *sizing.Job) {
	j.Customer = quote.Customer{Name: d.name("customer", 0), Address: d.name("address", 1)}
	j.Work = quote.Work{JobNumber: d.name("job", 2), CrewHours: value(d, 0.25*units.Hour, 1000*units.Hour)}
	for _, p := range []*units.Length{&j.Work.UnitWidth, &j.Work.UnitHeight, &j.Work.PlenumWidth, &j.Work.PlenumHeight} {
		*p = value(d, 4*units.Inch, 72*units.Inch)
	}
	j.Quote.TaxRate, j.Quote.ValidDays, j.Quote.Choices = value(d, 0.0001, 0.5), d.count(730), d.some(0.5)
	for i := range d.count(8) {
		l := quote.Line{Item: d.name("item", i), Count: d.count(1000), Price: value(d, 0, 1e9*units.Dollar), NoTax: d.some(0.3)}
		if len(j.Options) > 0 && d.some(0.7) {
			l.Option = j.Options[d.IntN(len(j.Options))].Name
		}
		j.Quote.Lines = append(j.Quote.Lines, l)
	}
	for i := range d.count(3) { // what none of them holds is left out by name
		j.Photos = append(j.Photos, quote.Photo{Caption: d.name("caption", i), File: "gone.jpg", OnProposal: d.some(0.5)})
	}
}

func (d generator) site(s *sizing.Site) {
	s.Altitude = value(d, -500*units.Metre, 5000*units.Metre)
	s.IndoorDryBulb = value(d, units.Fahrenheit(45), units.Fahrenheit(120))
	if s.IndoorDryBulb != 0 {
		s.IndoorWetBulb = value(d, units.Fahrenheit(35), min(s.IndoorDryBulb, units.Fahrenheit(110)))
	}
	s.HeatingIndoor = value(d, units.Fahrenheit(40), units.Fahrenheit(90))
	s.PowerPrice = value(d, 0.001*units.MoneyPerKilowattHour, 1000*units.MoneyPerKilowattHour)
	s.CoolingHours = value(d, 0.1*units.Hour, 2922*units.Hour)
	s.HeatingHours = value(d, 0.1*units.Hour, 2922*units.Hour)
	s.FanHours = value(d, 0.1*units.Hour, 2922*units.Hour)
	s.DiscountRate = value(d, 0.0001, 0.5)
	s.Dust = oneWord(d, sizing.DustLow, sizing.DustOrdinary, sizing.DustPets, sizing.DustWorks)
	s.DustRate = value(d, 0.001*units.GramPerDay, 1000*units.GramPerDay)
}

func (d generator) equipment(e *sizing.Equipment) {
	e.Kind = oneWord(d, sizing.FurnaceWithCoil, sizing.Furnace, sizing.AirHandler)
	e.SensibleHeatRatio = value(d, 0.6, 0.79) // what coils do
	if d.some(0.05) {
		e.SensibleHeatRatio = value(d, 0.4, 1.0)
	}
	e.CoilDryShare = value(d, 0.3, 1.0)
	e.HeatingOutput = value(d, 2000*units.BtuPerHour, 500000*units.BtuPerHour)
	e.NoHeating = d.some(0.15)
	e.RiseLow = value(d, 5*units.FahrenheitDegree, 60*units.FahrenheitDegree)
	e.RiseHigh = value(d, 61*units.FahrenheitDegree, 150*units.FahrenheitDegree)
	e.RatedExternalStatic = value(d, 0.05*units.InchWater, 3*units.InchWater)
	b := &e.Blower
	b.Motor = oneWord(d, blower.Motors()...)
	for i := range d.count(3) {
		b.Taps = append(b.Taps, blower.Tap{Name: d.name("tap", i), Points: d.points()})
	}
	if len(b.Taps) > 0 {
		b.CoolingTap = oneWord(d, b.Taps[d.IntN(len(b.Taps))].Name)
		b.HeatingTap = oneWord(d, b.Taps[d.IntN(len(b.Taps))].Name)
	}
	if d.some(0.3) {
		b.Includes = append(b.Includes, blower.IncludesWetCoil)
	}
	if d.some(0.3) {
		b.Includes = append(b.Includes, blower.IncludesFilter)
	}
}

func (d generator) points() []blower.Point {
	n := 2 + d.IntN(6)
	static, flow := 0.4*d.Float64(), 50+d.Float64()*9950
	watts := d.some(0.6)
	var out []blower.Point
	for range n {
		p := blower.Point{ExternalStatic: units.Pressure(static) * units.InchWater, Airflow: units.Flow(flow) * units.CFM}
		if watts {
			p.Power = inside(d, 50*units.Watt, 5*units.Kilowatt)
		}
		out = append(out, p)
		static, flow = min(static+0.01+d.Float64()*0.6, 5), flow*(1-0.4*d.Float64())
	}
	return out
}

func (d generator) filter(i int) filter.Filter {
	f := filter.Filter{Name: d.name("filter", i)}
	sized := d.some(0.7)
	if sized {
		f.Width, f.Height = inside(d, 4*units.Inch, 72*units.Inch), inside(d, 4*units.Inch, 72*units.Inch)
	}
	f.Depth = value(d, 0.2*units.Inch, 30*units.Inch)
	if d.some(0.8) {
		f.Depth = min(max(f.Depth, units.Inch), 4*units.Inch)
	}
	if f.MERV = d.count(16); f.MERV == 0 && d.some(0.7) {
		f.MERV = 8
	}
	if d.some(0.2) {
		for range 12 {
			f.Efficiency = append(f.Efficiency, inside(d, 0, 1.0))
		}
	}
	for range d.count(3) {
		p := filter.RatingPoint{Drop: inside(d, 0.001*units.InchWater, 5*units.InchWater)}
		if sized && d.some(0.5) {
			p.Airflow = inside(d, 10*units.CFM, 10000*units.CFM)
		} else {
			p.FaceVelocity = inside(d, 5*units.FPM, 2000*units.FPM)
		}
		f.Rating = append(f.Rating, p)
	}
	f.Exponent = value(d, 1.0, 2)
	f.MediaResistance = value(d, 0.1*units.PascalSecondPerMetre, 50000*units.PascalSecondPerMetre)
	f.MediaPermeability = value(d, 0.1*units.PermeabilityCFMPerSquare, 5000*units.PermeabilityCFMPerSquare)
	if sized && (f.MediaResistance > 0 || f.MediaPermeability > 0 || len(f.Rating) > 0) && d.some(0.5) {
		f.Pleats = 2 + d.IntN(199)
	}
	if f.Depth > 0.2*units.Inch {
		f.PleatDepth = value(d, 2*units.Millimetre, f.Depth)
	}
	f.MediaThickness = value(d, 0.05*units.Millimetre, 10*units.Millimetre)
	f.FoldGap = value(d, 0.05*units.Millimetre, 20*units.Millimetre)
	f.MediaArea = value(d, 10*units.SquareInch, 1000*units.SquareFoot)
	f.GridOpenShare = value(d, 0.2, 1.0)
	f.Bracing = oneWord(d, filter.Unbraced, filter.OneSide, filter.BothSides, filter.WireBacked, filter.RigidBox)
	f.FinalDrop = value(d, 0.02*units.InchWater, 5*units.InchWater)
	if sized {
		f.DustCapacity = value(d, 1*units.Gram, 5*units.Kilogram)
	}
	f.Price = value(d, 0, 1e9*units.Dollar)
	return f
}

// filterOf names a filter of the job, or none.
func (d generator) filterOf(j sizing.Job) string {
	if len(j.Filters) == 0 || d.some(0.4) {
		return ""
	}
	return j.Filters[d.IntN(len(j.Filters))].Name
}

func (d generator) branch(j sizing.Job) sizing.Return {
	r := sizing.Return{Name: d.name("return", 1)}
	if d.some(0.7) {
		g := &r.Grille
		g.Width, g.Height = inside(d, 3*units.Inch, 96*units.Inch), inside(d, 3*units.Inch, 96*units.Inch)
		g.FreeArea = value(d, 0.1, 1.0)
		g.Style = oneWord(d, duct.Stamped, duct.Bar, duct.Perforated)
		for range d.count(2) {
			g.Rating = append(g.Rating, duct.GrilleRating{Airflow: inside(d, 10*units.CFM, 10000*units.CFM), Drop: inside(d, 0.001*units.InchWater, 5*units.InchWater)})
		}
		r.Filter = d.filterOf(j)
	}
	for len(r.Runs) < d.count(3) || r.Grille.Width == 0 && len(r.Runs) == 0 {
		r.Runs = append(r.Runs, d.run())
	}
	for len(r.Runs) > 0 && len(r.Fittings) < d.count(3) {
		all := duct.Fittings()
		row := all[d.IntN(len(all))]
		f := duct.Fitting{Kind: row.Kind, Count: d.count(50)}
		for _, p := range row.Parameters {
			v := inside(d, max(p.Least, 0.01), p.Most)
			switch p.Name {
			case "radius_ratio":
				f.RadiusRatio = v
			case "angle":
				f.Angle = max(v, 1)
			case "area_ratio":
				f.AreaRatio = v
			}
		}
		if d.some(0.1) {
			f.Coefficient = inside(d, 0.001, 100.0)
		}
		if d.some(0.1) {
			f.Diameter = inside(d, 2*units.Inch, 60*units.Inch)
		}
		r.Fittings = append(r.Fittings, f)
	}
	r.OpeningWidth, r.OpeningHeight = value(d, 3*units.Inch, 96*units.Inch), value(d, 3*units.Inch, 96*units.Inch)
	return r
}

func (d generator) run() duct.Run {
	r := duct.Run{Shape: []duct.Shape{duct.Round, duct.Flex, duct.Rectangular}[d.IntN(3)]}
	r.Material = oneWord(d, duct.Galvanized, duct.Spiral, duct.DuctBoard, duct.FacedLiner, duct.FlexLiner, duct.Rough)
	r.Length = inside(d, 0.1*units.Foot, 500*units.Foot)
	switch r.Shape {
	case duct.Rectangular:
		r.Width, r.Height = inside(d, 2*units.Inch, 96*units.Inch), inside(d, 2*units.Inch, 96*units.Inch)
	case duct.Flex:
		r.Compression = value(d, 0, 0.5)
		r.Diameter = inside(d, 2*units.Inch, 60*units.Inch)
	default:
		r.Diameter = inside(d, 2*units.Inch, 60*units.Inch)
	}
	r.Roughness = value(d, 0.001*units.Millimetre, 10*units.Millimetre)
	return r
}

func (d generator) slot(j sizing.Job) sizing.Slot {
	if d.some(0.1) {
		return sizing.Slot{None: true}
	}
	s := sizing.Slot{Filter: d.filterOf(j)}
	if d.some(0.7) {
		s.Width, s.Height = inside(d, 4*units.Inch, 72*units.Inch), inside(d, 4*units.Inch, 72*units.Inch)
	}
	s.Depth = value(d, 0.2*units.Inch, 30*units.Inch)
	for _, f := range j.Filters {
		if f.Name == s.Filter && s.Depth > 0 {
			s.Depth = max(s.Depth, f.Depth)
		}
	}
	if d.some(0.9) && s.Depth != 0 {
		s.Depth = min(max(s.Depth, filter.ThinnestGeneric), filter.DeepestGeneric)
	}
	s.EntryCoefficient = value(d, 0, 50.0)
	s.Gap = value(d, 0, 1*units.Inch)
	s.GapBends = d.IntN(5)
	s.EdgeCover = value(d, 0, 4*units.Inch)
	return s
}

func (d generator) part() sizing.Part {
	p := sizing.Part{Drop: value(d, 0.001*units.InchWater, 3*units.InchWater)}
	if p.Drop > 0 {
		p.Airflow, p.Exponent = value(d, 50*units.CFM, 10000*units.CFM), value(d, 1, 2.5)
	}
	return p
}

func (d generator) option(i int, j sizing.Job) sizing.Option {
	o := sizing.Option{Name: d.name("option", i), Filter: d.filterOf(j), Price: value(d, 0, 1e9*units.Dollar)}
	if d.some(0.5) {
		o.Slot = d.slot(j)
	}
	if d.some(0.4) {
		o.Returns = append(o.Returns, d.branch(j))
	}
	if taps := j.Equipment.Blower.Taps; len(taps) > 0 {
		o.Tap = oneWord(d, taps[d.IntN(len(taps))].Name)
	}
	if j.Equipment.Blower.Motor != blower.ConstantAirflow {
		o.SpeedRatio = value(d, 0.5, 1.5)
	}
	return o
}

func (d generator) reading(j sizing.Job) sizing.Reading {
	r := sizing.Reading{Label: "round", Date: "2026-01-02", Mode: oneWord(d, sizing.Cooling, sizing.Heating), FilterIsClean: d.some(0.5)}
	if len(j.Options) > 0 {
		r.Option = oneWord(d, j.Options[d.IntN(len(j.Options))].Name)
	}
	for _, p := range []*units.Pressure{&r.ReturnPlenum, &r.BlowerInlet, &r.BlowerOutlet, &r.SupplyPlenum, &r.FilterDrop} {
		*p = value(d, -5*units.InchWater, 5*units.InchWater)
	}
	r.Airflow = value(d, 50*units.CFM, 10000*units.CFM)
	r.BlowerPower = value(d, 5*units.Watt, 5*units.Kilowatt)
	r.ReturnTemperature = value(d, units.Fahrenheit(32), units.Fahrenheit(130))
	r.SupplyTemperature = value(d, units.Fahrenheit(20), units.Fahrenheit(220))
	return r
}

func (d generator) limits(l *sizing.Limits) {
	for _, p := range []*units.Length{&l.WallWidth, &l.WallHeight, &l.StudBay, &l.CabinetWidth, &l.CabinetHeight, &l.CabinetDepth} {
		*p = value(d, 0.5*units.Inch, 120*units.Inch)
	}
	l.MaxOpenings, l.MinMERV = d.count(6), d.count(16)
	l.MaxFilterDrop = value(d, 0.01*units.InchWater, 2*units.InchWater)
	l.DuctVelocity = value(d, 100*units.FPM, 3000*units.FPM)
	l.DuctFriction = value(d, 0.005*units.InchWaterPer100Feet, 1*units.InchWaterPer100Feet)
	l.FlexCompression = value(d, 0.001, 0.5)
	l.Budget = value(d, 0, 1e9*units.Dollar)
	l.NominalSizes = oneWord(d, sizing.InchSizes, sizing.MetricSizes)
	l.ChangeDrop = value(d, 0.02*units.InchWater, 5*units.InchWater)
	l.ChangeAirflowLoss = value(d, 0.005, 0.9)
	l.ChangeMonths = value(d, 0.5*units.Month, 120*units.Month)
	for _, c := range sizing.CheckSets() {
		if d.some(0.3) {
			l.Checks = append(l.Checks, c)
		}
	}
}

// manyJobs asks for the number of jobs of a long run, and firstJob for the seed
// that it begins with.
const manyJobs, firstJob = "RETURNBENCH_JOBS", "RETURNBENCH_FIRST"

func asked(name string, usual int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return usual
}

// TestGenerated: a job that passes the check gives every output: finite
// figures, shares from 0 to 1, in time and in memory, and comes back from its
// file as it went.
func TestGenerated(t *testing.T) {
	jobs, passed := asked(manyJobs, 200), 0
	var before, after runtime.MemStats
	most := uint64(0)
	refused := map[string]int{}
	slowest := time.Duration(0)
	for n := asked(firstJob, 1); n < asked(firstJob, 1)+jobs; n++ {
		job := generator{rand.New(rand.NewPCG(uint64(n), 2))}.job()
		if faults := job.Check(); faults != nil {
			require.NotEmpty(t, faults[0].Path)
			refused[faults[0].Path]++
			continue
		}
		passed++
		began := time.Now()
		runtime.ReadMemStats(&before)
		for _, fault := range outputs(job, n) {
			data, err := jobfile.Encode(job)
			require.NoError(t, err)
			t.Errorf("seed %d: %s\n%s", n, fault, head(data, t))
		}
		runtime.ReadMemStats(&after)
		most = max(most, after.TotalAlloc-before.TotalAlloc)
		if took := time.Since(began); took > slowest {
			slowest = took
			t.Logf("seed %d took %v", n, took)
		}
	}
	t.Logf("refused: %v", refused)
	t.Logf("%d of %d jobs pass the check; the slowest took %v and %d MB for all of its outputs", passed, jobs, slowest, most>>20)
	require.Less(t, slowest, 40*time.Second, "several times what a slow and busy machine takes")
	// All that was asked for in turn, of which a fraction is held at a time.
	require.Less(t, most, uint64(3<<29), "all outputs of one job")
	require.Greater(t, passed, jobs/3, "the generator keeps to the ranges of the check")
}

// head keeps a failure readable; the seed gives the job again.
func head(data []byte, t *testing.T) string {
	if testing.Verbose() {
		return string(data)
	}
	return ""
}

// outputs makes all there is of a job and names what is wrong with it.
func outputs(job sizing.Job, n int) (faults []string) {
	told := func(what string, err error) {
		if err != nil {
			faults = append(faults, what+": "+err.Error())
		}
	}
	defer func() {
		if r := recover(); r != nil {
			faults = append(faults, fmt.Sprintf("panic: %v", r))
		}
	}()
	told("file", comesBack(job))
	study, err := sizing.Solve(job)
	if err != nil {
		told("solve", elsewhere(job, err))
		return faults
	}
	told("study", notFinite("study", reflect.ValueOf(study).Elem()))
	sys := []units.Locale{units.IP, units.SI}[n%2]
	var out bytes.Buffer
	told("JSON", export.JSON(&out, study, sys))
	if !json.Valid(out.Bytes()) {
		faults = append(faults, "JSON: not valid")
	}
	told("summary", export.Summary(io.Discard, study, sys))
	told("CSV", export.CSV(io.Discard, study, sys))
	told("sizes", export.Sizes(io.Discard, study, sys, 6))
	told("workbook", export.XLSX(io.Discard, study, sys, export.About{Version: "1", Notes: job.Notes}))
	for _, chart := range plots.All(study, plots.Print(sys)) {
		told(chart.Key, plots.Write(io.Discard, chart, plots.FileWidth, plots.FileHeight, "svg"))
	}
	for _, a := range []Audience{Customer, WorkOrder, Working} {
		pages, err := New(job, study, testOptions(a, Letter, sys))
		if err == nil {
			err = pages.Write(io.Discard)
		}
		told(string(a), err)
	}
	return faults
}

// elsewhere gives a fault of a solve that names no field of the job; one that
// does is a fault of the job as any other.
func elsewhere(job sizing.Job, err error) error {
	var faults sizing.FieldErrors
	if !errors.As(err, &faults) || len(faults) == 0 {
		return err
	}
	field := regexp.MustCompile(`^(site|equipment|filters\[(\d+)\])\.[a-z_]+$`)
	for _, f := range faults {
		m := field.FindStringSubmatch(f.Path)
		if m == nil {
			return err
		}
		if i, e := strconv.Atoi(m[2]); e == nil && i >= len(job.Filters) {
			return err
		}
	}
	if !strings.HasPrefix(err.Error(), faults[0].Path) {
		return err // words of the engine stand before it
	}
	return nil
}

func comesBack(job sizing.Job) error {
	data, err := jobfile.Encode(job)
	if err != nil {
		return err
	}
	_, err = jobfile.Read(data)
	return err
}

// notFinite finds a figure that is not a number, and a share outside 0 to 1.
func notFinite(path string, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return notFinite(path, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				if err := notFinite(path+"."+f.Name, v.Field(i)); err != nil {
					return err
				}
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := notFinite(fmt.Sprintf("%s[%d]", path, i), v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Float64:
		name := path[strings.LastIndex(path, ".")+1:]
		x := v.Float()
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%s is %g", path, x)
		}
		share := strings.HasSuffix(name, "Fraction") || slices.Contains([]string{"AssumedShare", "AirShare", "LoadedLeak"}, name)
		if share && (x < 0 || x > 1) {
			return fmt.Errorf("%s is %g; want a share from 0 to 1", path, x)
		}
	}
	return nil
}

// Jobs that once took minutes: a filter that lives hours beside one that lives years,
// and an airflow that no change of filters brings back.
func TestGeneratedHardOnes(t *testing.T) {
	for _, n := range []int{1, 2221} {
		job := generator{rand.New(rand.NewPCG(uint64(n), 2))}.job()
		require.Empty(t, job.Check(), n)
		require.Empty(t, outputs(job, n), n)
	}
}
