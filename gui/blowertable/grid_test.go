package blowertable

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/fields"
	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

type blowerBench struct {
	points []blower.Point
	sys    units.Locale
	sets   int
}

func (b *blowerBench) grid() *Grid {
	return New(Options{
		Get:  func() []blower.Point { return b.points },
		Set:  func(p []blower.Point) { b.points = p; b.sets++ },
		Unit: func() units.Locale { return b.sys },
	})
}

func twoPoints() []blower.Point {
	return []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1400 * units.CFM, Power: 480 * units.Watt},
		{ExternalStatic: 0.5 * units.InchWater, Airflow: 1150 * units.CFM, Power: 430 * units.Watt},
	}
}

func TestPointGridShowsAndTakes(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	w := guitest.Window(t, g.Object())
	assert.Equal(t, 2, g.Rows())
	assert.Equal(t, "0.5", g.Cell(1, paste.Static).Text)
	assert.Equal(t, "1150", g.Cell(1, paste.Airflow).Text)
	assert.Empty(t, g.Cell(1, paste.Speed).Text)
	assert.Contains(t, guitest.Words(g.Object()), "in. w.c.", "the unit is in the heading")

	w.Canvas().Focus(g.Cell(1, paste.Airflow))
	test.Type(g.Cell(1, paste.Airflow), "1100")
	assert.InDelta(t, 1100, b.points[1].Airflow.In(units.CFM), 1e-9)
	g.Cell(1, paste.Airflow).TypedRune(' ')
	g.Cell(1, paste.Airflow).TypedRune('x')
	sets := b.sets
	assert.Contains(t, g.FaultText(), "Row 2, airflow")
	assert.True(t, g.mark.Visible())
	assert.InDelta(t, 1100, b.points[1].Airflow.In(units.CFM), 1e-9, "nothing is handed on while a cell is at fault")
	g.Refresh()
	assert.Equal(t, "1100 x", g.Cell(1, paste.Airflow).Text)
	assert.Equal(t, sets, b.sets)
}

func TestPointGridUnitsWearNothingAway(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	guitest.Window(t, g.Object())
	for range 5 {
		b.sys = units.SI
		g.Refresh()
		assert.Equal(t, "661", g.Cell(0, paste.Airflow).Text, "rounded to sense")
		b.sys = units.IP
		g.Refresh()
		assert.Equal(t, "1400", g.Cell(0, paste.Airflow).Text)
	}
	assert.Equal(t, twoPoints(), b.points)
	assert.Zero(t, b.sets)

	b.sys = units.SI
	g.Refresh()
	g.Cell(1, paste.Airflow).SetText("540")
	want := twoPoints()
	want[1].Airflow = 540 * units.LitrePerSecond
	assert.Equal(t, want, b.points, "an edit leaves the rounded cells beside it as they were")
	g.Cell(0, paste.Airflow).SetText("66")
	g.Cell(0, paste.Airflow).SetText("661")
	assert.InDelta(t, 661, b.points[0].Airflow.In(units.LitrePerSecond), 1e-9, "what is typed counts as typed")
	b.points, b.sys = twoPoints(), units.IP
	g.Refresh()

	g.Cell(0, paste.Airflow).SetText("much")
	b.sys = units.SI
	g.Refresh()
	assert.Equal(t, "much", g.Cell(0, paste.Airflow).Text, "a cell that cannot be read stays")
	assert.NotEqual(t, "0.1", g.Cell(0, paste.Static).Text)
}

