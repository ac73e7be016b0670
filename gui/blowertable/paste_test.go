package blowertable

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/guitest"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// pastedInto pastes a text into the first cell of a table.
func pastedInto(t *testing.T, b *blowerBench, text string) (*Grid, []blower.Tap) {
	t.Helper()
	var taps []blower.Tap
	g := b.grid()
	g.opts.SetTaps = func(pasted []blower.Tap, _ []string) { taps = pasted }
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

// Blower sheets have the statics across the top, and any number of them.
func TestATableWithTheStaticsAcross(t *testing.T) {
	for name, text := range map[string]string{
		"tabs":             "Tap\t0.1\t0.3\t0.5\t0.7\t0.9\nHigh\t1,440\t1,345\t1,230\t1,090\t900\nLow\t1000\t950\t890\t-\t-",
		"heading over it":  "External static, in. w.c.\nTap\t0.1\t0.3\t0.5\t0.7\t0.9\nHigh\t1440\t1345\t1230\t1090\t900\nLow\t1000\t950\t890\t\t",
		"quantities":       "\t\t0.1\t0.3\t0.5\t0.7\t0.9\nHigh\tCFM\t1440\t1345\t1230\t1090\t900\n\tWatts\t625\t591\t554\t510\t460\n\tAmps\t5.2\t5\t4.8\t4.5\t4.1\nLow\tCFM\t1000\t950\t890\t\t\n\tWatts\t420\t400\t380\t\t",
		"blanks":           "Tap 0.1 0.3 0.5 0.7 0.9\nHigh 1,440 1,345 1,230 1,090 900\nLow 1000 950 890 - -",
		"pascals":          "Tap (Pa)\t24.90889\t74.72667\t124.54445\t174.36223\t224.18001\nHigh\t1440 cfm\t1345 cfm\t1230 cfm\t1090 cfm\t900 cfm\nLow\t1000 cfm\t950 cfm\t890 cfm\t\t",
		"words in a label": "Speed tap 0.1 0.3 0.5 0.7 0.9\nHigh 1440 1345 1230 1090 900\nLow 1000 950 890 - -",
	} {
		t.Run(name, func(t *testing.T) {
			b := &blowerBench{points: twoPoints()}
			var taps []blower.Tap
			var left []string
			g := b.grid()
			g.opts.SetTaps = func(pasted []blower.Tap, l []string) { taps, left = pasted, l }
			guitest.Window(t, g.Object())
			pasteText(g, text)
			require.Len(t, taps, 2)
			assert.Equal(t, []string{"High", "Low"}, []string{taps[0].Name, taps[1].Name})
			require.Len(t, taps[0].Points, 5)
			require.Len(t, taps[1].Points, 3, "a tap ends where its numbers do")
			assert.InDelta(t, 1345, taps[0].Points[1].Airflow.In(units.CFM), 1e-6)
			assert.InDelta(t, 0.9, taps[0].Points[4].ExternalStatic.In(units.InchWater), 1e-6)
			if name == "quantities" {
				assert.Equal(t, 591*units.Watt, taps[0].Points[1].Power)
				assert.Equal(t, 380*units.Watt, taps[1].Points[2].Power)
				require.Len(t, left, 1)
				assert.Contains(t, left[0], "Amps", "what was not read is told")
			} else {
				assert.Empty(t, left)
			}
			assert.Zero(t, b.sets)
		})
	}
}

func pasteText(g *Grid, text string) {
	clip := test.NewClipboard()
	clip.SetContent(text)
	g.Cell(0, 0).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
}

// Two rows, statics over airflows, are the table of the tap in view.
func TestTwoRowsAreOneTap(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	guitest.Window(t, g.Object())
	pasteText(g, "ESP\t0.1\t0.3\t0.5\nCFM\t1440\t1345\t1230")
	require.Len(t, b.points, 3)
	assert.InDelta(t, 1345, b.points[1].Airflow.In(units.CFM), 1e-6)
	assert.Contains(t, g.FaultText(), "Pasted 3 rows")
}

// The decimal mark is the person's choice and stays in sight.
func TestTheDecimalMarkOfAPaste(t *testing.T) {
	for _, c := range []struct {
		mark paste.Mark
		text string
	}{
		{paste.AsItLooks, "0,1;1440;625\n0,3;1345;591\n0,5;1230;554"},
		{paste.Comma, "0,1\t1.440\t625,0\n0,3\t1.345\t591\n0,5\t1.230\t554"},
		{paste.Comma, "0,1 1.440 625\n0,3 1.345 591\n0,5 1.230 554"},
		{paste.Point, "0.1;1,440;625\n0.3;1,345;591\n0.5;1,230;554"},
		{paste.Point, "0.1\t1,440.0\t625\n0.3\t1,345.0\t591\n0.5\t1,230\t554"},
	} {
		b := &blowerBench{points: twoPoints()}
		g := b.grid()
		guitest.Window(t, g.Object())
		g.decimal.SetSelectedIndex(int(c.mark))
		pasteText(g, c.text)
		require.Len(t, b.points, 3, c.text)
		assert.InDelta(t, 0.3, b.points[1].ExternalStatic.In(units.InchWater), 1e-9, c.text)
		assert.InDelta(t, 1345, b.points[1].Airflow.In(units.CFM), 1e-6, c.text)
		assert.Equal(t, 591*units.Watt, b.points[1].Power, c.text)
	}
}

// A column that has no place is named, and so is a cell that cannot be read.
func TestWhatWasNotReadIsReported(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	guitest.Window(t, g.Object())
	pasteText(g, "ESP\tCFM\tAmps\tWatts\n0.1\t1440\t5.2\t625\n0.3\tmuch\t5.0\t591\n0.5\t1230\t4.8\t554")
	assert.Contains(t, g.FaultText(), "left out: Amps")
	assert.Contains(t, g.FaultText(), "Row 2, airflow")
}
