package plots

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/plot/plotter"

	"returnbench/sizing"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// PleatCountKey is the key of the chart of PleatCount.
const PleatCountKey = "pleat-count"

// PleatCount shows drop and media area over the pleat count at each depth of
// pack, for the media of an option's filter: more pleats spread the air over
// more media, until their gaps become too narrow. The lowest drop of each depth
// is marked, and the filter as it is made.
func PleatCount(s *sizing.Study, option string, look Look) Chart {
	return PleatCountOf(option).Chart(s, look)
}

// PleatCountOf is the chart of PleatCount for the filter of an option.
func PleatCountOf(option string) Kind {
	return Kind{PleatCountKey, "Pleats and depth", func(s Subject, look Look) *frame { return pleatCountOf(s.Study, option, look) }}
}

func pleatCountOf(s *sizing.Study, option string, look Look) *frame {
	p, err := s.Pleats(option)
	if err != nil {
		f := newFrame(look, look.say("Pleats"), "")
		span(&f.X, 0, 1)
		f.stack(nil)
		f.notes.words = append(f.notes.words, f.middleWord(f.look.say("no filter with pleats, media or a MERV")))
		return f
	}
	return pleatCount(p, look)
}

func pleatCount(p *sizing.PleatStudy, look Look) *frame {
	f := newFrame(look, look.pleatAxis(p), "")
	drop := &tier{height: 1.7, title: f.look.say("Drop, {unit}, at {velocity}", "unit", f.look.unit(units.Pressure(0)), "velocity", p.FaceVelocity)}
	media := &tier{height: 1, title: f.look.say("Media area, {unit}", "unit", f.look.unit(units.Area(0)))}
	drop.share, media.share = 1-0.1*f.look.Scale, 1-0.2*f.look.Scale
	most, worst := 0.0, 0.0
	for _, d := range p.Depths {
		for _, q := range d.Points {
			most = max(most, float64(q.Pleats))
			media.include(f.look.in(q.MediaArea))
		}
		worst = max(worst, f.look.in(d.Points[d.Best].Drop))
	}
	if p.Own != nil {
		worst = max(worst, f.look.in(p.Own.Drop)/1.3)
	}
	drop.include(0)
	drop.include(worst * 1.6) // the high drops of few pleats and of closed gaps are outside the picture
	media.include(0)
	media.pad()
	span(&f.X, 0, most*1.04)
	f.stack([]*tier{drop, media})
	for i, d := range p.Depths {
		f.pleatDepth(i, d, p, drop, media)
	}
	f.asMade(p, drop, media)
	f.least = 5
	return f
}

// pleatAxis is the title of the horizontal axis: the width in which the pleats
// are counted, and their media.
func (l Look) pleatAxis(p *sizing.PleatStudy) string {
	size := stock.Size{Width: p.Width, Height: p.Height}
	if math.Abs(p.Width.In(units.Millimetre)-math.Round(p.Width.In(units.Millimetre))) < 1e-6 &&
		math.Abs(p.Width.In(units.Inch)-math.Round(p.Width.In(units.Inch)*4)/4) > 1e-6 {
		size.System = units.Metric
	}
	if p.MediaAssumed {
		return l.say("Pleats in {size}, media assumed, typical of MERV {merv}", "size", size.String(), "merv", p.MERV)
	}
	return l.say("Pleats in {size}, media of {filter}", "size", size.String(), "filter", l.oneLine(p.Filter))
}

// depthWord is a nominal depth: "4 in", "96 mm".
func depthWord(d units.Length, sys units.Locale) string {
	u := d.Kind().Usual(sys)
	return sys.Mark(strconv.FormatFloat(math.Round(100*d.SI()/u.Scale)/100, 'f', -1, 64)) + " " + u.Name
}

var depthDashes = [][]float64{nil, {10, 3}, {6, 3, 1.5, 3}, {3, 3}, {14, 3, 3, 3, 3, 3}, {1.5, 2}}

// leastDrop is the depth whose best pleat count has the least drop.
func leastDrop(p *sizing.PleatStudy) int {
	best := 0
	for i, d := range p.Depths {
		if b := p.Depths[best]; d.Points[d.Best].Drop < b.Points[b.Best].Drop {
			best = i
		}
	}
	return best
}

