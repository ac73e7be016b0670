package homes

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/assume"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	options "returnbench/sizing/option"
	"returnbench/sizing/processor"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

var update = flag.Bool("update", false, "write what is compared with")

func screened(t require.TestingT, in string, opts Options) (string, Summary) {
	var out bytes.Buffer
	s, err := Screen(context.Background(), strings.NewReader(in), &out, opts)
	require.NoError(t, err)
	return out.String(), s
}

func records(t require.TestingT, text string) [][]string {
	all, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	return all
}

func small(t testing.TB) string {
	data, err := os.ReadFile(filepath.Join("testdata", "small.csv"))
	require.NoError(t, err)
	return string(data)
}

func invented(t require.TestingT, seed uint64, n int) string {
	var b bytes.Buffer
	require.NoError(t, Generate(seed, n, &b))
	return b.String()
}

// TestScreen_Golden pins a small list, in both systems of units.
func TestScreen_Golden(t *testing.T) {
	for name, sys := range map[string]units.Locale{"small-ip.csv": units.IP, "small-si.csv": units.SI} {
		got, _ := screened(t, small(t), Options{Units: sys})
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), got)
	}
}

// TestScreen_SameAsJob_Identity holds a row against the study of the job that
// it stands for.
func TestScreen_SameAsJob_Identity(t *testing.T) {
	job := sizing.Job{Schema: sizing.Schema, Name: "typed", DesignAirflow: 1200 * units.CFM}
	job.Equipment.CoolingCapacity = 3 * units.Ton
	job.Supply = sizing.Part{Drop: 0.15 * units.InchWater}
	job.Site.Altitude = 600 * units.Foot
	job.Filters = []filter.Filter{{Name: "today's filter", Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, MERV: 11}}
	job.Slot = sizing.Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "today's filter"}
	study, err := sizing.Solve(job)
	require.NoError(t, err)

	out, summary := screened(t, "name,cooling_capacity [ton],design_airflow,supply_drop [Pa],altitude,slot,filter_merv\ntyped,3,1200 cfm,37.3633365,600 ft,16x25x1,11\n", Options{})
	rows := records(t, out)
	require.Len(t, rows, 2)
	cell := func(name string) string {
		for i, h := range rows[0] {
			if n, _, _ := strings.Cut(h, " "); n == name {
				return rows[1][i]
			}
		}
		t.Fatalf("no column %s", name)
		return ""
	}
	clean := study.Today().Clean
	assert.Empty(t, cell("error"))
	assert.Equal(t, show(clean.Airflow, units.IP), cell("study_airflow"))
	assert.Equal(t, show(clean.ExternalStatic, units.IP), cell("study_external_static"))
	assert.Equal(t, show(clean.FilterDrop, units.IP), cell("study_filter_drop"))
	assert.Equal(t, show(clean.FaceVelocity, units.IP), cell("study_face_velocity"))
	assert.Equal(t, show(clean.BlowerPower, units.IP), cell("study_blower_power"))
	assert.Equal(t, show(clean.TemperatureRise, units.IP), cell("study_temperature_rise"))
	assert.Equal(t, show(study.Today().Life, units.IP), cell("study_filter_life"))
	assert.Equal(t, show(study.Today().AnnualCost, units.IP), cell("study_annual_cost"))
	assert.Equal(t, string(study.Today().Verdict), cell("study_verdict"))
	assert.Equal(t, "576", cell("study_needed_face"), "1200 cfm / 300 fpm = 4 ft2")
	assert.Equal(t, string(study.Sizes[0].Place)+" "+study.Sizes[0].Label, cell("study_best_size"))
	for _, f := range study.Today().Findings {
		if f.Severity != sizing.Good {
			assert.Contains(t, cell("study_limits"), f.Code)
		}
	}
	assert.Equal(t, Summary{Homes: 1}.Homes, summary.Homes)
	assert.Zero(t, summary.Faulty)
}

