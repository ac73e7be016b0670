package chart

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// barsOn shows where the pressure goes in a demonstration house.
func barsOn(t testing.TB, scale float32, sys *units.Locale, drawn *int) (*Chart, test.WindowlessCanvas, *sizing.Study) {
	t.Helper()
	job, err := jobfile.Load(filepath.Join("..", "..", "assets", "jobs", "one-inch-slot.job.json"))
	require.NoError(t, err)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	c := New()
	c.SetLook(func() plots.Look { return plots.Light(*sys) })
	c.SetSource(func() (plots.Chart, bool) {
		*drawn++
		return plots.PressureByPart(study, plots.Light(*sys)), true
	})
	cv := software.NewCanvas()
	cv.SetPadded(false)
	cv.SetScale(scale)
	cv.SetContent(container.NewStack(c))
	cv.Resize(fyne.NewSize(700, 440))
	cv.Capture()
	return c, cv, study
}

// The pointer over a piece of a bar reads it, in the Study's own numbers, and
// draws nothing again.
func TestBarsByPointer(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		sys, drawn := units.IP, 0
		c, cv, study := barsOn(t, scale, &sys, &drawn)
		require.Equal(t, 1, drawn)
		for _, p := range c.at.Bars {
			move(c, float32((p.Box.MinX+p.Box.MaxX)/2/c.scale()), float32((p.Box.MinY+p.Box.MaxY)/2/c.scale()))
			require.True(t, c.shown)
			assert.Equal(t, p.Label, c.overlay.words[0].Text)
			assert.Equal(t, p.Values, []string{c.overlay.words[1].Text, c.overlay.words[2].Text})
			assert.True(t, c.overlay.piece.Visible())
			assert.False(t, c.overlay.upright.Visible(), "no cross on a bar")
			at, size := c.overlay.plate.Position(), c.overlay.plate.Size()
			assert.True(t, at.X >= 0 && at.Y >= 0 && at.X+size.Width <= c.Size().Width && at.Y+size.Height <= c.Size().Height)
		}
		cv.Capture()
		assert.Equal(t, 1, drawn, "moving the read-out draws no chart")
		today := study.Today()
		for i, p := range c.at.Bars {
			if p.Label == today.Name+", loaded" && p.Part == "filter" {
				c.readBar(i)
			}
		}
		assert.Equal(t, today.Name+", loaded: filter "+today.Loaded.FilterDrop.Show(units.IP)+", external static "+today.Loaded.ExternalStatic.Show(units.IP), c.Readout())
		move(c, float32(c.at.Area.MaxX/c.scale())-1, float32(c.at.Area.MinY/c.scale())+1)
		assert.Empty(t, c.Readout(), "nothing to read beside the bars")
		assert.False(t, c.overlay.piece.Visible())
	}
}

func TestBarsByKeyboard(t *testing.T) {
	sys, drawn := units.SI, 0
	c, cv, study := barsOn(t, 1, &sys, &drawn)
	test.FocusNext(cv)
	require.Equal(t, fyne.Focusable(c), cv.Focused())
	key := func(k fyne.KeyName) { c.TypedKey(&fyne.KeyEvent{Name: k}) }
	first := study.Options[0]
	key(fyne.KeyDown)
	assert.Contains(t, c.Readout(), first.Name+": return ", "the first key shows the first bar")
	assert.Contains(t, c.Readout(), "Pa")
	key(fyne.KeyRight)
	assert.NotContains(t, c.Readout(), ": return ")
	key(fyne.KeyHome)
	key(fyne.KeyDown)
	assert.Contains(t, c.Readout(), study.Options[1].Name+", clean: return ")
	for range 5 { // to the filter, past what else the house has
		if !strings.Contains(c.Readout(), "filter") {
			key(fyne.KeyRight)
		}
	}
	assert.Contains(t, c.Readout(), ", clean: filter "+study.Options[1].Clean.FilterDrop.Show(units.SI))
	key(fyne.KeyDown)
	assert.Contains(t, c.Readout(), ", loaded: filter "+study.Options[1].Loaded.FilterDrop.Show(units.SI))
	key(fyne.KeyEnd)
	key(fyne.KeyRight)
	assert.Contains(t, c.Readout(), ": supply ", "no further than the bar")
	key(fyne.KeyHome)
	key(fyne.KeyUp)
	key(fyne.KeyUp)
	key(fyne.KeyUp)
	assert.Contains(t, c.Readout(), study.Options[len(study.Options)-1].Name+", loaded", "round to the last")
	key(fyne.KeyEscape)
	assert.Empty(t, c.Readout())
	c.TypedRune('+')
	assert.True(t, c.View().IsWhole(), "bars are not zoomed")
	assert.Equal(t, 1, drawn)
}

// Where the bars change under the read-out, it goes and comes back sound.
func TestBarsChangeUnderTheReadout(t *testing.T) {
	sys, drawn := units.IP, 0
	c, cv, study := barsOn(t, 1, &sys, &drawn)
	test.FocusNext(cv)
	c.readBar(len(c.at.Bars) - 1)
	study.Options = study.Options[:2]
	c.Refresh()
	cv.Capture()
	assert.Empty(t, c.Readout())
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Contains(t, c.Readout(), study.Options[0].Name)
	study.Options = nil
	c.Refresh()
	cv.Capture()
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Empty(t, c.Readout())
}

func BenchmarkBarsReadout(b *testing.B) {
	sys, drawn := units.IP, 0
	c, _, _ := barsOn(b, 2, &sys, &drawn)
	for i := 0; b.Loop(); i++ {
		move(c, float32(250+i%300), 150)
	}
}
