package labels

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"
)

// Label is a word to be placed near a point of the canvas.
type Label struct {
	// Texts are wordings of the same meaning, from long to short.
	Texts []string
	// End marks the word at the right end of a line, At. Such words keep the
	// order of their lines from top to bottom; all others take the first free
	// anchor.
	End     bool
	At      vg.Point
	Anchors []Anchor
	// Weight decides which word stays where two overlap: the heavier.
	Weight   int
	Optional bool // it stands only where it is clear of every line
	// Where it stood in the drawing before, 0 where it did not: the anchor, from 1,
	// and the place among the words at the ends of lines, from 1 at the lowest. It
	// keeps its place while that is clear.
	LastRank, LastOrder int
}

// Anchor is a place for a word: a point and how the word lies on it, in shares
// of its width and height (0,0: its lower left corner; 1,1: its upper right).
type Anchor struct {
	At     vg.Point
	DX, DY float64
	// Tip is what the word belongs to when it stands here.
	Tip vg.Point
	// Within narrows the area for this place; left open it does not.
	Within vg.Rectangle
}

// Placed is a word that found room.
type Placed struct {
	Label     int
	Text      string
	Box       vg.Rectangle
	Tip       vg.Point
	Leader    bool // far enough from its tip to need a line to it
	Crossings int  // lines under it
	Rank      int  // of its anchor
}

// Segment is a piece of a drawn line.
type Segment struct{ A, B vg.Point }

const (
	Gap     = 6       // points between a word and what it names
	rowGap  = 2       // points between two words over one another
	sideGap = 2 * Gap // between two side by side, which would else read as one
)

// Place finds room in area for the labels: no two overlap, none leaves the
// area, and lines are crossed only where no other place is left. Labels without
// room are left out. size measures a text.
func Place(area vg.Rectangle, walls []Segment, labels []Label, size func(i int, text string) vg.Point) []Placed {
	out := placeEnds(area, walls, labels, size)
	free := make([]int, 0, len(labels))
	for i := range labels {
		if !labels[i].End {
			free = append(free, i)
		}
	}
	slices.SortStableFunc(free, func(a, b int) int { return cmp.Compare(labels[b].Weight, labels[a].Weight) })
	for _, i := range free {
		if p, ok := placeFree(area, walls, i, labels[i], out, size); ok {
			out = append(out, p)
		}
	}
	return out
}

// placeFree tries each text from long to short on every anchor. One that
// crosses lines is taken only when no text has a clear one.
func placeFree(area vg.Rectangle, walls []Segment, i int, l Label, taken []Placed, size func(int, string) vg.Point) (Placed, bool) {
	if r := l.LastRank - 1; r >= 0 && r < len(l.Anchors) {
		again := l
		again.Anchors, again.LastRank, again.Optional = l.Anchors[r:r+1], 0, true
		if p, ok := placeFree(area, walls, i, again, taken, size); ok {
			p.Rank = r
			return p, true
		}
	}
	var best Placed
	least := -1
	for _, text := range l.Texts {
		sz := size(i, text)
		for rank, s := range l.Anchors {
			box := BoxAt(s, sz)
			if !Inside(box, area) || (s.Within != vg.Rectangle{} && !Inside(box, s.Within)) || overlapsAny(box, taken) {
				continue
			}
			hides := crossings(box, walls)
			if hides > 0 && l.Optional {
				continue
			}
			cost := 100*hides + rank
			if least < 0 || cost < least {
				least = cost
				best = Placed{Label: i, Text: text, Box: box, Tip: s.Tip, Leader: distance(box, s.Tip) > 3*Gap, Crossings: hides, Rank: rank}
			}
			if cost < 100 {
				return best, true // no later anchor can be better
			}
		}
	}
	return best, least >= 0
}

