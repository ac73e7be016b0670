package airpath

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// airStudy is an invented house: n returns, the filter in the middle or behind
// the grilles. The numbers are chosen to be wide on the page, not to add up.
func airStudy(n int, atGrilles bool) *sizing.Study {
	in := func(v float64) units.Pressure { return units.Pressure(v) * units.InchWater }
	c := sizing.Condition{
		Airflow: 1180 * units.CFM, ExternalStatic: in(0.826), BlowerPower: 535, WithinBlowerTable: true,
		Parts: []sizing.PartDrop{
			{Name: "return", Drop: in(0.124), Share: 0.248, Basis: "geometry", Budget: in(0.1), Over: true},
			{Name: "filter", Drop: in(0.212), Share: 0.424, Basis: "assumed", Budget: in(0.1), Over: true},
			{Name: "coil", Drop: in(0.194), Share: 0.388, Basis: "gauge", Budget: in(0.2)},
			{Name: "supply", Drop: in(0.097), Share: 0.194, Basis: "assumed", Budget: in(0.1)},
		},
		Ports: []sizing.Port{
			{Name: "return plenum, before the filter", Static: in(-0.124)},
			{Name: "blower inlet, after the filter", Static: in(-0.336)},
			{Name: "blower outlet, before the coil", Static: in(0.290)},
			{Name: "supply plenum, after the coil", Static: in(0.097)},
		},
	}
	for i := range n {
		b := sizing.BranchFlow{Name: sizing.ReturnName{Given: fmt.Sprintf("Room %d over the garage", i+1)}, Airflow: 1000 * units.CFM, Drop: in(0.1234),
			GrilleDrop: in(0.0234), DuctDrop: in(0.1)}
		if atGrilles {
			b.FilterDrop = in(0.0876)
		}
		c.Branches = append(c.Branches, b)
	}
	loaded := c
	loaded.Airflow = 990 * units.CFM
	loaded.WithinBlowerTable = false
	bare := c
	bare.Parts = []sizing.PartDrop{c.Parts[0], c.Parts[2], c.Parts[3]}
	return &sizing.Study{
		RatedExternalStatic: in(0.5), BlowerAssumed: true,
		Options: []sizing.OptionResult{
			{Name: "No filter", Kind: sizing.KindNoFilter, Clean: bare},
			{Name: "Today", Kind: sizing.KindToday, Clean: c, Loaded: loaded},
		},
	}
}

func airpathOn(t *testing.T, s *sizing.Study, loaded bool, w, h float32) (*Drawing, fyne.Window) {
	t.Helper()
	a := New()
	a.Set(s, s.Today(), loaded, units.IP)
	win := test.NewTempWindow(t, container.NewStack(a))
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return a, win
}

func TestAirpathParts(t *testing.T) {
	a, _ := airpathOn(t, airStudy(2, false), false, 620, 300)
	assert.Equal(t, []string{"return[0]", "return[1]", "return", "filter", "blower", "coil", "supply"}, a.Parts())
	text := guitest.Words(a)
	for _, want := range []string{
		"1180 cfm, external static 0.826 in. w.c. of rated 0.500 in. w.c.", "Today, filter clean",
		"-0.124 in. w.c.", "-0.336 in. w.c.", "0.290 in. w.c.", "grille 0.0234 in. w.c.",
		"filter, assumed", "0.212 in. w.c.", "42 % of rated", "coil, measured", "39 % of rated", "blower, assumed", "535 W",
	} {
		if want == "grille 0.0234 in. w.c." {
			want = "grille " + (units.Pressure(0.0234) * units.InchWater).Show(units.IP)
		}
		assert.Contains(t, text, want)
	}
}

