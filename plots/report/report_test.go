package report

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/processor"
	"returnbench/sizing/units"
)

const testChecksum = "sha256 " + "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"

func testOptions(a Audience, p Paper, sys units.Locale) Options {
	return Options{For: a, Paper: p, System: sys, Date: "2026-03-05", Version: "0.1.0", Checksum: testChecksum}
}

// studied gives a ready job and its Study; the least job has nothing but a
// capacity and an airflow.
func studied(t testing.TB, name string) (sizing.Job, *sizing.Study) {
	t.Helper()
	data, err := assets.Open(name)
	if name == "least" {
		data, err = os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "least.job.json"))
	}
	require.NoError(t, err)
	job, err := jobfile.Decode(data)
	require.NoError(t, err)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	return job, study
}

func jobNames() []string {
	out := []string{"least"}
	for _, e := range assets.Examples() {
		out = append(out, e.Name)
	}
	return out
}

func systemOf(name string) units.Locale {
	if name == "metric-altitude" {
		return units.SI
	}
	return units.IP
}

func written(t testing.TB, job sizing.Job, s *sizing.Study, opts Options) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, job, s, opts))
	return out.Bytes()
}

// each runs a test on every job, audience and paper.
func each(t *testing.T, run func(t *testing.T, name string, job sizing.Job, s *sizing.Study, opts Options)) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		for _, a := range Audiences() {
			for _, p := range Papers() {
				t.Run(fmt.Sprintf("%s/%s/%s", name, a, p), func(t *testing.T) {
					run(t, name, job, s, testOptions(a, p, systemOf(name)))
				})
			}
		}
	}
}

// texts gives the words of a PDF as read by this test's own reader and by
// poppler, which cmd/test.sh installs.
func texts(t *testing.T, pdf []byte) map[string]string {
	t.Helper()
	out := map[string]string{"own reader": allText(readPages(t, pdf))}
	cmd := exec.Command("pdftotext", "-layout", "-enc", "UTF-8", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	text, err := cmd.Output()
	require.NoError(t, err)
	out["poppler"] = string(text)
	return out
}

// TestReadBack: the numbers on paper are the Study's, to the step to
// which the page rounds.
func TestReadBack(t *testing.T) {
	each(t, func(t *testing.T, name string, job sizing.Job, s *sizing.Study, opts Options) {
		pdf := written(t, job, s, opts)
		if opts.For == Working {
			readWorking(t, pdf, job, s, opts)
			return
		}
		for reader, text := range texts(t, pdf) {
			switch opts.For {
			case Customer:
				readCustomer(t, reader, text, job, s, opts.System)
			case WorkOrder:
				readWorkOrder(t, reader, text, job, s, opts.System)
			}
		}
	})
}

var numberPattern = regexp.MustCompile(`-?\d+(?:,\d{3})*(?:\.\d+)?`)

// numbersAfter are the numbers of the line that holds a label, behind it.
func numbersAfter(t *testing.T, text, label string) []float64 {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		_, rest, ok := strings.Cut(line, label)
		if !ok {
			continue
		}
		var out []float64
		for _, n := range numberPattern.FindAllString(rest, -1) {
			v, err := strconv.ParseFloat(strings.ReplaceAll(n, ",", ""), 64)
			require.NoError(t, err)
			out = append(out, v)
		}
		return out
	}
	t.Fatalf("no line with %q in:\n%s", label, text)
	return nil
}

// steps of rounding in the usual units, apart from the package's own.
func testStep(q units.Quantity, sys units.Locale) float64 {
	ip, si := 0.0, 0.0
	switch q.(type) {
	case units.Flow:
		ip, si = 10, 5
	case units.Pressure:
		ip, si = 0.01, 2
	case units.Power, units.Money:
		ip, si = 5, 5
	}
	if sys.System == units.Metric {
		return si
	}
	return ip
}

func near(t *testing.T, q units.Quantity, got float64, sys units.Locale, about string) {
	t.Helper()
	u := q.Kind().Usual(sys)
	assert.InDelta(t, (q.SI()-u.Offset)/u.Scale, got, testStep(q, sys)/2*1.0001, about)
}