// placeEnds stacks the words at the ends of lines.
func placeEnds(area vg.Rectangle, walls []Segment, labels []Label, size func(int, string) vg.Point) []Placed {
	var ends []int
	levels := 0
	for i := range labels {
		if labels[i].End {
			ends = append(ends, i)
			levels = max(levels, len(labels[i].Texts))
		}
	}
	slices.SortStableFunc(ends, func(a, b int) int { return cmp.Compare(labels[b].Weight, labels[a].Weight) })
	// The longest wording that all can have clear of every line; where none
	// stays clear, the longest of those that leave out and cross least.
	var best []Placed
	least := -1
	for level := range levels {
		texts := endTexts(area, labels, ends, level, size)
		out, crossed := stackEnds(area, walls, labels, endsWithRoom(area, ends, texts, size), texts, size)
		if worse := crossed + missingWorse*(len(ends)-len(out)); least < 0 || worse < least {
			best, least = out, worse
		}
		if least == 0 {
			break
		}
	}
	return best
}

// missingWorse is how many crossed lines a missing word is as bad as.
const missingWorse = 1000

// endsWithRoom keeps the heaviest ends that have a wording and fit over one
// another, ordered by height.
func endsWithRoom(area vg.Rectangle, ends []int, texts map[int]string, size func(int, string) vg.Point) []int {
	var kept []int
	var high vg.Length
	for _, i := range ends {
		if texts[i] == "" {
			continue
		}
		if high += size(i, texts[i]).Y + rowGap; high > area.Max.Y-area.Min.Y {
			break
		}
		kept = append(kept, i)
	}
	return kept
}

// stackEnds puts the words of the ends each at its line's end and clear of the
// lines, and counts the lines that are crossed all the same.
func stackEnds(area vg.Rectangle, walls []Segment, labels []Label, ends []int, texts map[int]string, size func(int, string) vg.Point) (out []Placed, crossed int) {
	slices.SortStableFunc(ends, func(a, b int) int { return cmp.Compare(labels[a].At.Y, labels[b].At.Y) })
	keepOrder(ends, labels, func(i int) vg.Length { return size(i, texts[i]).Y })
	want := make([]vg.Length, len(ends))
	height := make([]vg.Length, len(ends))
	for n, i := range ends {
		want[n] = labels[i].At.Y
		height[n] = size(i, texts[i]).Y + rowGap
	}
	middle := spread(want, height, area.Min.Y, area.Max.Y)
	for n, i := range ends {
		sz := size(i, texts[i])
		box := BoxAt(Anchor{At: vg.Point{X: labels[i].At.X + Gap, Y: middle[n]}, DY: 0.5}, sz)
		box, c := pushRight(box, area, walls)
		crossed += c
		out = append(out, Placed{Label: i, Text: texts[i], Box: box, Tip: labels[i].At, Leader: distance(box, labels[i].At) > 1.5*Gap, Crossings: c})
	}
	return out, crossed
}

// keepOrder lets two words at the ends of lines change places only when their
// lines have parted by the height of a word.
func keepOrder(ends []int, labels []Label, height func(int) vg.Length) {
	for range ends {
		for n := 1; n < len(ends); n++ {
			a, b := labels[ends[n-1]], labels[ends[n]]
			if a.LastOrder > b.LastOrder && b.LastOrder > 0 && b.At.Y-a.At.Y < height(ends[n]) {
				ends[n-1], ends[n] = ends[n], ends[n-1]
			}
		}
	}
}

// endTexts gives every end its wording of a level, over two lines where one
// does not fit beside its line, and none where two do not.
func endTexts(area vg.Rectangle, labels []Label, ends []int, level int, size func(int, string) vg.Point) map[int]string {
	texts := map[int]string{}
	width := area.Max.X - area.Min.X
	for _, i := range ends {
		text := labels[i].Texts[min(level, len(labels[i].Texts)-1)]
		room := min(max(endRoom(area, labels[i]), width/4), width)
		if size(i, text).X > room {
			text = TwoLines(text)
		}
		if size(i, text).X <= room {
			texts[i] = text
		}
	}
	return texts
}

func endRoom(area vg.Rectangle, l Label) vg.Length {
	return area.Max.X - max(l.At.X, area.Min.X) - Gap
}

