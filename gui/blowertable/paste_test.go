package blowertable

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// pastedInto pastes a text into the first cell of a table.
func pastedInto(t *testing.T, b *blowerBench, text string) (*Grid, []blower.Tap) {
	t.Helper()
	var taps []blower.Tap
	g := b.grid()
	g.opts.SetTaps = func(pasted []blower.Tap) { taps = pasted }
	guitest.Window(t, g.Object())
	clip := test.NewClipboard()
	clip.SetContent(text)
	g.Cell(0, 0).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	return g, taps
}

// A table with a column of airflow for each tap is never read as the power and
// the speed of one.
func TestATableWithAColumnForEachTap(t *testing.T) {
	three := "0.1\t1440\t1200\t1000\n0.3\t1345\t1150\t950\n0.5\t1230\t1080\t-\n"
	for name, text := range map[string]string{
		"heading":               "ESP\tHigh\tMedium\tLow\n" + three,
		"airflow in heading":    "Static (in. w.c.)\tHigh CFM\tMedium CFM\tLow CFM\n" + three,
		"no heading":            three,
		"blanks":                "ESP  High  Medium  Low\n0.1  1,440  1,200  1,000\n0.3  1,345  1,150  950\n0.5  1,230  1,080  -",
		"no heading, four taps": "0.1\t1440\t1200\t1000\t800\n0.3\t1345\t1150\t950\t700\n0.5\t1230\t1080\t\t600",
	} {
		t.Run(name, func(t *testing.T) {
			b := &blowerBench{points: twoPoints()}
			_, taps := pastedInto(t, b, text)
			require.GreaterOrEqual(t, len(taps), 3)
			assert.Zero(t, b.sets, "the table in view is left to whoever takes the taps")
			require.Len(t, taps[0].Points, 3)
			require.Len(t, taps[2].Points, 2, "a tap ends where its numbers do")
			assert.InDelta(t, 1440, taps[0].Points[0].Airflow.In(units.CFM), 1e-9)
			assert.InDelta(t, 0.3, taps[1].Points[1].ExternalStatic.In(units.InchWater), 1e-9)
			assert.InDelta(t, 950, taps[2].Points[1].Airflow.In(units.CFM), 1e-9)
			if name != "no heading" && name != "no heading, four taps" {
				assert.Equal(t, []string{"High", "Medium", "Low"}, []string{taps[0].Name, taps[1].Name, taps[2].Name})
			} else {
				assert.Equal(t, "tap 1", taps[0].Name)
			}
		})
	}
}

// The table of one tap stays one, whatever falls in it.
func TestATableOfOneTap(t *testing.T) {
	for name, text := range map[string]string{
		"power falls too":       "0.1\t1440\t625\n0.3\t1345\t591\n0.5\t1230\t554",
		"power and speed":       "0.1 1440 625 1005\n0.3 1345 591 1025\n0.5 1230 554 1045",
		"named":                 "ESP\tCFM\tWatts\tRPM\n0.1\t1440\t625\t1005\n0.3\t1345\t591\t1025\n0.5\t1230\t554\t1045",
		"another order":         "CFM\tESP\tRPM\tW\n1440\t0.1\t1005\t625\n1345\t0.3\t1025\t591\n1230\t0.5\t1045\t554",
		"a column of its own":   "ESP\tCFM\tAmps\tWatts\n0.1\t1440\t5.2\t625\n0.3\t1345\t5.0\t591\n0.5\t1230\t4.8\t554",
		"units in the heading":  "ESP (Pa)\tAirflow (L/s)\tPower (W)\n24.90889\t679.604\t625\n74.72667\t634.769\t591\n124.54445\t580.495\t554",
		"over a longer table":   "0.1\t1440\t625\n0.3\t1345\t591\n0.5\t1230\t554",
		"brackets of one's own": "ESP [in. w.c.]\tCFM [cfm]\n0.1\t1440\n0.3\t1345\n0.5\t1230",
	} {
		t.Run(name, func(t *testing.T) {
			b := &blowerBench{points: append(twoPoints(), twoPoints()...)}
			g, taps := pastedInto(t, b, text)
			require.Nil(t, taps)
			require.Len(t, b.points, 3, "the whole table takes the place of the old")
			assert.Equal(t, 3, g.Rows())
			assert.InDelta(t, 0.3, b.points[1].ExternalStatic.In(units.InchWater), 1e-6)
			assert.InDelta(t, 1345, b.points[1].Airflow.In(units.CFM), 0.01)
			if len(b.points[1].Power.String()) > 0 && name != "brackets of one's own" {
				assert.InDelta(t, 591, float64(b.points[1].Power), 1e-6)
			}
		})
	}
}

// Where neither reading is sure nothing is pasted, and a person is told why.
func TestADoubtfulTableIsNotPasted(t *testing.T) {
	for name, text := range map[string]string{
		"two taps with watts": "ESP\tHigh CFM\tHigh W\tLow CFM\tLow W\n0.1\t1440\t625\t1000\t420\n0.3\t1345\t591\t950\t400",
		"a word in a tap":     "ESP\tHigh\tLow\n0.1\t1440\tmuch\n0.3\t1345\t950\n0.5\t1230\t900",
	} {
		t.Run(name, func(t *testing.T) {
			b := &blowerBench{points: twoPoints()}
			g, taps := pastedInto(t, b, text)
			assert.Nil(t, taps)
			assert.Zero(t, b.sets)
			assert.Equal(t, twoPoints(), b.points)
			assert.Contains(t, g.FaultText(), "Nothing was pasted.")
		})
	}
}

// Into the middle a paste fills from there, and takes nothing away.
func TestAPasteIntoTheMiddle(t *testing.T) {
	b := &blowerBench{points: append(twoPoints(), blower.Point{ExternalStatic: 0.8 * units.InchWater, Airflow: 700 * units.CFM})}
	g := b.grid()
	guitest.Window(t, g.Object())
	clip := test.NewClipboard()
	clip.SetContent("0.6\t1000\n0.7\t900")
	g.Cell(1, 0).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	require.Len(t, b.points, 3)
	assert.Equal(t, twoPoints()[0], b.points[0])
	assert.InDelta(t, 900, b.points[2].Airflow.In(units.CFM), 1e-9)
}
