package plots

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"returnbench/plots/labels"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// housesWithLongNames are the demonstration houses, and one whose options have
// names as long as a careful person makes them.
func housesWithLongNames(t testing.TB) map[string]*sizing.Study {
	t.Helper()
	out := solvedHouses(t)
	long := *out["one-inch-slot.job.json"]
	long.Options = slices.Clone(long.Options)
	for i := range long.Options {
		if o := &long.Options[i]; o.Kind == sizing.KindOption {
			o.Name += ", and the hall door undercut by an inch"
		}
	}
	out["long names"] = &long
	return out
}

// checkWords holds the words of a chart to the paper, to their room and to the
// floor of the type, and gives them all, in the order in which they were
// written.
func checkWords(t *testing.T, c Chart, width, height, scale float64, where string) string {
	t.Helper()
	paper := vg.Rectangle{Max: vg.Point{X: px(width), Y: px(height)}}
	ws := words(t, c, paper.Max.X, paper.Max.Y)
	for i, w := range ws {
		assert.True(t, labels.Inside(w.box, paper), "%s: %q at %v leaves the paper", where, w.text, w.box)
		assert.NotContains(t, w.text, "…", "%s: cut", where)
		assert.GreaterOrEqual(t, w.size.Points(), textSize*scale*typeFloor-1e-6, "%s: %q", where, w.text)
		for _, o := range ws[:i] {
			assert.False(t, labels.Overlap(shrunk(w.box), shrunk(o.box)), "%s: %q lies on %q", where, w.text, o.text)
		}
	}
	return strings.Join(strings.Fields(texts(ws)), " ")
}

// Every option is named whole in every chart, at every size and text that the
// window offers; no word leaves the paper, lies on another or is cut.
func TestEveryNameIsWhole(t *testing.T) {
	looks := []func(units.Locale) Look{Light, Dark, Print}
	n := 0
	for house, s := range housesWithLongNames(t) {
		for _, size := range [][2]float64{{620, 380}, {900, 500}, {570, 440}} {
			for _, scale := range []float64{1, 1.25, 1.5} {
				for _, sys := range []units.Locale{units.IP, units.SI} {
					look := scaled(looks[n%len(looks)](sys), scale)
					n++
					for _, c := range All(s, look) {
						where := fmt.Sprintf("%s, %s, %v, %g, %v", house, c.Key, size, scale, sys)
						all := checkWords(t, c, size[0], size[1], scale, where)
						checkNames(t, c, s, all, where)
					}
				}
			}
		}
	}
}

func checkNames(t *testing.T, c Chart, s *sizing.Study, all, where string) {
	t.Helper()
	assert.NotContains(t, all, "no room", where)
	for i := range s.Options {
		o := &s.Options[i]
		showsBare := c.Key == FanAndSystemKey || c.Key == "pressure-by-part" || c.Key == "watts"
		if c.Key == PleatCountKey || (noFilter(o) && !showsBare) {
			continue
		}
		assert.Contains(t, all, o.Name, where)
	}
	if c.Key == FanAndSystemKey {
		for _, tap := range s.Blower.Taps {
			assert.Contains(t, all, tap.Name, where)
		}
	}
}

// Names stand at their lines where there is room, and in a key where there is
// not; the key holds the strokes of what it names.
func TestAKeyComesLast(t *testing.T) {
	houses := housesWithLongNames(t)
	fit := func(house string, width, height, scale float64) *frame {
		var log recorder.Canvas
		return FanAndSystem(houses[house], scaled(Light(units.IP), scale)).fit(draw.NewCanvas(&log, px(width), px(height)))
	}
	wide := fit("one-inch-slot.job.json", 900, 500, 1)
	assert.False(t, wide.look.inLegend)
	assert.Equal(t, 1.0, wide.look.share)
	others := len(houses["one-inch-slot.job.json"].Options) - 2 // all but today and the one recommended
	assert.Len(t, wide.key.entries, others)

	smaller := fit("one-inch-slot.job.json", 570, 440, 1.5)
	assert.False(t, smaller.look.inLegend)
	assert.Less(t, smaller.look.share, 1.0, "smaller type before a key")
	assert.GreaterOrEqual(t, smaller.look.share, namedFloor-1e-9)

	inLegend := fit("long names", 620, 380, 1.5)
	require.True(t, inLegend.look.inLegend)
	s := houses["long names"]
	require.Len(t, inLegend.key.entries, len(s.Options)+2, "the options, what was measured and the two states")
	for i, o := range s.Options {
		e := inLegend.key.entries[i]
		assert.Equal(t, o.Name, e.word)
		for k, smp := range e.samples {
			want := inLegend.look.marker(i, Of(s).rank(i), k == 1)
			assert.Equal(t, want.Color, smp.line.Color)
			assert.Equal(t, want, smp.mark)
		}
	}
	assert.Equal(t, inLegend.look.stroke(rankToday, dashLoaded), inLegend.key.entries[1].samples[1].line)
}

