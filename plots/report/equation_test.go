package report

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Every equation of the examples is set as one, as wide as a column at most, with
// each of its numbers and names drawn.
func TestEquationsAreSet(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		for _, sys := range append([]units.Locale{units.IP, units.SI}, spanish...) {
			d, err := newDocument(job, s, testOptions(Working, Letter, sys))
			require.NoError(t, err)
			f := d.newFlow(1)
			for _, w := range s.Workings() {
				for _, step := range w.Steps {
					if len(step.Inputs) == 0 {
						continue
					}
					formula := equationOf(step, sys)
					require.NotPanics(t, func() { d.sheet.typeset(style{size: 9}, formula) }, formula)
					b := d.sheet.equation(style{size: 9}, formula, f.columnWidth(2)-stepIndent)
					assert.LessOrEqual(t, b.w, f.columnWidth(2)-stepIndent, formula)
					d.sheet.pdf.AddPage()
					b.draw(100, 100)
					drawn := ""
					for _, x := range d.sheet.pdf.pages[len(d.sheet.pdf.pages)-1] {
						drawn += x.text
					}
					for _, in := range step.Inputs {
						if strings.Contains(strings.ReplaceAll(formula, " ", ""), in.Symbol) {
							assert.Contains(t, drawn, plainOf([]atom{symbolSpans(in.Symbol)}), formula)
						}
					}
				}
			}
		}
	}
}

// A fraction stands over its denominator, a subscript below the line, an exponent
// above it.
func TestFraction(t *testing.T) {
	s := newSheet(Letter)
	s.pdf.AddPage()
	s.typeset(style{size: 10}, "v = (a + 1) / b_low^2").draw(0, 100)
	at := map[string]float64{}
	bar := 0.0
	for _, x := range s.pdf.pages[0] {
		if x.text != "" {
			at[x.text] = x.y
		} else {
			bar = x.path[0].points[1]
		}
	}
	assert.Less(t, at["a"], bar)
	assert.Greater(t, at["b"], bar)
	assert.Greater(t, at["low"], at["b"])
	assert.Less(t, at["2"], at["b"])
	assert.InDelta(t, 100, at["v"], 1e-9)
	assert.NotContains(t, at, "(", "a whole numerator needs no bracket")
	for _, bad := range []string{"v = (a", "v = a )", "v = a ×", "v = "} {
		assert.Panics(t, func() { s.typeset(style{size: 10}, bad) }, bad)
		assert.Positive(t, s.equation(style{size: 10}, bad, 200).w, "it is set as it is written")
	}
}

// Pieces dealt out to columns and pages are all drawn, once, in order.
func TestColumnsLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &flow{sheet: newSheet(Letter), x: 0, width: 400, scale: 1}
		var drawn []int
		n := rapid.IntRange(1, 120).Draw(t, "pieces")
		cols := rapid.IntRange(1, 3).Draw(t, "columns")
		var pieces []piece
		for i := range n {
			pieces = append(pieces, piece{height: rapid.Float64Range(4, 40).Draw(t, "height"), keep: rapid.IntRange(0, 4).Draw(t, "keep") == 0,
				draw: func(x, y float64) { drawn = append(drawn, i) }})
		}
		f.add(row{height: 20, keep: true})
		f.columns(cols, pieces)
		height := rapid.Float64Range(260, 700).Draw(t, "page")
		for _, page := range pack(f.rows, height) {
			y := 0.0
			for _, r := range page {
				if r.draw != nil {
					r.draw(y)
				}
				y += r.height
			}
			if len(page) > 1 && y > height+1 {
				t.Fatalf("a page of %.0f holds %.0f", height, y)
			}
		}
		if len(drawn) != n {
			t.Fatalf("%d of %d pieces drawn", len(drawn), n)
		}
		for i, k := range drawn {
			if i != k {
				t.Fatalf("piece %d stands at %d", k, i)
			}
		}
	})
}

// A note of many lines goes on over columns and pages; nothing stands below a page.
func TestLongNoteGoesOn(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	job.Notes = strings.Repeat("a word ", 1400) + "the end"
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	found := false
	for _, page := range readPages(t, written(t, job, s, testOptions(Working, Letter, units.IP))) {
		for _, w := range page {
			assert.Greater(t, w.y, 20.0, w.text)
			found = found || strings.Contains(w.text, "the end")
		}
	}
	assert.True(t, found)
}

// TestChartsForPaper: no word of a chart on a page is under 7 points, no
// line over 2.1, and nothing has a color; with ranges there are whiskers.
func TestChartsForPaper(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		opts := testOptions(Working, A4, systemOf(name))
		var err error
		opts.Ranges, err = sizing.Sampling{Samples: 40, Seed: 2}.Ranges(context.Background(), job)
		require.NoError(t, err)
		strokes := map[bool]int{}
		for _, ranged := range []bool{false, true} {
			with := opts
			if !ranged {
				with.Ranges = nil
			}
			d, err := newDocument(job, s, with)
			require.NoError(t, err)
			f := d.newFlow(1)
			d.curves(f)
			d.barCharts(f)
			d.sheet.pdf.AddPage()
			for _, r := range f.rows {
				if r.draw != nil {
					r.draw(100)
				}
			}
			grey := func(c shade) bool { return c.r == c.g && c.g == c.b }
			for _, x := range d.sheet.pdf.pages[0] {
				switch {
				case x.text != "":
					assert.GreaterOrEqual(t, x.size, 7.0, "%s: %s", name, x.text)
					assert.True(t, grey(x.ink.text), x.text)
				case x.stroke:
					assert.LessOrEqual(t, x.width, 2.1, name)
					assert.True(t, grey(x.line))
					strokes[ranged]++
				case x.fill:
					assert.True(t, grey(x.area))
				}
			}
		}
		assert.Greater(t, strokes[true], strokes[false], "%s: whiskers", name)
	}
}
