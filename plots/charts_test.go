package plots

import (
	"fmt"
	"go/parser"
	"go/token"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"returnbench/plots/labels"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// written is a line of text as it was drawn.
type written struct {
	text string
	size vg.Length
	box  vg.Rectangle // of the letters, without the line's own spacing
}

// words draws a chart on a recording canvas and gives every text on it.
func words(t testing.TB, chart Chart, width, height vg.Length) []written {
	t.Helper()
	var log recorder.Canvas
	c := draw.NewCanvas(&log, width, height)
	_, ok := chart.Draw(draw.Crop(c, 3, -3, 3, -3))
	require.True(t, ok, "no room for the chart")
	var out []written
	for _, a := range log.Actions {
		f, ok := a.(*recorder.FillString)
		if !ok {
			continue
		}
		face := font.DefaultCache.Lookup(f.Font, f.Size)
		out = append(out, written{f.String, f.Size, vg.Rectangle{
			Min: vg.Point{X: f.Point.X, Y: f.Point.Y - 0.15*f.Size},
			Max: vg.Point{X: f.Point.X + face.Width(f.String), Y: f.Point.Y + 0.72*f.Size},
		}})
	}
	return out
}

func texts(ws []written) string {
	var lines []string
	for _, w := range ws {
		lines = append(lines, w.text)
	}
	return strings.Join(lines, "\n")
}

func scaled(l Look, s float64) Look { l.Scale = s; return l }

func mono(l Look) Look { l.Monochrome = true; return l }

func px(n float64) vg.Length { return vg.Points(n * 72 / 96) }

// Every word lies on the paper and none on another, at every size in use.
func TestWordsHaveRoom(t *testing.T) {
	long := testStudy(4)
	for i := range long.Options {
		long.Options[i].Name += " with a name that goes on and on beyond any chart"
	}
	for _, size := range [][2]float64{{900, 500}, {620, 380}, {1800, 700}} {
		for name, look := range map[string]Look{
			"light": Light(units.IP), "dark": Dark(units.SI), "print": mono(Print(units.IP)), "large": scaled(Light(units.IP), 1.5), "large SI": scaled(Light(units.SI), 1.5),
		} {
			for study, s := range map[string]*sizing.Study{"today": testStudy(0), "two": testStudy(2), "five": testStudy(5), "long names": long} {
				for _, k := range All(s, look) {
					where := fmt.Sprintf("%s, %s, %s, %gx%g", k.Key, name, study, size[0], size[1])
					paper := vg.Rectangle{Max: vg.Point{X: px(size[0]), Y: px(size[1])}}
					ws := words(t, k, paper.Max.X, paper.Max.Y)
					for i, w := range ws {
						assert.True(t, labels.Inside(w.box, paper), "%s: %q at %v leaves the paper", where, w.text, w.box)
						for _, o := range ws[:i] {
							assert.False(t, labels.Overlap(shrunk(w.box), shrunk(o.box)), "%s: %q %v lies on %q %v", where, w.text, w.box, o.text, o.box)
						}
					}
				}
			}
		}
	}
}

// shrunk takes the hair's breadth off a box that rounding may add.
func shrunk(b vg.Rectangle) vg.Rectangle {
	return vg.Rectangle{Min: b.Min.Add(vg.Point{X: 0.3, Y: 0.3}), Max: b.Max.Sub(vg.Point{X: 0.3, Y: 0.3})}
}

// At the usual size no text is smaller than twelve points.
func TestTextCanBeReadAtTwoMetres(t *testing.T) {
	for _, k := range All(testStudy(3), Light(units.IP)) {
		for _, w := range words(t, k, px(900), px(500)) {
			assert.GreaterOrEqual(t, w.size.Points(), 12.0, "%s: %q", k.Key, w.text)
		}
	}
}

func TestChartsSayWhatTheyShow(t *testing.T) {
	s := testStudy(2)
	for key, want := range map[string][]string{
		"fan-and-system": {"Airflow, cfm", "External static, in. w.c.", "rated " + s.RatedExternalStatic.Show(units.IP), "design 1200 cfm",
			"blower, cooling tap high", "heating tap medium", "tap low", "No filter", "20x25x1 pleated",
			"Today, clean  " + s.Options[1].Clean.Airflow.Show(units.IP), "Today, loaded  " + s.Options[1].Loaded.Airflow.Show(units.IP),
			"20x25x1 pleated, clean", "20x25x1 pleated, loaded", "16x25x4 cabinet"},
		"pressure-by-part": {"return", "filter", "coil", "supply", "rated ", "No filter", "Today", "clean", "loaded",
			s.Options[1].Clean.ExternalStatic.Kind().Number(s.Options[1].Clean.ExternalStatic.SI(), units.IP),
			s.Options[2].Loaded.FilterDrop.Kind().Number(s.Options[2].Loaded.FilterDrop.SI(), units.IP)},
		"filter-drop":        {"Face velocity, fpm", "Filter drop, in. w.c.", "target 300 fpm", "Today", "20x25x1 pleated", "16x25x4 cabinet", "loaded"},
		"filter-life":        {"Time in service, months", "Airflow, cfm", "Filter drop, in. w.c.", "Blower power, W", "Today: change at 3.1 months", "16x25x4 cabinet: change at 8.4 months"},
		"efficiency-by-size": {"Particle size, µm", "Held back, %", "E1", "E2", "E3", "Today, MERV 8", "16x25x4 cabinet, MERV 11"},
		"ten-year-cost":      {"upgrade", "filters", "blower power", "$180", wholeMoney(s.Options[3].TenYearCost, units.IP)},
		"watts":              {"Blower power, W", "No filter", s.Options[1].Clean.BlowerPower.Show(units.IP), s.Options[3].Loaded.BlowerPower.Show(units.IP)},
	} {
		found := false
		for _, k := range All(s, Light(units.IP)) {
			if k.Key != key {
				continue
			}
			found = true
			all := texts(words(t, k, px(900), px(500)))
			for _, w := range want {
				assert.Contains(t, all, w, key)
			}
		}
		assert.True(t, found, key)
	}
}

func TestChartsFollowTheUnits(t *testing.T) {
	all := ""
	for _, k := range All(testStudy(2), Dark(units.SI)) {
		all += texts(words(t, k, px(900), px(500)))
	}
	for _, want := range []string{"Airflow, L/s", "External static, Pa", "Face velocity, m/s"} {
		assert.Contains(t, all, want)
	}
	for _, bad := range []string{"cfm", "in. w.c.", "fpm"} {
		assert.NotContains(t, all, bad)
	}
}

func TestRangesHoldTheOperatingPoints(t *testing.T) {
	for n := range 6 {
		s := testStudy(n)
		for _, look := range []Look{Light(units.IP), scaled(Dark(units.SI), 1.5)} {
			fan, drop := FanAndSystem(s, look).Plot, FilterDrop(s, look).Plot
			within := func(a plot.Axis, q units.Quantity) {
				v := look.in(q)
				assert.True(t, a.Min <= v && v <= a.Max, "%g outside %g to %g", v, a.Min, a.Max)
			}
			within(fan.X, s.DesignAirflow)
			within(fan.Y, s.RatedExternalStatic)
			within(drop.X, s.TargetFaceVelocity)
			for _, o := range s.Options {
				for _, c := range []sizing.Condition{o.Clean, o.Loaded} {
					within(fan.X, c.Airflow)
					within(fan.Y, c.ExternalStatic)
					within(drop.X, c.FaceVelocity)
					within(drop.Y, c.FilterDrop)
				}
			}
		}
	}
}

// The lines of the fan chart: solid clean, dashed loaded, dotted without a
// filter, and each ends past its operating point.
func TestFanAndSystemLines(t *testing.T) {
	f := fanAndSystem(Of(testStudy(3)), Light(units.IP))
	ends := 0
	for _, w := range f.notes.words {
		if w.end {
			ends++
		}
	}
	assert.Equal(t, 2*2, ends, "today and the option chosen, clean and loaded")
	// Three taps, two limits, and the system lines are what words avoid.
	const rest = 3 // no filter and two options, clean alone
	assert.Len(t, f.notes.lines, 3+2+ends+rest)
	assert.Len(t, f.notes.obstacles, ends+rest)
	o := f.notes.obstacles[1].at // today, clean
	line := f.notes.lines[6]
	assert.InDelta(t, o.X*pastPoint, line[len(line)-1].X, 1e-9)
}

// Three options stand out at most: today, which always has one color, the one
// chosen, which always has another, and the one pointed at. The others are gray
// and in the legend.
func TestThreeOptionsStandOut(t *testing.T) {
	s := testStudy(5)
	look := Light(units.IP)
	for _, k := range []Kind{fanAndSystemKind, filterDropKind, filterLifeKind, efficiencyBySizeKind} {
		for _, subject := range []Subject{
			{Study: s, Chosen: s.Options[4].Name}, {Study: s, Chosen: s.Options[3].Name, Pointed: s.Options[5].Name},
			{Study: s, Chosen: s.Options[3].Name, Pointed: s.Options[3].Name},
		} {
			f := k.make(subject, look)
			for _, w := range f.notes.words {
				if !w.inLegend {
					continue
				}
				want := look.Series[0]
				if strings.HasPrefix(w.texts[0], subject.Chosen) {
					want = look.Series[1]
				}
				assert.Equal(t, want, w.colour, "%s: %s", k.Key, w.texts[0])
			}
			colors := map[color.Color]int{}
			for _, d := range f.drawn {
				if line, ok := d.what.(stroke); ok && !slices.Contains([]color.Color{look.Ink, look.Faint, look.Limit}, line.style.Color) {
					colors[line.style.Color]++
				}
			}
			assert.Positive(t, colors[look.Series[0]], k.Key)
			assert.Positive(t, colors[look.Series[1]], k.Key)
			assert.Positive(t, colors[look.Rest], k.Key)
			assert.Equal(t, subject.Pointed != "" && subject.Pointed != subject.Chosen, colors[look.Series[2]] > 0, k.Key)
			for _, o := range s.Options[2:] {
				inKey := slices.ContainsFunc(f.key.entries, func(e legendEntry) bool { return strings.HasPrefix(e.word, o.Name) })
				assert.Equal(t, o.Name != subject.Chosen, inKey, "%s: %s", k.Key, o.Name)
			}
		}
	}
}

// Pointing at an option changes no layout: neither axes, nor words, nor legend.
func TestPointingMovesNothing(t *testing.T) {
	for house, s := range housesWithLongNames(t) {
		for _, k := range []Kind{fanAndSystemKind, filterDropKind, filterLifeKind, efficiencyBySizeKind} {
			plain := words(t, k.Of(Of(s), Light(units.IP)), px(900), px(500))
			for _, o := range s.Options {
				pointed := words(t, k.Of(Subject{Study: s, Pointed: o.Name}, Light(units.IP)), px(900), px(500))
				require.Equal(t, len(plain), len(pointed), "%s, %s: %s", house, k.Key, o.Name)
				for i := range plain {
					assert.Equal(t, plain[i].text, pointed[i].text, "%s, %s: %s", house, k.Key, o.Name)
				}
			}
		}
	}
}

// No word rubs out a curve: the ground of the words is drawn before every line
// of an option and of the blower. A limit ends behind it.
func TestWordsLieOverNoCurve(t *testing.T) {
	look := Light(units.IP)
	for _, k := range []Kind{fanAndSystemKind, filterDropKind, filterLifeKind, efficiencyBySizeKind} {
		f := k.make(Of(testStudy(5)), look)
		for _, d := range f.drawn {
			switch line := d.what.(type) {
			case stroke:
				limit := d.layer == layerLimits && !slices.Contains(append(look.Series[:], look.Rest, look.Ink), line.style.Color)
				assert.True(t, limit || d.layer > layerPlates, k.Key)
			case dot:
				assert.Greater(t, d.layer, layerPlates, k.Key)
			}
		}
	}
}

// While a slider moves, a word at a line's end keeps its place among the others
// until the lines have parted, and a word at a limit keeps its side.
func TestWordsKeepTheirSide(t *testing.T) {
	s := testStudy(1)
	canvas, look := NewCanvas(), Light(units.IP)
	stand := func(c *Canvas, static float64) (map[labelKey]int, map[labelKey]int) {
		now := *s
		now.Options = slices.Clone(s.Options)
		now.Options[2].SystemClean, now.Options[2].Clean = nil, s.Options[1].Clean
		now.Options[2].Clean.ExternalStatic *= units.Pressure(static)
		c.Render(FanAndSystem(&now, look), look, 900, 500, 96)
		return c.memory.rank, c.memory.order
	}
	above := labelKey{s.Options[2].Name + ", clean", 0}
	today := labelKey{s.Options[1].Name + ", clean", 0}
	_, order := stand(canvas, 1.2)
	require.Greater(t, order[above], order[today])
	sides, _ := stand(canvas, 1.17)
	again, order := stand(canvas, 1.1) // a hair lower now
	assert.Greater(t, order[above], order[today], "it keeps its place")
	assert.Equal(t, sides, again)
	_, order = stand(NewCanvas(), 1.1)
	assert.Less(t, order[above], order[today], "drawn for the first time it stands by its line")
	_, order = stand(canvas, 0.5)
	assert.Less(t, order[above], order[today], "far lower it gives way")
}

// A total carries its range: the whisker ends where the sampled range does.
func TestMoneyCarriesItsRange(t *testing.T) {
	s := testStudy(2)
	subject := Subject{Study: s, Ranges: make([]sizing.OptionRange, len(s.Options))}
	for i := range s.Options {
		total := s.Options[i].TenYearCost
		subject.Ranges[i] = sizing.OptionRange{Name: s.Options[i].Name, TenYearCost: sizing.Range[units.Money]{Low: 0.8 * total, High: 1.3 * total}}
	}
	f := tenYearCost(subject, Light(units.IP))
	for i, g := range f.bars.groups {
		total := float64(s.Options[i+1].TenYearCost)
		assert.InDelta(t, 0.8*total, g.rows[0].reach[0], 1e-9)
		assert.InDelta(t, 1.3*total, g.rows[0].reach[1], 1e-9)
		assert.LessOrEqual(t, g.rows[0].reach[1], f.X.Max)
		assert.True(t, g.rows[0].known())
	}
	assert.Contains(t, f.axis, "whisker")
	assert.NotContains(t, tenYearCost(Of(s), Light(units.IP)).axis, "whisker")
}

// The parts of each bar add up to the sum at its end.
func TestBarsAddUp_Identity(t *testing.T) {
	s := testStudy(4)
	for i := range s.Options {
		o := &s.Options[i]
		for _, c := range []*sizing.Condition{&o.Clean, &o.Loaded} {
			r := pressureBar(c, "", partNames(s), Light(units.SI))
			assert.InEpsilon(t, c.ExternalStatic.In(units.Pascal), r.end(), 1e-9)
		}
	}
}

func TestPartsKeepTheirColour(t *testing.T) {
	s := testStudy(1)
	for i := range s.Options {
		for _, c := range []*sizing.Condition{&s.Options[i].Clean, &s.Options[i].Loaded} {
			c.Parts = slices.DeleteFunc(slices.Clone(c.Parts), func(p sizing.PartDrop) bool { return p.Name == "coil" })
			c.Parts = append(c.Parts, sizing.PartDrop{Name: "damper", Drop: 5}, sizing.PartDrop{Name: "inner", Drop: 5, Internal: true})
		}
	}
	names := partNames(s)
	assert.Equal(t, []sizing.PartName{"return", "filter", "coil", "supply", "damper"}, names)
	assert.Equal(t, []sizing.PartName{"return", "filter", "supply", "damper"}, shownParts(s, names))
	all := texts(words(t, PressureByPart(s, Light(units.IP)), px(900), px(500)))
	assert.Contains(t, all, "damper")
	assert.NotContains(t, all, "coil")
	assert.NotContains(t, all, "inner")
}

func TestTapsAreNamedOnce(t *testing.T) {
	s := testStudy(0)
	s.Blower.Taps[2].Name, s.Blower.CoolingTap = "Tap 4", "Tap 4"
	all := texts(words(t, FanAndSystem(s, Light(units.IP)), px(900), px(500)))
	assert.Contains(t, all, "blower, cooling Tap 4")
	assert.Contains(t, all, "heating tap medium")
}

// degenerate studies: whatever the engine hands over, a chart is drawn.
func degenerate() map[string]*sizing.Study {
	nan := units.Flow(math.NaN())
	point := testStudy(2)
	same := testStudy(3)
	broken := testStudy(2)
	for i := range point.Options {
		o := &point.Options[i]
		o.SystemClean, o.SystemLoaded, o.FilterCurve, o.LifeCurve = head(o.SystemClean), head(o.SystemLoaded), head(o.FilterCurve), head(o.LifeCurve)
	}
	for i := range point.Blower.Taps {
		point.Blower.Taps[i].Curve = head(point.Blower.Taps[i].Curve)
	}
	for i := range same.Options {
		name := same.Options[i].Name
		same.Options[i] = same.Options[1]
		same.Options[i].Name = name
	}
	for i := range broken.Options {
		o := &broken.Options[i]
		o.Clean.Airflow, o.Loaded.ExternalStatic = nan, units.Pressure(math.Inf(1))
		o.Clean.BlowerPower, o.Life, o.TenYearCost = units.Power(math.NaN()), units.Duration(math.Inf(1)), units.Money(math.NaN())
		o.Efficiency.BySize[3] = math.NaN()
		for k := range o.SystemClean {
			o.SystemClean[k].Static = units.Pressure(math.NaN())
		}
	}
	broken.RatedExternalStatic, broken.DesignAirflow = units.Pressure(math.NaN()), nan
	odd := testStudy(1)
	odd.Options[1].Name = "東京 \u200b ≥ 13\nsecond line"
	odd.Options[2].Name = ""
	many := testStudy(1)
	for i := range 40 {
		o := many.Options[2]
		o.Name = fmt.Sprintf("Option number %d", i)
		many.Options = append(many.Options, o)
	}
	negative := testStudy(1)
	negative.Options[2].TenYearCost, negative.Options[2].Upgrade = -5, -10
	negative.Options[1].Clean.FilterDrop = -3
	return map[string]*sizing.Study{
		"nothing": {}, "no filter alone": {Options: testStudy(0).Options[:1]}, "names alone": {Options: []sizing.OptionResult{{Name: "a", Kind: sizing.KindNoFilter}, {Name: "b", Kind: sizing.KindToday}}},
		"one point": point, "all alike": same, "not numbers": broken, "odd names": odd, "forty options": many, "negative": negative,
		"no blower":    {DesignAirflow: 1200 * units.CFM, RatedExternalStatic: 0.5 * units.InchWater, Options: testStudy(1).Options},
		"blower alone": {Blower: testStudy(0).Blower},
	}
}

func head[T any](s []T) []T { return s[:min(len(s), 1)] }

func TestDegenerateStudiesAreDrawn(t *testing.T) {
	c := NewCanvas()
	for name, s := range degenerate() {
		for i, look := range []Look{{}, scaled(Dark(units.SI), 3), Light(units.IP)} {
			for _, k := range All(s, look) {
				for _, size := range [][2]int{{900, 500}, {620, 380}, {120, 90}, {1, 1}, {0, 0}} {
					require.NotPanics(t, func() { c.Render(k, look, size[0], size[1], 96) }, "%s, %s, %v", name, k.Key, size)
				}
				if i > 0 {
					continue
				}
				for _, format := range []string{"svg", "pdf"} {
					require.NotPanics(t, func() {
						assert.NoError(t, Write(discard{}, k, FileWidth, FileHeight, format), "%s, %s, %s", name, k.Key, format)
					})
				}
			}
		}
		for _, k := range All(s, Light(units.IP)) {
			paper := vg.Rectangle{Max: vg.Point{X: px(900), Y: px(500)}}
			for _, w := range words(t, k, paper.Max.X, paper.Max.Y) {
				assert.True(t, labels.Inside(w.box, paper), "%s, %s: %q leaves the paper", name, k.Key, w.text)
			}
		}
	}
}

type discard struct{}

func (discard) Write(b []byte) (int, error) { return len(b), nil }

func TestBetween_Identity(t *testing.T) {
	line := plotter.XYs{{X: 0, Y: 0}, {X: 10, Y: 100}, {X: 20, Y: 200}}
	assert.Equal(t, plotter.XYs{{X: 5, Y: 50}, {X: 10, Y: 100}, {X: 15, Y: 150}}, between(line, 5, 15))
	assert.Equal(t, plotter.XYs{{X: 2, Y: 20}, {X: 4, Y: 40}}, between(line, 2, 4))
	assert.Equal(t, line, between(line, 0, 20))
	assert.Empty(t, between(line, 30, 40))
	assert.Empty(t, between(nil, 0, 1))
	assert.Equal(t, plotter.XY{X: 15, Y: 150}, readOff(line, 15))
	assert.Equal(t, line[0], readOff(line, -1))
	assert.Equal(t, line[2], readOff(line, 99))
}

// The charts know the engine and no window.
func TestDeps(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		src, err := os.ReadFile(name)
		require.NoError(t, err)
		f, err := parser.ParseFile(token.NewFileSet(), name, src, parser.ImportsOnly)
		require.NoError(t, err)
		for _, i := range f.Imports {
			path := strings.Trim(i.Path.Value, `"`)
			assert.NotContains(t, path, "fyne", "%s: charts must draw without a window", name)
			assert.False(t, strings.HasPrefix(path, "returnbench/gui") || strings.HasPrefix(path, "returnbench/cmd"), "%s: the window knows the charts, not they it", name)
		}
	}
}