func readCustomer(t *testing.T, reader, text string, job sizing.Job, s *sizing.Study, sys units.Locale) {
	p, err := planFor(job, s, "", units.IP)
	require.NoError(t, err)
	shown := []*sizing.OptionResult{p.today}
	if !p.isToday() {
		shown = append(shown, p.option)
	}
	air, airDue := numbersAfter(t, text, string(airLine)), numbersAfter(t, text, string(airDueLine))
	watts, wattsDue := numbersAfter(t, text, string(powerLine)), numbersAfter(t, text, string(powerDue))
	money := numbersAfter(t, text, string(costLine))
	merv := numbersAfter(t, text, "(MERV, 1 to 16)")
	for _, line := range [][]float64{air, airDue, watts, wattsDue, money} {
		require.Len(t, line, len(shown))
	}
	for i, o := range shown {
		about := reader + ", " + o.Name
		near(t, o.Clean.Airflow, air[i], sys, about)
		near(t, o.Loaded.Airflow, airDue[i], sys, about)
		near(t, o.Clean.BlowerPower, watts[i], sys, about)
		near(t, o.Loaded.BlowerPower, wattsDue[i], sys, about)
		near(t, o.AnnualCost, money[i], sys, about)
		require.NotEmpty(t, merv, about)
		assert.EqualValues(t, o.Efficiency.InstalledMERV, merv[0], about)
		merv = merv[1:]
		if o.Efficiency.InstalledMERV < o.Efficiency.MERV {
			merv = merv[1:]
		}
	}
	holds(t, reader, text, append(restsOn(s), "is off before the unit is opened", "How we know")...)
}

// restsOn is how much of the house is assumed, as the page says it.
func restsOn(s *sizing.Study) []string {
	if s.AssumedShare < 0.005 {
		return []string{"We measured or described every part of today's resistance."}
	}
	return []string{fmt.Sprintf("About %.0f %% of today's resistance is based on usual values", 100*s.AssumedShare)}
}

// holds tells that a text has the words, however its lines break.
func holds(t *testing.T, reader, text string, words ...string) {
	t.Helper()
	flat := strings.Join(strings.Fields(text), " ")
	for _, w := range words {
		assert.Contains(t, flat, strings.Join(strings.Fields(w), " "), reader)
	}
}

func readWorkOrder(t *testing.T, reader, text string, job sizing.Job, s *sizing.Study, sys units.Locale) {
	p, err := planFor(job, s, "", units.IP)
	require.NoError(t, err)
	c := p.option.Clean
	margin := func(q units.Pressure) float64 {
		return max(math.Abs(q.SI())*0.1, (0.03 * units.InchWater).SI())
	}
	pressure := func(label string, q units.Pressure) {
		got := numbersAfter(t, text, label)
		require.Len(t, got, 3, "%s: %s", reader, label)
		near(t, q, got[0], sys, label)
		away := math.Copysign(margin(q), q.SI())
		near(t, q-units.Pressure(away), got[1], sys, label)
		near(t, q+units.Pressure(away), got[2], sys, label)
	}
	seen := 0
	for _, q := range c.Ports {
		label := string(q.Name)
		if q.Name == sizing.PortReturn && p.central() == nil {
			label = "return plenum"
		}
		if n := strings.Count(text, label); n == 0 || q.Name == sizing.PortInlet && p.central() == nil {
			continue
		}
		seen++
		if label != "return plenum" {
			pressure(label, q.Static)
		}
	}
	assert.GreaterOrEqual(t, seen, 2, "ports to drill")
	pressure("difference: the external static pressure", c.ExternalStatic)
	if p.central() != nil {
		pressure("difference: the drop of the filter", c.FilterDrop)
	}
	flow := numbersAfter(t, text, "airflow, where it is measured")
	require.Len(t, flow, 3)
	near(t, c.Airflow, flow[0], sys, reader)
	near(t, c.Airflow*0.9, flow[1], sys, reader)
	near(t, c.Airflow*1.1, flow[2], sys, reader)
	// Power off comes before anything that is done.
	flat := strings.Join(strings.Fields(text), " ")
	off := strings.Index(flat, "Switch off power at the disconnect")
	require.Positive(t, off)
	assert.Less(t, off, strings.Index(flat, "What is done"))
	for _, l := range p.places {
		holds(t, reader, text, l.size.String())
	}
}