// TestScreen_Workers_Identity: any number of workers gives the same bytes, the
// rows in the order of the list with their own cells first, and one summary.
func TestScreen_Workers_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := invented(t, rapid.Uint64().Draw(t, "seed"), rapid.IntRange(0, 40).Draw(t, "homes"))
		rows := strings.SplitAfter(strings.TrimSuffix(list, "\n"), "\n")
		if at := rapid.IntRange(0, len(rows)-1).Draw(t, "bad"); at > 0 {
			rows[at] = "a row without cells\n"
		}
		list = strings.Join(rows, "")
		one, alone := screened(t, list, Options{Workers: 1})
		many, together := screened(t, list, Options{Workers: rapid.IntRange(2, 9).Draw(t, "workers")})
		require.Equal(t, one, many)
		require.Equal(t, alone, together)
		out := records(t, one)
		require.Len(t, out, len(rows))
		for i, r := range rows {
			own := records(t, r)[0]
			require.Equal(t, own, out[i][:len(own)])
		}
		require.Equal(t, len(rows)-1, alone.Homes)
	})
}

// TestScreen_Faults: a row at fault keeps its cells and tells line,
// column and reason; the rows after it are solved.
func TestScreen_Faults(t *testing.T) {
	heading := "name,design_airflow [cfm],slot,filter_merv,filter_rated_drop,filter_rated_airflow,option_price,option_2_merv,coil_airflow [cfm],dust\n"
	for row, want := range map[string]string{
		"a,12 cmf,,,,,,,,":              `line 2, design_airflow: "12 cmf": "cmf" is not a unit of airflow`,
		"a,0,,,,,,,,":                   "line 2, design_airflow: zero counts as left open",
		"a,,,,,,,,,":                    "line 2, design_airflow: given nothing",
		"a,30000,,,,,,,,":               "line 2, design_airflow: given 30000 cfm; want 50 cfm to 10000 cfm",
		"a,1200,16y25,,,,,,,":           `line 2, slot: "16y25": want a nominal size`,
		"a,1200,1x25x1,,,,,,,":          "line 2, slot: given 1 in; want 4 in to 72 in",
		"a,1200,,8.5,,,,,,":             `line 2, filter_merv: "8.5": want a whole number`,
		"a,1200,,17,,,,,,":              "line 2, filter_merv: given 17; want 1 to 16",
		"a,1200,16x25x1,,0.1,,,,,":      `line 2, filter_rated_drop: "0.1": the unit is missing`,
		"a,1200,16x25x1,,25 Pa,,,,,":    "line 2, filter_rated_airflow: ",
		"a,1200,,,,,,,1200,":            "line 2, coil_drop: given nothing",
		"a,1200,,,,,100 $,,,":           "line 2, option_slot: given nothing; want what the upgrade changes",
		"a,1200,,,,,,99,,":              "line 2, option_2_merv: given 99",
		"a,1200,,,,,,,,dusty":           `line 2, dust: "dusty": want one of low`,
		"a,1200,,,,,,,,ordinery":        `line 2, dust: "ordinery": want "ordinary"`,
		"a,1200":                        "line 2: 2 cells, the heading has 10",
		"a,1200,,,,,,,,,b,c":            "line 2: 12 cells, the heading has 10; left out: b, c",
		"a,x cfm,,zero,,,,,,":           "filter_merv",
		"a,NaN,,,,,,,,":                 "design_airflow",
		"a,1e400,,,,,,,,":               "design_airflow",
		"a,1200,16x25x1 ft,,,,,,,":      "line 2, slot: given 16 ft",
		"a,1200,16x25x1 kg,,,,,,,":      `is not a unit of length`,
		"a,1200,16x-25x1,,,,,,,":        "line 2, slot: ",
		"a,1200,,,,,,,,low;ordinary":    "line 2, dust: ",
		"a,1200,20x25x1,8,,600 cfm,,,,": "filter_rated_drop",
	} {
		var reported []Fault
		out, s := screened(t, heading+row+"\nnext,1200,,,,,,,,\n", Options{Report: func(f Fault) { reported = append(reported, f) }})
		rows := records(t, out)
		require.Len(t, rows, 3, row)
		bad, next := rows[1], rows[2]
		assert.Contains(t, bad[len(bad)-1], want, row)
		assert.Empty(t, next[len(next)-1], row)
		assert.NotEmpty(t, next[len(next)-3], row)
		own := records(t, row+"\n")[0]
		own = own[:min(len(own), 10)]
		assert.Equal(t, own, bad[:len(own)], row)
		assert.Equal(t, 2, s.Homes)
		assert.Equal(t, 1, s.Faulty)
		require.NotEmpty(t, reported)
		assert.Equal(t, 2, reported[0].Line)
		assert.Contains(t, bad[len(bad)-1], reported[0].String())
	}
}