// pleatDepth draws one depth in both tiers, with its least drop marked.
func (f *frame) pleatDepth(i int, d sizing.PleatSweep, p *sizing.PleatStudy, drop, media *tier) {
	colour, width := f.look.Faint, thinWidth
	if i == leastDrop(p) {
		colour, width = f.look.Depths[0], todayWidth
	}
	style := f.look.line(colour, width, depthDashes[i%len(depthDashes)])
	mark := f.look.marker(i+1, rankChosen, false)
	mark.Color = colour
	depth := depthWord(d.Depth, f.look.Units)
	line := func(t *tier, value func(sizing.PleatPoint) float64) ReadoutLine {
		counts := plain(f.look.say("pleats"), f.look.say("pleats"), nil)
		l := ReadoutLine{Label: f.look.say("{depth} deep", "depth", depth)}
		for _, q := range d.Points {
			l.Points = append(l.Points, plotter.XY{X: float64(q.Pleats), Y: t.at(value(q))})
			counts.At = append(counts.At, float64(q.Pleats))
		}
		l.Values = []Values{counts,
			quantities(f.look.say("drop"), d.Points, func(q sizing.PleatPoint) units.Pressure { return q.Drop }),
			quantities(f.look.say("media area"), d.Points, func(q sizing.PleatPoint) units.Area { return q.MediaArea })}
		return l.finite()
	}
	best := d.Points[d.Best]
	drops := line(drop, func(q sizing.PleatPoint) float64 { return f.look.in(q.Drop) })
	f.readable(drops.under(drop.at(drop.hi)), style)
	at := plotter.XY{X: float64(best.Pleats), Y: drop.at(f.look.in(best.Drop))}
	f.point(at, mark)
	stroke := sample{line: style, mark: mark}
	inKey := f.look.say("{depth}: least at {pleats}, {drop}", "depth", depth, "pleats", best.Pleats, "drop", best.Drop)
	f.name(chartLabel{
		texts: []string{inKey, f.look.say("{depth}: least at {pleats}", "depth", depth, "pleats", best.Pleats), fmt.Sprintf("%s: %d", depth, best.Pleats), depth},
		at:    at, where: within(around(at), drop), line: drops.Points, colour: colour, weight: endWeight(i, false)},
		inKey, stroke)

	areas := line(media, func(q sizing.PleatPoint) float64 { return f.look.in(q.MediaArea) })
	f.readable(areas, style)
	f.point(plotter.XY{X: float64(best.Pleats), Y: media.at(f.look.in(best.MediaArea))}, mark)
	if f.look.inLegend {
		return
	}
	f.nameBeside(rankChosen, chartLabel{texts: []string{depth}, at: areas.Points[len(areas.Points)-1], end: true,
		line: areas.Points, colour: colour, weight: endWeight(i, true)}, stroke)
}

// asMade marks the filter as it is made.
func (f *frame) asMade(p *sizing.PleatStudy, drop, media *tier) {
	if p.Own == nil {
		return
	}
	n := float64(p.Own.Pleats)
	at := plotter.XY{X: n, Y: drop.at(f.look.in(p.Own.Drop))}
	style := f.look.marker(0, rankChosen, true)
	style.Color = f.look.Ink
	f.point(at, style)
	f.point(plotter.XY{X: n, Y: media.at(f.look.in(p.Own.MediaArea))}, style)
	f.notes.words = append(f.notes.words, chartLabel{
		texts: []string{f.look.say("as made: {pleats}, {drop}", "pleats", p.Own.Pleats, "drop", p.Own.Drop), f.look.say("as made: {pleats}", "pleats", p.Own.Pleats), f.look.say("as made")},
		at:    at, where: within(around(at), drop), colour: f.look.Ink, bold: true, weight: 98})
}

// within keeps words in a tier.
func within(positions []position, t *tier) []position {
	for i := range positions {
		positions[i].low, positions[i].high = t.base, t.base+t.height*t.share
	}
	return positions
}

// under keeps the part of a line that first comes below a height and then
// leaves it.
func (l ReadoutLine) under(top float64) ReadoutLine {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, p := range l.Points {
		if p.Y <= top {
			lo, hi = min(lo, p.X), max(hi, p.X)
		}
		if i == 0 {
			continue
		}
		if q := l.Points[i-1]; (q.Y > top) != (p.Y > top) {
			x := q.X + (p.X-q.X)*(top-q.Y)/(p.Y-q.Y)
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	return l.part(lo, hi)
}