func TestPointGridPaste(t *testing.T) {
	want := []blower.Point{
		{ExternalStatic: 0.1 * units.InchWater, Airflow: 1400 * units.CFM, Power: 480 * units.Watt, Speed: 900 * units.RPM},
		{ExternalStatic: 0.3 * units.InchWater, Airflow: 1290 * units.CFM, Power: 455 * units.Watt, Speed: 940 * units.RPM},
		{ExternalStatic: 0.5 * units.InchWater, Airflow: 1150 * units.CFM, Power: 430 * units.Watt, Speed: 985 * units.RPM},
	}
	for name, text := range map[string]string{
		"tabs":            "0.1\t1400\t480\t900\n0.3\t1290\t455\t940\n0.5\t1150\t430\t985\n",
		"commas":          "0.1,1400,480,900\r\n0.3,1290,455,940\r\n0.5,1150,430,985",
		"semicolons":      "0,1;1400;480;900\n0,3;1290;455;940\n0,5;1150;430;985",
		"with a heading":  "ESP\tCFM\tWatts\tRPM\n0.1\t1400\t480\t900\n0.3\t1290\t455\t940\n0.5\t1150\t430\t985",
		"with units":      "0.1 in wc\t1400 cfm\t480 W\t900 rpm\n0.3\t1290\t455\t940\n0.5\t1150\t430\t985",
		"one row too far": "0.1\t1400\t480\t900\t7\n0.3\t1290\t455\t940\t7\n0.5\t1150\t430\t985\t7",
	} {
		t.Run(name, func(t *testing.T) {
			b := &blowerBench{}
			g := b.grid()
			w := guitest.Window(t, g.Object())
			w.Canvas().Focus(g.Cell(0, 0))
			clip := test.NewClipboard()
			clip.SetContent(text)
			g.Cell(0, 0).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
			require.Len(t, b.points, 3)
			for i := range want {
				assert.InDelta(t, float64(want[i].ExternalStatic), float64(b.points[i].ExternalStatic), 1e-9)
				assert.InDelta(t, float64(want[i].Airflow), float64(b.points[i].Airflow), 1e-12)
				assert.InDelta(t, float64(want[i].Power), float64(b.points[i].Power), 1e-9)
				assert.InDelta(t, float64(want[i].Speed), float64(b.points[i].Speed), 1e-12)
			}
			assert.Equal(t, 1, b.sets, "a paste is one change")
			if strings.Contains(name, "too far") {
				assert.Contains(t, g.FaultText(), "1 column has no place here and was left out: column 5")
			}
		})
	}
}

func TestPointGridPasteDown(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	guitest.Window(t, g.Object())
	clip := test.NewClipboard()
	clip.SetContent("1300\n1000")
	g.Cell(0, paste.Airflow).TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	assert.InDelta(t, 1300, b.points[0].Airflow.In(units.CFM), 1e-9)
	assert.InDelta(t, 1000, b.points[1].Airflow.In(units.CFM), 1e-9)
	assert.Nil(t, paste.Read("1200"), "one cell is the entry's own paste")
	assert.Nil(t, paste.Read("1,200"), "and so is one number with a comma")
}

func TestPointGridRows(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	w := guitest.Window(t, g.Object())
	g.AddRow()
	assert.Equal(t, 3, g.Rows())
	assert.Equal(t, fyne.Focusable(g.Cell(2, 0)), w.Canvas().Focused())
	assert.Len(t, b.points, 2, "an empty row is no point")
	test.Type(g.Cell(2, paste.Static), "0.8")
	assert.Contains(t, g.FaultText(), "Row 3, airflow: missing")
	test.Type(g.Cell(2, paste.Airflow), "700")
	assert.Len(t, b.points, 3)
	g.RemoveRow(0)
	assert.Len(t, b.points, 2)
	assert.InDelta(t, 0.5, b.points[0].ExternalStatic.In(units.InchWater), 1e-9)
	g.RemoveRow(0)
	g.RemoveRow(0)
	assert.Empty(t, b.points)
	assert.Equal(t, 1, g.Rows(), "one row is always there to type into")
}

