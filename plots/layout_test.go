package plots

import (
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// measured stands in for a typeface: every character six points wide.
func measured(_ int, text string) vg.Point {
	return vg.Point{X: 6 * vg.Length(len([]rune(text))), Y: 14}
}

func drawPoint(t *rapid.T, name string) vg.Point {
	return vg.Point{X: vg.Length(rapid.Float64Range(-50, 700).Draw(t, name+"x")), Y: vg.Length(rapid.Float64Range(-50, 400).Draw(t, name+"y"))}
}

func drawLabels(t *rapid.T) []label {
	labels := make([]label, rapid.IntRange(0, 30).Draw(t, "labels"))
	for i := range labels {
		l := label{at: drawPoint(t, "at"), end: rapid.Bool().Draw(t, "end"), weight: rapid.IntRange(0, 9).Draw(t, "weight"),
			texts: []string{rapid.StringN(1, 40, -1).Draw(t, "long"), rapid.StringN(1, 8, -1).Draw(t, "short")}}
		for range rapid.IntRange(0, 6).Draw(t, "spots") {
			l.spots = append(l.spots, anchor{at: drawPoint(t, "spot"), dx: 0.5, dy: 0.5})
		}
		labels[i] = l
	}
	return labels
}

// No word may leave the area or lie on another, whatever is asked for.
func TestLayout_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := vg.Rectangle{Max: vg.Point{X: vg.Length(rapid.Float64Range(20, 650).Draw(t, "w")), Y: vg.Length(rapid.Float64Range(10, 350).Draw(t, "h"))}}
		var walls []segment
		for range rapid.IntRange(0, 10).Draw(t, "walls") {
			walls = append(walls, segment{drawPoint(t, "a"), drawPoint(t, "b")})
		}
		out := layout(area, walls, drawLabels(t), measured)
		for i, p := range out {
			if !inside(p.box, area) {
				t.Fatalf("%q at %v leaves %v", p.text, p.box, area)
			}
			if measured(0, p.text).X > p.box.Max.X-p.box.Min.X+1e-6 {
				t.Fatalf("%q is wider than its box %v", p.text, p.box)
			}
			for _, q := range out[:i] {
				if overlap(p.box, q.box) {
					t.Fatalf("%q %v lies on %q %v", p.text, p.box, q.text, q.box)
				}
			}
		}
	})
}

func TestLayoutKeepsTheOrderOfTheLines(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 200}}
	var labels []label
	for _, y := range []vg.Length{100, 103, 97, 101} {
		labels = append(labels, label{texts: []string{"word"}, at: vg.Point{X: 200, Y: y}, end: true})
	}
	out := layout(area, nil, labels, measured)
	assert.Len(t, out, 4)
	sort.Slice(out, func(i, j int) bool { return out[i].box.Min.Y < out[j].box.Min.Y })
	for i, want := range []int{2, 0, 3, 1} {
		assert.Equal(t, want, out[i].label)
	}
}

func TestLayoutPrefersAClearSpot(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 200}}
	wall := []segment{{vg.Point{X: 0, Y: 50}, vg.Point{X: 400, Y: 50}}}
	l := label{texts: []string{"a word"}, spots: []anchor{{at: vg.Point{X: 100, Y: 50}, dy: 0.5}, {at: vg.Point{X: 100, Y: 120}}}}
	out := layout(area, wall, []label{l}, measured)
	assert.Len(t, out, 1)
	assert.Equal(t, vg.Length(120), out[0].box.Min.Y)
	l.spots = l.spots[:1]
	assert.Len(t, layout(area, wall, []label{l}, measured), 1, "a crossed line is better than no word")
}