// TestScreen_List: what cannot be read as a list is refused before
// anything is written, with every fault of the heading.
func TestScreen_List(t *testing.T) {
	for list, want := range map[string][]string{
		"":                                 {"the list is empty"},
		"name,desing_airflow\n":            {`column 2: "desing_airflow" is not a column of a list of homes; want "design_airflow"?`},
		"Name,Design-Airflow [cmf]\n":      {`column 2: design_airflow: "cmf" is not a unit of airflow`},
		"name,hours\n":                     {`column 2: "hours" is not a column`, "_hours"},
		"name [ft],zzzz,\n":                {"name is text", `"zzzz" is not a column of a list of homes`, "column 3: no name"},
		"name,name\n":                      {"column 2: name again; it is column 1 too"},
		"slot,slot_depth\n":                {"slot_depth beside slot"},
		"name;design_airflow\n":            {`parted by ";"`},
		"name,study_airflow [cfm],error\n": {`"study_airflow" is a column that the screening writes`, `"error" is a column that the screening writes`},
		"name,design_airflow [cfm\n":       {`"design_airflow [cfm" cannot be read`},
	} {
		var out bytes.Buffer
		_, err := Screen(context.Background(), strings.NewReader(list), &out, Options{})
		var fault *ListError
		require.ErrorAs(t, err, &fault, list)
		for _, w := range want {
			assert.Contains(t, err.Error(), w)
		}
		assert.Empty(t, out.String())
	}
}

// TestScreen_Spellings: a mark at the start, other line ends, empty
// lines, inch marks and either kind of brackets change nothing.
func TestScreen_Spellings(t *testing.T) {
	plain, _ := screened(t, "name,design_airflow [cfm],slot_depth\nhome,1200,1 in\n", Options{})
	want := records(t, plain)[1][3:]
	for _, list := range []string{
		"\xef\xbb\xbfname,design_airflow [cfm],slot_depth\r\nhome,1200,1 in\r\n",
		"Name,Design airflow (cfm),slot-depth\n\n\nhome,1200 cfm,1 in",
		"name,\"design_airflow, cfm\",slot_depth\nhome,1200,1\"\n",
		"name,design_airflow [ cfm ],slot_depth\n home , 1200 ,1 in",
	} {
		out, s := screened(t, list, Options{})
		assert.Zero(t, s.Faulty, out)
		assert.Equal(t, want, records(t, out)[1][3:], list)
	}
}

// TestScreen_OpenQuote: a quote that opens on one line and closes on
// another, or never, is reported with its line and swallows no other row.
func TestScreen_OpenQuote(t *testing.T) {
	for list, want := range map[string][]string{
		"name,design_airflow\n\"open,1200 cfm\nfine,1200 cfm\nfine too,900 cfm\n": {"line 2: column 1: a quote opens"},
		"name,design_airflow\n\"two\nlines\",1200 cfm\nfine,900 cfm\n":            {"line 2: column 1: a quote opens", "line 3: a quote that opens on line 2 may close here"},
		"name,design_airflow\n\"a\"b\",1200 cfm\nfine,900 cfm":                    {"line 2: column 1: a quote within a quoted cell"},
		"name,design_airflow\n\"two\nof\nthree\",1200 cfm\n16\" slot,900 cfm\n":   {"line 2: column 1", "line 3: 1 cells", "line 4: a quote that opens on line 2"},
		"name,design_airflow\nfine,\"1200 cfm\"\nlast,\"900 cfm":                  {"line 3: column 2: a quote opens"},
	} {
		var told []string
		out, s := screened(t, list, Options{Report: func(f Fault) { told = append(told, f.String()) }})
		require.Len(t, told, len(want), list)
		for i := range want {
			assert.Contains(t, told[i], want[i])
		}
		assert.Equal(t, len(want), s.Faulty)
		physical := strings.Count(strings.TrimSuffix(list, "\n"), "\n")
		assert.Equal(t, physical, s.Homes, list)
		assert.Len(t, records(t, out), 1+physical, "every row is kept")
	}
}