// readWorking holds the calculations to the job and its Study. Their columns are
// read one after another, as the file has them.
func readWorking(t *testing.T, pdf []byte, job sizing.Job, s *sizing.Study, opts Options) {
	d, err := newDocument(job, s, opts)
	require.NoError(t, err)
	m := &methods{units: opts.System, known: map[string]int{}}
	cmd := exec.Command("pdftotext", "-raw", "-enc", "UTF-8", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	raw, err := cmd.Output()
	require.NoError(t, err)
	inOrder := ""
	for _, page := range readPages(t, pdf) {
		for _, w := range page {
			inOrder += w.text
		}
	}
	for reader, text := range map[string]string{"own reader": inOrder, "poppler": string(raw)} {
		flat := strings.Join(strings.Fields(text), "")
		has := func(words string) {
			t.Helper()
			if !strings.Contains(flat, strings.Join(strings.Fields(words), "")) {
				t.Errorf("%s: no %q", reader, words)
			}
		}
		has(opts.Version)
		has(testChecksum)
		for _, section := range d.sections() {
			has(section.title)
			for _, l := range d.linesOf(section, m) {
				if reader == "own reader" { // the other puts subscripts on lines of their own
					has(l.plain)
				}
			}
		}
		for _, w := range s.Workings() {
			for _, step := range w.Steps {
				_, result := step.In(opts.System)
				has("= " + result)
			}
		}
		for _, a := range s.Assumptions {
			has(a.Path)
		}
		data, err := jobfile.Encode(job)
		require.NoError(t, err)
		fields, err := flatten(data)
		require.NoError(t, err)
		for _, f := range fields {
			has(f.path + ":")
			for _, part := range strings.FieldsFunc(f.value, func(r rune) bool { return r == ',' || r == ';' }) { // a long line may go on over a page
				has(part)
			}
		}
		for _, value := range plainValues(t, data) {
			for _, word := range strings.Fields(value) {
				has(word)
			}
		}
	}
}

// plainValues are all values that a job's file holds.
func plainValues(t *testing.T, data []byte) []string {
	var root any
	require.NoError(t, json.Unmarshal(data, &root))
	var out []string
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			for _, x := range v {
				walk(x)
			}
		case []any:
			for _, x := range v {
				walk(x)
			}
		case string:
			out = append(out, v)
		}
	}
	walk(root)
	require.NotEmpty(t, out)
	return out
}

// TestPrintedSteps reads each printed line back: symbol by symbol it holds
// the inputs and the result of its step, clean and dirty. That the results follow
// from those very digits is held in sizing, TestEveryStepCanBeWorkedOut.
func TestPrintedSteps(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		for _, sys := range []units.Locale{units.IP, units.SI} {
			d, err := newDocument(job, s, testOptions(Working, Letter, sys))
			require.NoError(t, err)
			m := &methods{units: sys, known: map[string]int{}}
			steps := map[string]int{}
			for _, section := range d.sections() {
				for _, l := range d.linesOf(section, m) {
					for _, text := range readLine(t, l.plain) {
						steps[fmt.Sprint(m.list[l.number-1].equation, text)]++
					}
				}
			}
			require.NotEmpty(t, steps)
			for _, w := range s.Workings() {
				for _, step := range w.Steps {
					_, result := step.In(sys)
					if len(step.Inputs) == 0 {
						continue
					}
					values := map[string]string{}
					for _, in := range step.Inputs {
						values[plainOf([]atom{symbolSpans(in.Symbol)})] = in.Value(sys)
					}
					key := fmt.Sprint(step.Equation(sys), fmt.Sprint(values, result))
					assert.Positive(t, steps[key], "%s, %s: %s", name, w.Key, key)
				}
			}
		}
	}
}

// readLine gives the inputs and the result of each side of a printed line.
func readLine(t *testing.T, line string) []string {
	line = strings.ReplaceAll(line, string(nbsp), " ")
	first, rest, both := strings.Cut(line, "clean: ")
	sides := []string{line}
	if both {
		sides = strings.Split(rest, "; dirty: ")
	} else if dirty, only := strings.CutPrefix(line, "dirty: "); only {
		first, sides = "", []string{dirty}
	} else {
		first = ""
	}
	var out []string
	for _, side := range sides {
		numbers, result, found := strings.Cut(side, "= ")
		require.True(t, found, line)
		values := map[string]string{}
		for _, part := range strings.FieldsFunc(first+","+numbers, func(r rune) bool { return r == ',' || r == ';' }) {
			if symbol, value, found := strings.Cut(strings.TrimSpace(part), " "); found {
				values[symbol] = value
			}
		}
		out = append(out, fmt.Sprint(values, result))
	}
	return out
}

// TestFile: every face is embedded, the paper has its size, and the
// document has a title, a language and an outline.
func TestFile(t *testing.T) {
	each(t, func(t *testing.T, name string, job sizing.Job, s *sizing.Study, opts Options) {
		pdf := written(t, job, s, opts)
		text := string(pdf)
		assert.Equal(t, strings.Count(text, "/Subtype /Type0"), strings.Count(text, "/FontFile2"))
		assert.NotContains(t, text, "/Subtype /Type1")
		assert.Contains(t, text, "/Lang (en)")
		assert.Contains(t, text, "/Title ")
		assert.Contains(t, text, "/Type /Outlines")
		w, h := "612.00", "792.00"
		if opts.Paper == A4 {
			w, h = "595.28", "841.89"
		}
		assert.Contains(t, text, "/MediaBox [0 0 "+w+" "+h+"]")
		again := written(t, job, s, opts)
		assert.True(t, bytes.Equal(pdf, again), "the same pages every time")
		for _, tool := range [][]string{{"qpdf", "--check"}, {"pdffonts"}, {"pdfinfo"}} {
			askTool(t, tool, pdf, opts)
		}
	})
}