// What has no room even in the key is counted, and the rest is whole.
func TestWhatHasNoRoomIsCounted(t *testing.T) {
	many := testStudy(1)
	for i := range 60 {
		o := many.Options[2]
		o.Name = fmt.Sprintf("Return grille in room %02d", i)
		many.Options = append(many.Options, o)
	}
	counted := 0
	for _, k := range Kinds() {
		if k.Key == PleatCountKey {
			continue
		}
		all := checkWords(t, k.Chart(many, Light(units.IP)), 620, 380, 1, k.Key)
		missing := 0
		for _, o := range many.Options[1:] {
			if !strings.Contains(all, o.Name) {
				missing++
			}
		}
		if m := regexp.MustCompile(`(\d+) more have no room`).FindStringSubmatch(all); m != nil {
			counted++
			// In the key of blower and system the states are an entry too.
			n, err := strconv.Atoi(m[1])
			require.NoError(t, err)
			assert.InDelta(t, missing, n, 1, k.Key)
			continue
		}
		assert.Zero(t, missing, k.Key)
	}
	assert.Positive(t, counted)
}

// At the least height that the window gives a chart every chart is drawn, and
// nothing lies on anything else.
func TestLowChartsAreDrawn(t *testing.T) {
	for house, s := range solvedHouses(t) {
		for _, scale := range []float64{1, 1.25, 1.5} {
			for _, c := range All(s, scaled(Dark(units.SI), scale)) {
				checkWords(t, c, 580, 240, scale, fmt.Sprintf("%s, %s, %g", house, c.Key, scale))
			}
		}
	}
}

// A chart with too little room for its data says so and draws none of it.
func TestTooLittleRoomIsReported(t *testing.T) {
	for _, scale := range []float64{1, 1.5} {
		for _, c := range All(testStudy(4), scaled(Dark(units.SI), scale)) {
			var log recorder.Canvas
			paper := draw.NewCanvas(&log, px(580), px(60))
			_, ok := c.Draw(paper)
			assert.False(t, ok, c.Key)
			var said []string
			for _, a := range log.Actions {
				switch a := a.(type) {
				case *recorder.FillString:
					said = append(said, a.String)
				case *recorder.Stroke:
					t.Errorf("%s draws a line", c.Key)
				}
			}
			assert.Equal(t, string(noRoom), strings.Join(said, " "), c.Key)
		}
	}
	_, ok := FanAndSystem(testStudy(2), Light(units.IP)).Draw(draw.Canvas{})
	assert.False(t, ok)
}

// A part of a chart is shown in the type and with the key of the whole, so that
// nothing jumps while a person looks closer.
func TestZoomKeepsTheLayout(t *testing.T) {
	s := solvedHouses(t)["one-inch-slot.job.json"]
	for _, k := range Kinds() {
		var log recorder.Canvas
		paper := draw.NewCanvas(&log, px(570), px(440))
		look := scaled(Light(units.IP), 1.5)
		whole, part := k.Chart(s, look), k.Chart(s, look)
		if whole.bars != nil {
			continue
		}
		View{0.2, 0.5, 0.3, 0.6}.Set(part.Plot)
		a, b := whole.fit(paper), part.fit(paper)
		assert.Equal(t, a.look.share, b.look.share, k.Key)
		assert.Equal(t, a.look.inLegend, b.look.inLegend, k.Key)
		x, y := scaleOf(a.X), scaleOf(a.Y)
		assert.InEpsilon(t, x.value(0.2), b.X.Min, 1e-9, k.Key)
		assert.InEpsilon(t, y.value(0.6), b.Y.Max, 1e-9, k.Key)
	}
}

// A limit ends behind a word that stands on it, and a curve does not: the ground of words
// is drawn over the one and under the other.
func TestALimitEndsBehindAWord(t *testing.T) {
	dash := draw.LineStyle{Dashes: Light(units.IP).line(nil, 1, dashLimit).Dashes}.Dashes
	limits, on := 0, 0
	for house, s := range housesWithLongNames(t) {
		for _, c := range All(s, Light(units.IP)) {
			var log recorder.Canvas
			if c.bars != nil {
				continue
			}
			paper := draw.NewCanvas(&log, px(620), px(380))
			f := c.fit(paper)
			require.NotNil(t, f, c.Key)
			log.Reset()
			require.True(t, drawPlot(f.Plot, f.room.chart))
			plates := map[string]bool{}
			for _, w := range f.notes.laid.words {
				plates[fmt.Sprint(w.Box.Path())] = true
				if w.Crossings > 0 {
					on++
				}
			}
			plate, curve := -1, -1
			var dashed []vg.Length
			for i, a := range log.Actions {
				switch a := a.(type) {
				case *recorder.SetLineDash:
					dashed = a.Dashes
				case *recorder.Stroke:
					if slices.Equal(dashed, dash) {
						assert.Negative(t, plate, "%s, %s: a limit lies over the words' ground", house, c.Key)
						limits++
					} else if plate >= 0 && curve < 0 {
						curve = i
					}
				case *recorder.Fill:
					if plates[fmt.Sprint(a.Path)] {
						plate = i
					}
				}
			}
			if len(plates) > 0 {
				assert.Greater(t, curve, plate, "%s, %s: no curve lies over the words' ground", house, c.Key)
			}
		}
	}
	assert.Positive(t, limits)
	assert.Positive(t, on, "no word stands on a line")
}