// TestScreen_Endless: a row without an end does not fill the memory.
func TestScreen_Endless(t *testing.T) {
	var out bytes.Buffer
	endless := io.MultiReader(strings.NewReader("name,design_airflow\nfine,1200 cfm\n\"open,"), &repeated{text: "x,1200 cfm ", left: 1 << 40})
	s, err := Screen(context.Background(), endless, &out, Options{})
	var fault *ListError
	require.ErrorAs(t, err, &fault)
	assert.Contains(t, err.Error(), "after line 2: the row has no end within 1 MB")
	assert.Equal(t, 1, s.Homes, "the rows before it are written")
	assert.Len(t, records(t, out.String()), 2)
}

// TestScreen_Letters_Identity: text of another encoding is reported as such and kept
// as well as may be, in UTF-8.
func TestScreen_Letters_Identity(t *testing.T) {
	out, s := screened(t, "name,design_airflow\nM\xfcller,1200 cfm\nfine,900 cfm\n", Options{})
	require.Equal(t, 1, s.Faulty)
	require.True(t, utf8.ValidString(out))
	row := records(t, out)[1]
	require.Equal(t, "Müller", row[0])
	require.Contains(t, row[len(row)-1], "line 2: the text is not UTF-8")
	_, err := Screen(context.Background(), strings.NewReader("\xff\xfen\x00a\x00m\x00e\x00\n\x00"), io.Discard, Options{})
	require.ErrorContains(t, err, "heading: the text is not UTF-8")
}

// TestScreen_Formulas: a name that a spreadsheet would work out is
// written as text, and such a list can be gone on with.
func TestScreen_Formulas(t *testing.T) {
	list := "name,design_airflow,option_name,option_slot\n=1+1,1200 cfm,@x,20x25x4\n-5,900 cfm,,\n"
	out, s := screened(t, list, Options{})
	require.Zero(t, s.Faulty, out)
	all := records(t, out)
	require.Equal(t, []string{"'=1+1", "1200 cfm", "'@x"}, all[1][:3])
	require.Equal(t, "-5", all[2][0])
	_, again := screened(t, list, Options{Done: strings.NewReader(out)})
	require.Equal(t, s, again)
}

// repeated gives one text again and again.
type repeated struct {
	text string
	at   int
	left int
}

func (r *repeated) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) {
		if r.left == 0 {
			return n, io.EOF
		}
		k := copy(p[n:], r.text[r.at:])
		n += k
		if r.at += k; r.at == len(r.text) {
			r.at = 0
			r.left--
		}
	}
	return n, nil
}

