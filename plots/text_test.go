package plots

import (
	"bytes"
	"image/color"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"returnbench/plots/labels"
	"returnbench/sizing/units"
)

func TestUseFace(t *testing.T) {
	usual, lines := plot.DefaultFont, plotter.DefaultFont
	defer func() { plot.DefaultFont, plotter.DefaultFont = usual, lines }()

	assert.ErrorContains(t, UseFace([]byte("no font"), gobold.TTF), "regular face")
	assert.ErrorContains(t, UseFace(goregular.TTF, nil), "bold face")
	assert.Equal(t, usual, plot.DefaultFont, "a bad face changes nothing")

	p := FanAndSystem(testStudy(1), Light(units.IP))
	before := render(t, p)
	require.NoError(t, UseFace(goregular.TTF, gobold.TTF))
	p = FanAndSystem(testStudy(1), Light(units.IP))
	assert.NotEqual(t, before, render(t, p))
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, FileWidth, FileHeight, "svg"))
	assert.Contains(t, b.String(), "font-family:Go;")
	assert.NotContains(t, b.String(), "Liberation")
	assert.NoError(t, Write(&b, p, FileWidth, FileHeight, "pdf"))
	for _, w := range words(t, p, px(900), px(500)) {
		assert.Positive(t, w.box.Max.X-w.box.Min.X)
	}
}

func render(t *testing.T, p Chart) []byte {
	t.Helper()
	picture, tr := NewCanvas().Render(p, Light(units.IP), 620, 380, 96)
	require.True(t, tr.Valid())
	return picture.Pix
}

func TestNamesAreBrokenAtWords(t *testing.T) {
	assert.Equal(t, "a name of\ntwo lines", labels.TwoLines("a name of two lines"))
	assert.Equal(t, "Today, loaded\n914 cfm", labels.TwoLines("Today, loaded  914 cfm"))
	assert.Equal(t, "Today", labels.TwoLines("Today"))
	assert.Equal(t, "Today", Look{}.oneLine(" Today\n"))
	assert.Equal(t, "unnamed", Look{}.oneLine(" \n"))
	assert.Regexp(t, "京…$", Look{}.oneLine(strings.Repeat("東京 ", 200)), "no blank before the mark of a cut")
}

// Lines are no wider than asked for, hold every letter in order, and break a
// word only where it is wider by itself.
func TestWrap(t *testing.T) {
	s := Light(units.IP).complete().words(color.Black, true)
	rapid.Check(t, func(r *rapid.T) {
		name := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}`), 1, 9).Draw(r, "words"), " ")
		width := vg.Length(rapid.Float64Range(30, 300).Draw(r, "width"))
		lines := wrap(s, name, width)
		if got := strings.Join(lines, ""); strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(name, " ", "") {
			r.Fatalf("%q of %q", got, name)
		}
		for _, line := range lines {
			if s.Width(line) > width+1e-9 {
				r.Fatalf("%q is wider than %v", line, width)
			}
		}
		n := rapid.IntRange(1, 4).Draw(r, "lines")
		at := narrowest(s, name, n)
		if lines := wrap(s, name, at); len(lines) > n || strings.Join(lines, " ") != name {
			r.Fatalf("%q at %v of %q in %d", lines, at, name, n)
		}
	})
}