func TestPointGridMoves(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	w := guitest.Window(t, g.Object())
	test.FocusNext(w.Canvas())
	for _, want := range []*fields.Entry{g.Cell(0, 0), g.Cell(0, 1), g.Cell(0, 2), g.Cell(0, 3), g.Cell(1, 0)} {
		require.Equal(t, fyne.Focusable(want), w.Canvas().Focused(), "tab goes along the row")
		test.FocusNext(w.Canvas())
	}
	w.Canvas().Focus(g.Cell(0, 1))
	g.Cell(0, 1).TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Equal(t, fyne.Focusable(g.Cell(1, 1)), w.Canvas().Focused())
	g.Cell(1, 1).TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.Equal(t, fyne.Focusable(g.Cell(0, 1)), w.Canvas().Focused())
	w.Canvas().Focus(g.Cell(1, 1))
	g.Cell(1, 1).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, 3, g.Rows(), "enter on the last row adds one")
	assert.Equal(t, fyne.Focusable(g.Cell(2, 1)), w.Canvas().Focused())
}

// Rows are typed as into a spreadsheet: tabs along the row, enter to the next.
func TestPointGridEnterGoesToWhereTabsBegan(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	w := guitest.Window(t, g.Object())
	w.Canvas().Focus(g.Cell(1, paste.Static))
	for range 2 {
		test.FocusNext(w.Canvas())
	}
	assert.Equal(t, fyne.Focusable(g.Cell(1, paste.Power)), w.Canvas().Focused())
	g.Cell(1, paste.Power).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, fyne.Focusable(g.Cell(2, paste.Static)), w.Canvas().Focused())
	w.Canvas().Focus(g.Cell(0, paste.Airflow))
	g.Cell(0, paste.Airflow).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, fyne.Focusable(g.Cell(1, paste.Airflow)), w.Canvas().Focused(), "down a column")
}

func TestPointGridEngineFaults(t *testing.T) {
	b := &blowerBench{points: twoPoints()}
	g := b.grid()
	guitest.Window(t, g.Object())
	g.SetFaults([]CellFault{{Row: 1, Column: paste.Airflow, Text: "the airflow rises with the static"}})
	assert.Contains(t, g.FaultText(), "Row 2, airflow: the airflow rises")
	assert.True(t, g.Cell(1, paste.Airflow).Faulty())
	g.SetFaults(nil)
	assert.Empty(t, g.FaultText())
	assert.False(t, g.Cell(1, paste.Airflow).Faulty())
}

func FuzzPastedCells(f *testing.F) {
	for _, s := range []string{"1\t2\n3\t4", "a;b", "1,2", "\"", "\n\n", "1,200\n3,400", "\t", "esp high low\n0.1 1400 900\n0.3 1300 -", "0.1 1 2 3 4 5\n0.2 0 1 2 3 4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := paste.Read(text)
		if p == nil {
			return
		}
		for _, row := range p.Rows {
			if len(row) == 0 {
				t.Fatalf("%q gives a row of no cells", text)
			}
		}
		if is, _ := p.IsTapTable(units.IP); is {
			taps, fault := p.Taps(units.IP)
			for _, tap := range taps {
				if fault != "" || tap.Name == "" || len(tap.Points) == 0 {
					t.Fatalf("%q gives the tap %+v, %q", text, tap, fault)
				}
			}
		}
	})
}

func TestNoTextOfTheGridIsCutOff(t *testing.T) {
	guitest.NoTextIsCutOff(t, map[string]func() fyne.CanvasObject{
		"grid": func() fyne.CanvasObject {
			g := (&blowerBench{points: twoPoints()}).grid()
			g.Cell(0, paste.Power).SetText("lots")
			return g.Object()
		},
	})
}

// A value in use fits its cell whole, so that no digit is out of sight.
func TestShownNumbersFitTheirCell(t *testing.T) {
	for _, scale := range []float32{1, 1.5} {
		guitest.UseTheme(t, look.Light, scale)
		for _, sys := range []units.Locale{units.IP, units.SI} {

			g := (&blowerBench{points: []blower.Point{{ExternalStatic: 0.537 * units.InchWater, Airflow: 1199.37 * units.CFM}}, sys: sys}).grid()
			guitest.Window(t, g.Object())
			cell := g.Cell(0, paste.Airflow)
			text := fyne.MeasureText(cell.Text, cell.Theme().Size("text"), fyne.TextStyle{})
			assert.Less(t, text.Width, cell.Size().Width-2*cell.Theme().Size("innerPadding"), cell.Text)
		}
	}
}
