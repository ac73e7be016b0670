package plots

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"

	"returnbench/plots/labels"
)

// memory keeps where the labels of a chart were when it was drawn last, and its
// layout, so that labels do not jump while a slider moves.
type memory struct {
	chart  string
	size   vg.Point
	lines  int
	layout int
	rank   map[labelKey]int // of the anchor, from 1
	order  map[labelKey]int // of the words at the ends of lines, from 1 at the lowest
}

// labelKey identifies a word whose number has changed: by its shortest wording,
// and by how many before it have the same.
type labelKey struct {
	word string
	nth  int
}

func keysOf(words []chartLabel) []labelKey {
	out := make([]labelKey, len(words))
	seen := map[string]int{}
	for i, w := range words {
		short := w.texts[len(w.texts)-1]
		out[i] = labelKey{short, seen[short]}
		seen[short]++
	}
	return out
}

// begin is the layout in which the chart was drawn last: 0, the best, where it was
// another chart.
func (m *memory) begin(chart string, size vg.Point, lines int) int {
	if m == nil {
		return 0
	}
	if m.chart != chart || m.size != size || m.lines != lines {
		*m = memory{chart: chart, size: size, lines: lines}
	}
	return m.layout
}

// setLayout remembers the layout in which the chart is drawn.
func (m *memory) setLayout(layout int) {
	if m != nil {
		m.layout = layout
	}
}

// keep remembers where the words stand.
func (m *memory) keep(words []chartLabel, placed []labels.Placed) {
	if m == nil {
		return
	}
	keys := keysOf(words)
	m.rank, m.order = map[labelKey]int{}, map[labelKey]int{}
	var ends []labels.Placed
	for _, p := range placed {
		if words[p.Label].end {
			ends = append(ends, p)
			continue
		}
		m.rank[keys[p.Label]] = p.Rank + 1
	}
	slices.SortStableFunc(ends, func(a, b labels.Placed) int { return cmp.Compare(a.Box.Min.Y, b.Box.Min.Y) })
	for i, p := range ends {
		m.order[keys[p.Label]] = i + 1
	}
}

// recall gives a label its last place.
func (m *memory) recall(i int, words []chartLabel, l *labels.Label) {
	if m == nil || m.rank == nil {
		return
	}
	key := keysOf(words)[i]
	l.LastRank, l.LastOrder = m.rank[key], m.order[key]
}