// A part that costs too much stands out by mark, word and a wider edge.
func TestAirpathCostlyPart(t *testing.T) {
	a, _ := airpathOn(t, airStudy(2, false), false, 620, 300)
	assert.Equal(t, []sizing.Severity{sizing.Caution, sizing.Caution}, guitest.Severities(a), "the engine says which are over")
	assert.Equal(t, 2, strings.Count(guitest.Words(a), "CAUTION"))
	assert.Contains(t, guitest.Words(a), "over 0.100 in. w.c.", "with its unit, for each")
	wide := 0
	for _, o := range test.WidgetRenderer(a).Objects() {
		if r, ok := o.(*canvas.Rectangle); ok && r.StrokeWidth == 3 {
			wide++
		}
	}
	assert.Positive(t, wide)

	s := airStudy(2, false)
	for i := range s.Options[1].Clean.Parts {
		s.Options[1].Clean.Parts[i].Over = false
	}
	b, _ := airpathOn(t, s, false, 620, 300)
	assert.Empty(t, guitest.Severities(b))
	assert.NotContains(t, guitest.Words(b), "CAUTION")
}

func TestAirpathHitAreas(t *testing.T) {
	for _, size := range []fyne.Size{fyne.NewSize(620, 300), fyne.NewSize(900, 400)} {
		a, w := airpathOn(t, airStudy(3, true), false, size.Width, size.Height)
		var got []string
		a.OnTapped = func(p string) { got = append(got, p) }
		for _, part := range a.Parts() {
			at, s := a.PartArea(part)
			require.Greater(t, s.Width*s.Height, float32(400), "%s is large enough to hit", part)
			test.TapCanvas(w.Canvas(), at.AddXY(s.Width/2, s.Height/2))
		}
		assert.Equal(t, a.Parts(), got)
		got = nil
		test.TapCanvas(w.Canvas(), fyne.NewPos(5, 5))
		assert.Empty(t, got, "the title is no part")
	}
}