// pushRight moves a box to the nearest place at its height that crosses fewest
// lines, and counts those.
func pushRight(box, area vg.Rectangle, walls []Segment) (vg.Rectangle, int) {
	if over := box.Max.X - area.Max.X; over > 0 {
		box = box.Add(vg.Point{X: -over})
	}
	if under := area.Min.X - box.Min.X; under > 0 {
		box = box.Add(vg.Point{X: under})
	}
	var level []Segment // lines at the height of the box
	for _, w := range walls {
		if min(w.A.Y, w.B.Y) <= box.Max.Y && max(w.A.Y, w.B.Y) >= box.Min.Y {
			level = append(level, w)
		}
	}
	least, best := crossings(box, level), box
	for d := vg.Length(4); least > 0; d += 4 {
		b := box.Add(vg.Point{X: d})
		if b.Max.X > area.Max.X {
			break
		}
		if n := crossings(b, level); n < least {
			least, best = n, b
		}
	}
	return best, least
}

// spread moves the middles of boxes apart, the sum of squared moves least,
// keeping their order, within lo and hi. want must rise. Boxes that do not fit
// together overhang hi.
//
// With z = middle - half heights below it, the boxes touch or part when z
// rises: an isotonic regression, found by pooling neighbors.
func spread(want, height []vg.Length, lo, hi vg.Length) []vg.Length {
	type pool struct {
		sum vg.Length
		n   int
	}
	offset := make([]vg.Length, len(want))
	var below vg.Length
	var pools []pool
	for i := range want {
		offset[i] = below + height[i]/2
		below += height[i]
		pools = append(pools, pool{want[i] - offset[i], 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].sum/vg.Length(pools[k-1].n) >= pools[k].sum/vg.Length(pools[k].n); k-- {
			pools[k-1] = pool{pools[k-1].sum + pools[k].sum, pools[k-1].n + pools[k].n}
			pools = pools[:k]
		}
	}
	out := make([]vg.Length, 0, len(want))
	for _, p := range pools {
		z := max(min(p.sum/vg.Length(p.n), hi-below), lo)
		for range p.n {
			out = append(out, z+offset[len(out)])
		}
	}
	return out
}

func BoxAt(a Anchor, size vg.Point) vg.Rectangle {
	lo := vg.Point{X: a.At.X - vg.Length(a.DX)*size.X, Y: a.At.Y - vg.Length(a.DY)*size.Y}
	return vg.Rectangle{Min: lo, Max: lo.Add(size)}
}

func Inside(b, area vg.Rectangle) bool {
	const slack = 1e-6
	return b.Min.X >= area.Min.X-slack && b.Min.Y >= area.Min.Y-slack && b.Max.X <= area.Max.X+slack && b.Max.Y <= area.Max.Y+slack
}

func Overlap(a, b vg.Rectangle) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// overlapsAny reports whether a box comes too near to a word.
func overlapsAny(b vg.Rectangle, taken []Placed) bool {
	b.Min.X, b.Max.X = b.Min.X-sideGap, b.Max.X+sideGap
	return slices.ContainsFunc(taken, func(p Placed) bool { return Overlap(b, p.Box) })
}

// distance from a point to the nearest edge of a box.
func distance(b vg.Rectangle, p vg.Point) vg.Length {
	dx := max(b.Min.X-p.X, p.X-b.Max.X, 0)
	dy := max(b.Min.Y-p.Y, p.Y-b.Max.Y, 0)
	return max(dx, dy)
}

func crossings(b vg.Rectangle, walls []Segment) int {
	n := 0
	for _, w := range walls {
		if crosses(b, w) {
			n++
		}
	}
	return n
}

// crosses reports whether a piece of line touches a box: what is left of it
// after clipping to the four edges (Liang and Barsky).
func crosses(b vg.Rectangle, s Segment) bool {
	t0, t1 := vg.Length(0), vg.Length(1)
	d := s.B.Sub(s.A)
	for _, e := range [4]struct{ p, q vg.Length }{
		{-d.X, s.A.X - b.Min.X}, {d.X, b.Max.X - s.A.X},
		{-d.Y, s.A.Y - b.Min.Y}, {d.Y, b.Max.Y - s.A.Y},
	} {
		switch {
		case e.p == 0:
			if e.q < 0 {
				return false
			}
		case e.p < 0:
			t0 = max(t0, e.q/e.p)
		default:
			t1 = min(t1, e.q/e.p)
		}
	}
	return t0 <= t1
}