func askTool(t *testing.T, tool []string, pdf []byte, opts Options) {
	file := filepath.Join(t.TempDir(), "pages.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o600))
	out, err := exec.Command(tool[0], append(tool[1:], file)...).CombinedOutput()
	require.NoError(t, err, string(out))
	switch tool[0] {
	case "qpdf":
		assert.Contains(t, string(out), "No syntax or stream encoding errors found")
	case "pdffonts":
		lines := strings.Split(strings.TrimSpace(string(out)), "\n")[2:]
		require.NotEmpty(t, lines)
		for _, line := range lines {
			assert.Regexp(t, `Identity-H\s+yes\s+\S+\s+yes`, line, "embedded, with its letters known")
		}
	case "pdfinfo":
		paper := map[Paper]string{Letter: "612 x 792 pts (letter)", A4: "595.28 x 841.89 pts (A4)"}
		assert.Contains(t, string(out), paper[opts.Paper])
	}
}

// TestRanges: where ranges are known the page states them in place of
// single numbers, and promises no more than they agree on.
func TestRanges(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	opts := testOptions(Customer, Letter, units.IP)
	require.Len(t, numbersAfter(t, allText(readPages(t, written(t, job, s, opts))), string(airLine)), 2)
	flow := func(low, high units.Flow) sizing.Range[units.Flow] {
		return sizing.Range[units.Flow]{Low: low, High: high}
	}
	for _, o := range s.Options {
		opts.Ranges = append(opts.Ranges, sizing.OptionRange{Name: o.Name, Kind: o.Kind,
			Airflow: flow(o.Clean.Airflow*0.9, o.Clean.Airflow*1.2), LoadedAirflow: flow(o.Loaded.Airflow*0.9, o.Loaded.Airflow*1.2),
			AirflowGain: flow(70*units.CFM, 90*units.CFM), MoreAir: sizing.Agreement{Better: 1},
			Life: sizing.Range[units.Duration]{Low: 3 * units.Month, High: 5 * units.Month}})
	}
	text := allText(readPages(t, written(t, job, s, opts)))
	proposed := s.Proposed()
	for _, x := range []struct {
		label string
		of    func(*sizing.OptionResult) units.Flow
	}{
		{string(airLine), func(o *sizing.OptionResult) units.Flow { return o.Clean.Airflow }},
		{string(airDueLine), func(o *sizing.OptionResult) units.Flow { return o.Loaded.Airflow }},
	} {
		got := numbersAfter(t, text, x.label)
		require.Len(t, got, 4)
		for i, q := range []units.Flow{x.of(s.Today()) * 0.9, x.of(s.Today()) * 1.2, x.of(proposed) * 0.9, x.of(proposed) * 1.2} {
			near(t, q, got[i], units.IP, x.label)
		}
	}
	holds(t, "ranges", text, "It moves about 70 to 90 cfm more air.")
	assert.Contains(t, text, "about every 3 to 5 months")

	for i := range opts.Ranges {
		opts.Ranges[i].MoreAir = sizing.Agreement{Better: 0.9}
	}
	text = allText(readPages(t, written(t, job, s, opts)))
	assert.NotContains(t, text, "more air.")
	holds(t, "ranges", text, "too close to tell")
}

func TestOptions(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	for _, o := range []Options{{For: "neighbour"}, {Paper: "legal"}, {Proposed: "no such option"}, {Proposed: sizing.NoFilterName}} {
		var fault *OptionError
		require.ErrorAs(t, Write(&bytes.Buffer{}, job, s, o), &fault)
		assert.NotEmpty(t, fault.Wanted)
	}
	for _, o := range s.Options[1:] {
		pages := readPages(t, written(t, job, s, Options{For: WorkOrder, Proposed: o.Name}))
		if o.Kind == sizing.KindOption {
			assert.Contains(t, allText(pages), "Work order: "+o.Name)
		} else {
			assert.Contains(t, allText(pages), "the house as it is")
		}
	}
}

// TestRounds: every round stands in the calculations with its date, what was measured, what was predicted, and the verdict.
func TestRounds(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	require.NotEmpty(t, s.Readings)
	for _, sys := range []units.Locale{units.IP, units.SI} {
		name := sys.String()
		for _, a := range []Audience{Working} {
			text := allText(readPages(t, written(t, job, s, testOptions(a, Letter, sys))))
			for _, r := range s.Readings {
				holds(t, name, text, r.Label+", "+r.Date, string(r.Verdict))
				after := text[strings.LastIndex(text, "measured against predicted"):]
				got := numbersAfter(t, after, "airflow, by the "+string(r.AirflowBasis))
				require.Len(t, got, 2)
				near(t, r.Airflow, got[0], sys, name)
				near(t, r.PredictedAirflow, got[1], sys, name)
				for _, q := range r.Rows {
					label := string(q.Name)
					got := numbersAfter(t, after, label)
					require.Len(t, got, 2, label)
					near(t, q.Measured, got[0], sys, label)
					near(t, q.Predicted, got[1], sys, label)
				}
			}
			holds(t, name, text, "job file sha256 9f86d081884c")
		}
	}
}

// TestAfterTheWork: the house before, what was predicted and what was
// read when done stand side by side.
func TestAfterTheWork(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	after := job.Readings[0]
	after.Label, after.AfterWork, after.Option, after.Airflow = "after", true, job.Options[1].Name, 1000*units.CFM
	job.Readings = append(job.Readings, after)
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	text := allText(readPages(t, written(t, job, s, testOptions(WorkOrder, Letter, units.IP))))
	_, rest, ok := strings.Cut(text, "Before and after the work: "+job.Options[1].Name)
	require.True(t, ok)
	got := numbersAfter(t, rest, "airflow")
	require.Len(t, got, 3)
	near(t, s.AsFound.Condition.Airflow, got[0], units.IP, "before")
	near(t, s.Option(job.Options[1].Name).Clean.Airflow, got[1], units.IP, "predicted")
	near(t, 1000*units.CFM, got[2], units.IP, "after")
}

// TestAirHandlerPages: the pages of an air handler name no furnace.
func TestAirHandlerPages(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
	job.Equipment = sizing.Equipment{Kind: sizing.AirHandler, CoolingCapacity: 3 * units.Ton, RiseLow: 20 * units.FahrenheitDegree, RiseHigh: 45 * units.FahrenheitDegree}
	for _, output := range []float64{10000, 150000} {
		job.Equipment.HeatingOutput = units.HeatRate(output) * units.BtuPerHour
		s, err := sizing.Solve(job)
		require.NoError(t, err)
		for _, a := range []Audience{Customer, WorkOrder, Working} { // the field sheet asks which it is
			text := strings.ReplaceAll(allText(readPages(t, written(t, job, s, testOptions(a, Letter, units.IP)))), "boiler or furnace room", "")
			text = strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "boiler or furnace room", "")
			for _, word := range []string{"furnace", "Furnace", "heat exchanger", "flue gas"} {
				assert.NotContains(t, text, word, "%s at %g", a, output)
			}
		}
	}
}