func TestAirpathKeyboard(t *testing.T) {
	a, w := airpathOn(t, airStudy(2, false), false, 620, 300)
	var got []string
	a.OnTapped = func(p string) { got = append(got, p) }
	for _, part := range a.Parts() {
		test.FocusNext(w.Canvas())
		require.Equal(t, a.Part(part), w.Canvas().Focused(), "tab follows the air")
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	assert.Equal(t, a.Parts(), got)

	w.Canvas().Focus(a.Part(PartFilter))
	s := airStudy(2, false)
	a.Set(s, s.Today(), true, units.SI)
	assert.Equal(t, a.Part(PartFilter), w.Canvas().Focused(), "new numbers leave the keyboard where it was")
	a.Set(s, s.NoFilter(), false, units.SI)
	assert.Nil(t, w.Canvas().Focused(), "a part that is gone gives it up")
	assert.NotContains(t, a.Parts(), PartFilter)
	assert.Contains(t, guitest.Words(a), "no filter")
}

func TestAirpathStates(t *testing.T) {
	s := airStudy(1, false)
	a, _ := airpathOn(t, s, true, 620, 300)
	assert.Contains(t, guitest.Words(a), "filter at its change limit")
	assert.Contains(t, guitest.Words(a), "990 cfm")
	assert.Contains(t, guitest.Words(a), "STOP, off table")
	assert.Contains(t, guitest.Severities(a), sizing.Stop)
	a.Set(s, s.Today(), true, units.SI)
	assert.Contains(t, guitest.Words(a), "Pa")
	assert.NotContains(t, guitest.Words(a), "in. w.c.")
	a.Set(nil, nil, false, units.IP)
	assert.Empty(t, a.Parts())
	assert.Contains(t, guitest.Words(a), "Nothing to draw yet.")
}

// Any number of returns stand side by side, each with its own row to click and
// its own words; the drawing grows for them.
func TestAirpathManyReturns(t *testing.T) {
	for _, n := range []int{0, 1, 2, 6, 9, 40} {
		s := airStudy(n, n%2 == 0)
		a := New()
		a.Set(s, s.Today(), false, units.IP)
		a.Resize(fyne.NewSize(620, 300).Max(a.MinSize()))
		require.Equal(t, n+5, len(a.Parts()), "%d returns, and five parts more", n)
		bottom := float32(0)
		for i := range n {
			at, size := a.PartArea(BranchPart(i))
			require.GreaterOrEqual(t, at.Y, bottom, "no row lies on another")
			require.Greater(t, size.Height, float32(14))
			bottom = at.Y + size.Height
			require.Contains(t, guitest.Words(a), fmt.Sprintf("Room %d ov", i+1))
		}
		legend, _ := a.PartArea(PartReturn)
		require.LessOrEqual(t, bottom, legend.Y)
		checkLegible(t, a, fmt.Sprintf("%d returns", n))
	}
}

func TestAirpathArrows(t *testing.T) {
	a, w := airpathOn(t, airStudy(2, false), false, 620, 300)
	w.Canvas().Focus(a.Part(BranchPart(0)))
	key := func(k fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	for _, part := range a.Parts()[1:] {
		key(fyne.KeyRight)
		require.Equal(t, a.Part(part), w.Canvas().Focused())
	}
	key(fyne.KeyDown)
	require.Equal(t, a.Part(PartSupply), w.Canvas().Focused(), "no further than the last")
	key(fyne.KeyLeft)
	require.Equal(t, a.Part(PartCoil), w.Canvas().Focused())
}

type textBox struct {
	text string
	box
}

func airTexts(a *Drawing) []textBox {
	var out []textBox
	for _, o := range test.WidgetRenderer(a).Objects() {
		if t, ok := o.(*canvas.Text); ok {
			m := t.MinSize()
			x := t.Position().X
			if t.Alignment == fyne.TextAlignCenter {
				x += (t.Size().Width - m.Width) / 2
			}
			out = append(out, textBox{t.Text, box{x, t.Position().Y, m.Width, m.Height}})
		}
	}
	return out
}

// No words of the drawing are cut, leave it, or lie on others.
func TestAirpathLegible(t *testing.T) {
	for _, variant := range []string{look.Light, look.Dark} {
		for _, scale := range []float32{1, 1.5} {
			guitest.UseTheme(t, variant, scale)
			for _, size := range []fyne.Size{fyne.NewSize(620*scale, 300*scale), fyne.NewSize(900*scale, 400*scale)} {
				for _, n := range []int{0, 1, 2, 3, 5, 12} {
					for _, grilles := range []bool{false, true} {
						for _, sys := range []units.Locale{units.IP, units.SI} {
							s := airStudy(n, grilles)
							a := New()
							a.Set(s, s.Today(), n%2 == 1, sys)
							a.Resize(size.Max(a.MinSize()))
							checkLegible(t, a, fmt.Sprintf("%s %v %v, %d returns, grilles %v, %v", variant, scale, size, n, grilles, sys))
						}
					}
				}
			}
		}
	}
}

func checkLegible(t *testing.T, a *Drawing, where string) {
	t.Helper()
	texts := airTexts(a)
	require.NotEmpty(t, texts)
	for i, one := range texts {
		ok := one.x >= 0 && one.y >= 0 && one.right() <= a.Size().Width && one.bottom() <= a.Size().Height
		assert.True(t, ok, "%s: %q leaves the drawing", where, one.text)
		for _, other := range texts[i+1:] {
			apart := one.right() <= other.x+0.5 || other.right() <= one.x+0.5 || one.bottom() <= other.y+0.5 || other.bottom() <= one.y+0.5
			assert.True(t, apart, "%s: %q lies on %q", where, one.text, other.text)
		}
	}
	for _, o := range test.WidgetRenderer(a).Objects() {
		if text, ok := o.(*canvas.Text); ok {
			assert.LessOrEqual(t, text.MinSize().Width, text.Size().Width+0.5, "%s: %q is cut", where, text.Text)
		}
	}
}

func BenchmarkAirpathDraw(b *testing.B) {
	s := airStudy(4, true)
	a := New()
	w := test.NewTempWindow(b, a)
	w.Resize(fyne.NewSize(900, 400))
	for b.Loop() {
		a.Set(s, s.Today(), false, units.IP)
	}
}

func TestNoTextOfTheDrawingIsCutOff(t *testing.T) {
	guitest.NoTextIsCutOff(t, map[string]func() fyne.CanvasObject{
		"airpath": func() fyne.CanvasObject {
			a := New()
			s := airStudy(3, true)
			a.Set(s, s.Today(), true, units.IP)
			return a
		},
	})
}
