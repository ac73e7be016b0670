package blowertable

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/guitest"
	"returnbench/sizing/units"
)

var comma = units.Locale{Comma: true}

// Where the decimal mark is a comma, cells hold one, and so does a paste until the
// person chooses another mark.
func TestPointGridWithADecimalComma(t *testing.T) {
	b := &blowerBench{points: twoPoints(), sys: comma}
	g := b.grid()
	w := guitest.Window(t, g.Object())
	assert.Equal(t, "0,5", g.Cell(1, paste.Static).Text)
	w.Canvas().Focus(g.Cell(1, paste.Static))
	test.Type(g.Cell(1, paste.Static), "0,55")
	assert.InDelta(t, 0.55, b.points[1].ExternalStatic.In(units.InchWater), 1e-9)

	assert.Equal(t, int(paste.Comma), g.decimal.SelectedIndex(), "the usual one of the locale")
	pasteText(g, "0,1\t1.440\t625,0\n0,3\t1.345\t591\n1,125\t1.230\t554")
	require.Len(t, b.points, 3)
	assert.InDelta(t, 1.125, b.points[2].ExternalStatic.In(units.InchWater), 1e-9)
	assert.InDelta(t, 1345, b.points[1].Airflow.In(units.CFM), 1e-6)
	assert.Equal(t, "1,125", g.Cell(2, paste.Static).Text)

	pasteText(g, "0.1\t1440\t625\n0.3\t1345\t591\n0.5\t1230\t554")
	assert.InDelta(t, 0.3, b.points[1].ExternalStatic.In(units.InchWater), 1e-9, "a point that is no thousands mark")

	g.decimal.SetSelectedIndex(int(paste.Point))
	pasteText(g, "0.1\t1,440.5\t625\n0.3\t1,345\t591\n1.125\t1,230\t554")
	assert.Equal(t, "1440,5", g.Cell(0, paste.Airflow).Text)
	assert.InDelta(t, 1.125, b.points[2].ExternalStatic.In(units.InchWater), 1e-9)
}

func TestThePointStaysTheUsualMark(t *testing.T) {
	g := (&blowerBench{points: twoPoints()}).grid()
	assert.Equal(t, int(paste.AsItLooks), g.decimal.SelectedIndex())
}

// A table that could not be read comes back as it was, whatever the decimal mark is
// by then.
func TestUnreadTableComesBackInAnyLocale(t *testing.T) {
	points := twoPoints()
	points[0].ExternalStatic = 1.125 * units.InchWater
	for _, typed := range []units.Locale{{}, comma} {
		for _, shown := range []units.Locale{{}, comma} {
			b := &blowerBench{points: points, sys: typed}
			g := b.grid()
			guitest.Window(t, g.Object())
			unread := ""
			g.OnUnread(func(text, _ string, _ bool) { unread = text })
			g.Cell(1, paste.Airflow).SetText("much")
			require.NotEmpty(t, unread)

			again := (&blowerBench{points: points, sys: shown}).grid()
			again.Retype(unread, "no number")
			assert.Equal(t, shown.Mark("1.125"), again.Cell(0, paste.Static).Text)
			assert.Equal(t, "much", again.Cell(1, paste.Airflow).Text)
			assert.Contains(t, again.FaultText(), "Row 2, airflow")
			assert.NotContains(t, again.FaultText(), "Row 1")
		}
	}
}