// TestMissing: what the face does not hold shows as a sign and is reported.
func TestMissing(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	pages, err := New(job, s, Options{})
	require.NoError(t, err)
	assert.Empty(t, pages.Warnings)
	named := *s
	named.Name = "Ελληνικά, русский, עברית, 東京 and 🏠"
	pages, err = New(job, &named, Options{})
	require.NoError(t, err)
	require.Len(t, pages.Warnings, 1)
	for _, code := range []string{"U+6771", "U+4EAC", "U+1F3E0"} {
		assert.Contains(t, pages.Warnings[0], code)
	}
	text := allText(readPages(t, written(t, job, &named, Options{})))
	assert.Contains(t, text, "Ελληνικά, русский")
	assert.Contains(t, text, "תירבע", "right-to-left letters stand as they are read")
	assert.Contains(t, text, "□□ and □")
}

func BenchmarkReport(b *testing.B) {
	job, s := studied(b, "one-inch-slot")
	for _, a := range Audiences() {
		b.Run(string(a), func(b *testing.B) {
			b.ReportAllocs()
			defer processor.Report(b)()
			for b.Loop() {
				written(b, job, s, testOptions(a, Letter, units.IP))
			}
		})
	}
}

// The customer's page as the window and the command line make it, with ranges.
func BenchmarkSampledCustomerPage(b *testing.B) {
	job, s := studied(b, "one-inch-slot")
	opts := testOptions(Customer, Letter, units.IP)
	defer processor.Report(b)()
	for b.Loop() {
		ranges, err := sizing.Ranges(context.Background(), job, sizing.UsualSamples, sizing.UsualSeed, nil)
		require.NoError(b, err)
		opts.Ranges = ranges
		written(b, job, s, opts)
	}
}