// TestScreen_Memory: memory does not grow with the list.
func TestScreen_Memory(t *testing.T) {
	const rows = 150000
	list := io.MultiReader(strings.NewReader("name,design_airflow\n"), &repeated{text: "an invented home of which too little is known,12 parsec\n", left: rows})
	var most, early uint64
	reports := 0
	s, err := Screen(context.Background(), list, io.Discard, Options{Progress: func(done int) {
		if reports++; reports%500 != 0 {
			return
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		if early == 0 {
			early = m.HeapAlloc
		}
		most = max(most, m.HeapAlloc)
	}})
	require.NoError(t, err)
	assert.Equal(t, rows, s.Faulty)
	assert.Less(t, most-early, uint64(4<<20), "bytes held late in the list over those held early")
}

// TestScreen_Cancel: a cancelled run stops soon, has written whole
// rows, and is gone on from to the same end.
func TestScreen_Cancel(t *testing.T) {
	list := invented(t, 7, 120)
	whole, full := screened(t, list, Options{})
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var out bytes.Buffer
	_, err := Screen(ctx, strings.NewReader(list), &out, Options{Workers: 2, Progress: func(rows int) {
		if rows > 30 {
			cancel()
		}
	}})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, out.Len(), len(whole))
	require.True(t, strings.HasPrefix(whole, out.String()))
	require.True(t, strings.HasSuffix(out.String(), "\n"))

	earlier := out.String()
	s, err := Screen(context.Background(), strings.NewReader(list), &out, Options{Done: strings.NewReader(earlier)})
	require.NoError(t, err)
	require.Equal(t, whole, out.String())
	require.Equal(t, full, s)
}

// A reader that hangs does not hold up the end of a cancelled run.
func TestScreen_CancelHanging_Identity(t *testing.T) {
	r, w := io.Pipe()
	defer w.Close()
	ctx, cancel := context.WithCancel(context.Background())
	go func() {
		_, _ = io.WriteString(w, "name,design_airflow\n")
		cancel()
	}()
	_, err := Screen(ctx, r, io.Discard, Options{})
	require.ErrorIs(t, err, context.Canceled)
}

type full struct{ room int }

var errFull = errors.New("no room left")

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestScreen_WriteFault(t *testing.T) {
	for _, room := range []int{0, 1500, 4000} {
		_, err := Screen(context.Background(), strings.NewReader(invented(t, 1, 60)), &full{room}, Options{})
		require.ErrorIs(t, err, errFull)
	}
}

func BenchmarkScreen(b *testing.B) {
	const homes = 200
	list := invented(b, 1, homes)
	defer processor.Report(b)()
	for b.Loop() {
		if _, err := Screen(context.Background(), strings.NewReader(list), io.Discard, Options{Workers: 1}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(homes*float64(b.N)/b.Elapsed().Seconds(), "homes/s")
}

// Longer lists and a second worker: the time of a home stays the same, and so does
// the memory in use.
func BenchmarkScreenLists(b *testing.B) {
	for _, c := range []struct{ homes, workers int }{{1000, 1}, {1000, 2}, {10000, 2}} {
		list := invented(b, 1, c.homes)
		b.Run(fmt.Sprintf("%d_homes_%d_workers", c.homes, c.workers), func(b *testing.B) {
			var most uint64
			defer processor.Report(b)()
			for b.Loop() {
				progress := func(rows int) {
					if rows%200 != 0 {
						return
					}
					var m runtime.MemStats
					runtime.ReadMemStats(&m)
					most = max(most, m.HeapInuse)
				}
				if _, err := Screen(context.Background(), strings.NewReader(list), io.Discard, Options{Workers: c.workers, Progress: progress}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(c.homes)*float64(b.N)/b.Elapsed().Seconds(), "homes/s")
			b.ReportMetric(float64(most)/1e6, "heap-MB")
		})
	}
}

// BenchmarkSolved is the same homes solved alone, with neither sizes nor findings:
// each from its row to its house and its options, clean and loaded.
func BenchmarkSolved(b *testing.B) {
	const homes = 200
	rows, err := csv.NewReader(strings.NewReader(invented(b, 1, homes))).ReadAll()
	require.NoError(b, err)
	hd, err := readHeading(rows[0])
	require.NoError(b, err)
	defer processor.Report(b)()
	for b.Loop() {
		for _, cells := range rows[1:] {
			h, faults := hd.read(cells)
			require.Empty(b, faults)
			require.Empty(b, h.Check())
			made, err := house.New(assume.Job(h.Job), nil)
			require.NoError(b, err)
			require.NoError(b, options.SolveAll(made, &study.Study{}))
		}
	}
}
