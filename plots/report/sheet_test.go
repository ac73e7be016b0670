package report

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// boldFont names the bold face in a page's own terms.
func boldFont(pages [][]word) string {
	for _, w := range pages[0] {
		if w.size >= 14 { // the title
			return w.font
		}
	}
	return ""
}

// TestMargins: no word passes the margins or stands under another of
// the text, on any page of any report.
func TestMargins(t *testing.T) {
	measure := newSheet(Letter)
	each(t, func(t *testing.T, name string, job sizing.Job, s *sizing.Study, opts Options) {
		pages := readPages(t, written(t, job, s, opts))
		inMargins(t, measure, pages, opts.Paper)
	})
}

func inMargins(t require.TestingT, measure *sheet, pages [][]word, paper Paper) {
	w, h := paper.size()
	bold := boldFont(pages)
	for i, page := range pages {
		for _, x := range page {
			long := measure.width(style{size: x.size, bold: x.font == bold}, x.text)
			assert.GreaterOrEqual(t, x.x, marginSide-8, "page %d: %q", i+1, x.text)
			assert.LessOrEqual(t, x.x+long, w-marginSide+8, "page %d: %q", i+1, x.text)
			assert.Greater(t, x.y, 25.0, "page %d: %q", i+1, x.text)
			assert.Less(t, x.y, h-20, "page %d: %q", i+1, x.text)
		}
	}
}

// TestLongNames: names of any length and letters stay on the paper.
func TestLongNames(t *testing.T) {
	measure := newSheet(Letter)
	job, solved := studied(t, "one-inch-slot")
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.StringN(0, 400, -1)
		j, s := job.Clone(), *solved
		s.Name = name.Draw(rt, "house")
		j.Notes = name.Draw(rt, "notes")
		s.Options = slices.Clone(s.Options)
		j.Options[0].Name = "option " + name.Draw(rt, "option")
		s.Options[2].Name = j.Options[0].Name
		for i := range j.Returns {
			j.Returns[i].Name = name.Draw(rt, "return")
		}
		opts := testOptions(rapid.SampledFrom([]Audience{Customer, WorkOrder}).Draw(rt, "for"), Letter, units.IP)
		opts.Proposed = s.Options[2].Name
		var out strings.Builder
		require.NoError(rt, Write(&out, j, &s, opts))
		inMargins(rt, measure, readPages(t, []byte(out.String())), Letter)
	})
}

// TestPack: packing keeps order and height, loses nothing but white at
// the top of a page, and never parts rows that keep together and fit a page.
func TestPack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(rt, "n")
		rows := make([]row, n)
		for i := range rows {
			rows[i] = row{height: rapid.Float64Range(1, 90).Draw(rt, "height"), entry: strconv.Itoa(i)}
			switch rapid.IntRange(0, 3).Draw(rt, "kind") {
			case 0:
				rows[i].keep = true
			case 1:
				rows[i].space = true
			}
		}
		const high = 200.0
		at := map[string]int{}
		var order []int
		for k, page := range pack(rows, high) {
			sum := 0.0
			for _, r := range page {
				v, err := strconv.Atoi(r.entry)
				require.NoError(rt, err)
				at[r.entry] = k
				order = append(order, v)
				if !r.space {
					sum += r.height
				} else if r.entry != page[len(page)-1].entry {
					sum += r.height
				}
			}
			require.False(rt, page[0].space)
		}
		require.True(rt, slices.IsSorted(order))
		for i, r := range rows {
			_, there := at[r.entry]
			require.True(rt, there || r.space)
			if r.keep && i+1 < n && !rows[i+1].space && !rows[i+1].keep && (i == 0 || !rows[i-1].keep && !rows[i-1].space) && r.height+rows[i+1].height <= high {
				require.Equal(rt, at[r.entry], at[rows[i+1].entry])
			}
		}
	})
}

// TestWrap: wrapped lines hold the same words and fit.
func TestWrap(t *testing.T) {
	s := newSheet(Letter)
	st := style{size: 9.5}
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringMatching(`[a-zA-Z0-9 ]{0,200}`).Draw(rt, "text")
		width := rapid.Float64Range(20, 300).Draw(rt, "width")
		lines := s.wrap(st, text, width)
		for _, line := range lines {
			require.LessOrEqual(rt, s.width(st, line), width+1e-9)
		}
		require.Equal(rt, strings.Join(strings.Fields(text), ""), strings.ReplaceAll(strings.Join(lines, ""), " ", ""))
		require.LessOrEqual(rt, s.width(st, s.cut(st, text, width)), width+1e-9)
	})
}

// TestSteps: a rounded number is a whole number of steps and the
// nearest one.
func TestSteps(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.Float64Range(-5000, 5000).Draw(rt, "v")
		step := rapid.SampledFrom([]float64{10, 5, 2, 1, 0.05, 0.01}).Draw(rt, "step")
		got, err := strconv.ParseFloat(steps(v, step), 64)
		require.NoError(rt, err)
		require.InDelta(rt, v, got, step/2*(1+1e-9)+1e-9)
		require.InDelta(rt, got/step, math.Round(got/step), 1e-6)
	})
	assert.Equal(t, "0", steps(-0.3, 1))
	assert.Equal(t, "–", steps(math.NaN(), 1))
	assert.Equal(t, "-$5", about(units.Money(-4), units.IP))
}

func TestSide(t *testing.T) {
	for inches, want := range map[float64]string{20: "20", 15.5: "15 1/2", 24.625: "24 5/8", 0.75: "3/4", 3.9375: "3 15/16"} {
		assert.Equal(t, want, side(units.Length(inches)*units.Inch, units.IP))
	}
	assert.Equal(t, "592", side(592*units.Millimetre, units.SI))
	assert.Equal(t, "14\u00a0in", named(units.IP, units.InchPound, 14*units.Inch))
	assert.Equal(t, "356\u00a0mm (14\u00a0in)", named(units.SI, units.InchPound, 14*units.Inch))
	assert.Equal(t, "15\u00a03/4\u00a0in (400\u00a0mm)", named(units.IP, units.Metric, 400*units.Millimetre))
	assert.Equal(t, "14\u00a0x 8\u00a0in", by(units.IP, 14*units.Inch, 8*units.Inch))
}

// TestCanvas_Identity: turning, moving and stretching go together as the
// drawing library asks, and Pop undoes them.
func TestCanvas_Identity(t *testing.T) {
	s := newSheet(Letter)
	s.pdf.AddPage()
	c := &canvas{sheet: s, x: 100, y: 200, w: 300, h: 150, state: pen{a: 1, d: 1}}
	x, y := c.page(vg.Point{X: 0, Y: 0})
	assert.Equal(t, [2]float64{100, 350}, [2]float64{x, y}, "the origin is the lower left corner")
	c.Push()
	c.Translate(vg.Point{X: 10, Y: 20})
	c.Rotate(math.Pi / 2)
	c.Scale(2, 2)
	x, y = c.page(vg.Point{X: 5, Y: 0})
	assert.InDelta(t, 110, x, 1e-9)
	assert.InDelta(t, 350-20-10, y, 1e-9)
	assert.InDelta(t, 2, c.growth(), 1e-12)
	c.Pop()
	x, y = c.page(vg.Point{X: 300, Y: 150})
	assert.Equal(t, [2]float64{400, 200}, [2]float64{x, y})
	require.NoError(t, s.pdf.Error())
}