func TestLayoutDropsTheLightestFirst(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 32}} // room for two
	var labels []label
	for _, w := range []int{3, 1, 2} {
		labels = append(labels, label{texts: []string{"w"}, at: vg.Point{X: 10, Y: 10}, end: true, weight: w})
	}
	var kept []int
	for _, p := range layout(area, nil, labels, measured) {
		kept = append(kept, p.label)
	}
	assert.ElementsMatch(t, []int{0, 2}, kept)
}

// spread keeps order and distance, moves nothing that need not move, and no
// other arrangement of two boxes moves them less.
func TestSpread_Identity(t *testing.T) {
	assert.Equal(t, []vg.Length{10, 50, 90}, spread([]vg.Length{10, 50, 90}, []vg.Length{14, 14, 14}, 0, 100))
	assert.Equal(t, []vg.Length{43, 57}, spread([]vg.Length{50, 50}, []vg.Length{14, 14}, 0, 100))
	assert.Equal(t, []vg.Length{7, 21}, spread([]vg.Length{2, 3}, []vg.Length{14, 14}, 0, 100))
	assert.Equal(t, []vg.Length{79, 93}, spread([]vg.Length{99, 100}, []vg.Length{14, 14}, 0, 100))
	assert.Empty(t, spread(nil, nil, 0, 1))

	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		want, height := make([]vg.Length, n), make([]vg.Length, n)
		total := vg.Length(0)
		for i := range want {
			want[i] = vg.Length(rapid.Float64Range(0, 300).Draw(t, "want"))
			height[i] = vg.Length(rapid.Float64Range(1, 25).Draw(t, "height"))
			total += height[i]
		}
		sort.Slice(want, func(i, j int) bool { return want[i] < want[j] })
		out := spread(want, height, 0, 300)
		for i := range out {
			if out[i]-height[i]/2 < -1e-9 || out[i]+height[i]/2 > 300+1e-9 {
				t.Fatalf("%v leaves 0 to 300", out)
			}
			if i > 0 && out[i]-out[i-1] < (height[i]+height[i-1])/2-1e-9 {
				t.Fatalf("%v too close for %v", out, height)
			}
		}
	})
}

func TestCrosses_Identity(t *testing.T) {
	box := vg.Rectangle{Min: vg.Point{X: 10, Y: 10}, Max: vg.Point{X: 20, Y: 20}}
	at := func(x0, y0, x1, y1 vg.Length) segment {
		return segment{vg.Point{X: x0, Y: y0}, vg.Point{X: x1, Y: y1}}
	}
	for _, s := range []segment{at(0, 15, 30, 15), at(15, 0, 15, 30), at(12, 12, 13, 13), at(0, 0, 30, 30), at(15, 15, 15, 15)} {
		assert.True(t, crosses(box, s), "%v", s)
	}
	for _, s := range []segment{at(0, 5, 30, 5), at(5, 0, 5, 30), at(0, 15, 9, 15), at(0, 12, 12, 0), at(5, 5, 5, 5)} {
		assert.False(t, crosses(box, s), "%v", s)
	}
}

func TestTicks_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		width := math.Pow(10, rapid.Float64Range(-3, 5).Draw(t, "decades"))
		ticks := roundTicks{n: rapid.IntRange(1, 8).Draw(t, "n")}.Ticks(lo, lo+width)
		if len(ticks) < 2 {
			t.Fatalf("%d ticks from %g to %g", len(ticks), lo, lo+width)
		}
		seen := map[string]bool{}
		for _, k := range ticks {
			if k.Value < lo-1e-6*width || k.Value > lo+width*(1+1e-6) {
				t.Fatalf("tick %g outside %g to %g", k.Value, lo, lo+width)
			}
			if seen[k.Label] {
				t.Fatalf("two ticks read %q", k.Label)
			}
			seen[k.Label] = true
		}
	})
	labels := []string{}
	for _, k := range (roundTicks{n: 5}).Ticks(0, 0.62) {
		labels = append(labels, k.Label)
	}
	assert.Equal(t, []string{"0.0", "0.2", "0.4", "0.6"}, labels)
}
