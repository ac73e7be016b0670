package labels

import (
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

func drawLabels(t *rapid.T) []Label {
	labels := make([]Label, rapid.IntRange(0, 30).Draw(t, "labels"))
	for i := range labels {
		l := Label{At: drawPoint(t, "at"), End: rapid.Bool().Draw(t, "end"), Weight: rapid.IntRange(0, 9).Draw(t, "weight"),
			Texts: []string{rapid.StringN(1, 40, -1).Draw(t, "long"), rapid.StringN(1, 8, -1).Draw(t, "short")}}
		for range rapid.IntRange(0, 6).Draw(t, "spots") {
			l.Anchors = append(l.Anchors, Anchor{At: drawPoint(t, "spot"), DX: 0.5, DY: 0.5})
		}
		labels[i] = l
	}
	return labels
}

// No word may leave the area or lie on another, whatever is asked for.
func TestPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := vg.Rectangle{Max: vg.Point{X: vg.Length(rapid.Float64Range(20, 650).Draw(t, "w")), Y: vg.Length(rapid.Float64Range(10, 350).Draw(t, "h"))}}
		var walls []Segment
		for range rapid.IntRange(0, 10).Draw(t, "walls") {
			walls = append(walls, Segment{drawPoint(t, "a"), drawPoint(t, "b")})
		}
		out := Place(area, walls, drawLabels(t), measured)
		for i, p := range out {
			if !Inside(p.Box, area) {
				t.Fatalf("%q at %v leaves %v", p.Text, p.Box, area)
			}
			if measured(0, p.Text).X > p.Box.Max.X-p.Box.Min.X+1e-6 {
				t.Fatalf("%q is wider than its box %v", p.Text, p.Box)
			}
			for _, q := range out[:i] {
				if Overlap(p.Box, q.Box) {
					t.Fatalf("%q %v lies on %q %v", p.Text, p.Box, q.Text, q.Box)
				}
			}
		}
	})
}

func TestPlaceKeepsTheOrderOfTheLines(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 200}}
	var labels []Label
	for _, y := range []vg.Length{100, 103, 97, 101} {
		labels = append(labels, Label{Texts: []string{"word"}, At: vg.Point{X: 200, Y: y}, End: true})
	}
	out := Place(area, nil, labels, measured)
	assert.Len(t, out, 4)
	sort.Slice(out, func(i, j int) bool { return out[i].Box.Min.Y < out[j].Box.Min.Y })
	for i, want := range []int{2, 0, 3, 1} {
		assert.Equal(t, want, out[i].Label)
	}
}

func TestPlacePrefersAClearPlace(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 200}}
	wall := []Segment{{vg.Point{X: 0, Y: 50}, vg.Point{X: 400, Y: 50}}}
	l := Label{Texts: []string{"a word"}, Anchors: []Anchor{{At: vg.Point{X: 100, Y: 50}, DY: 0.5}, {At: vg.Point{X: 100, Y: 120}}}}
	out := Place(area, wall, []Label{l}, measured)
	assert.Len(t, out, 1)
	assert.Equal(t, vg.Length(120), out[0].Box.Min.Y)
	l.Anchors = l.Anchors[:1]
	assert.Len(t, Place(area, wall, []Label{l}, measured), 1, "a crossed line is better than no word")
}

func TestPlaceDropsTheLightestFirst(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 32}} // room for two
	var labels []Label
	for _, w := range []int{3, 1, 2} {
		labels = append(labels, Label{Texts: []string{"w"}, At: vg.Point{X: 10, Y: 10}, End: true, Weight: w})
	}
	var kept []int
	for _, p := range Place(area, nil, labels, measured) {
		kept = append(kept, p.Label)
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
	at := func(x0, y0, x1, y1 vg.Length) Segment {
		return Segment{vg.Point{X: x0, Y: y0}, vg.Point{X: x1, Y: y1}}
	}
	for _, s := range []Segment{at(0, 15, 30, 15), at(15, 0, 15, 30), at(12, 12, 13, 13), at(0, 0, 30, 30), at(15, 15, 15, 15)} {
		assert.True(t, crosses(box, s), "%v", s)
	}
	for _, s := range []Segment{at(0, 5, 30, 5), at(5, 0, 5, 30), at(0, 15, 9, 15), at(0, 12, 12, 0), at(5, 5, 5, 5)} {
		assert.False(t, crosses(box, s), "%v", s)
	}
}

// Two words side by side stand apart, so that they are not read as one.
func TestWordsSideBySideStandApart(t *testing.T) {
	area := vg.Rectangle{Max: vg.Point{X: 400, Y: 40}}
	at := Anchor{At: vg.Point{X: 100, Y: 10}}
	next := Anchor{At: vg.Point{X: 100 + 6*7 + 3, Y: 10}}
	further := Anchor{At: vg.Point{X: 100 + 6*7 + sideGap, Y: 10}}
	out := Place(area, nil, []Label{{Texts: []string{"tap low"}, Anchors: []Anchor{at}, Weight: 2}, {Texts: []string{"tap high"}, Anchors: []Anchor{next, further}, Weight: 1}}, measured)
	require.Len(t, out, 2)
	assert.GreaterOrEqual(t, out[1].Box.Min.X-out[0].Box.Max.X, vg.Length(sideGap))
}
